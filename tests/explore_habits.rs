//! Working habits in the explorer: typing, help, taking back, pages, finding commands.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use fretloom::tui::command::{COMMANDS, Command, CommandRow, ProgramCommand, Section};
use fretloom::tui::keys::Keys;
use fretloom::tui::program::Effect;
use player::{HELP_FIRST, OPENED, Player};

#[test]
fn a_chord_typed_well_starts_at_its_first_pair() {
    let player = Player::after("Gmaj7#11", "down s c D m 7 enter");
    assert_eq!(player.chord(), "Dm7");
    assert_eq!(player.scale(), "D Dorian");
    assert_eq!(player.program.explore().pair().unwrap().rank, 1);
    assert!(player.shows("scale 1 of"));
}

#[test]
fn a_chord_typed_badly_stays_in_its_field_and_the_last_good_one_on_the_screen() {
    let mut player = Player::after("Gmaj7#11", "c C q enter");
    assert_eq!(player.line(0), "chord Cq");
    assert!(player.line(1).starts_with("character 2: expected "), "{}", player.line(1));
    assert_eq!(player.chord(), "Gmaj7♯11");
    assert!(player.shows("[G] & (A)"));
    player.press("backspace 7 enter");
    assert_eq!(player.chord(), "C7");
}

#[test]
fn a_chord_typed_the_german_way_is_told_how_it_is_written_here() {
    let player = Player::after("Gmaj7#11", "c H 7");
    assert!(player.line(1).ends_with("H is written B here, and B is Bb"), "{}", player.line(1));
}

#[test]
fn a_chord_that_is_left_changes_nothing() {
    let mut player = Player::after("Gmaj7#11", "down space n");
    let before = player.screen();
    player.press("c D m 7 esc");
    assert_eq!(player.screen(), before);
}

#[test]
fn keys_that_mean_something_elsewhere_are_text_in_the_field() {
    let player = Player::after("Gmaj7#11", "c q ? j s space 1 S");
    assert_eq!(player.line(0), "chord q?js 1S");
    assert!(player.effects.is_empty());
}

#[test]
fn a_paste_goes_into_the_field_and_nowhere_else() {
    let mut player = Player::with("Gmaj7#11");
    let before = player.screen();
    player.paste("q\nDm7");
    assert_eq!(player.screen(), before);
    assert!(player.effects.is_empty());
    player.press("c");
    player.paste("Dm7\n");
    assert_eq!(player.line(0), "chord Dm7");
    player.press("enter");
    assert_eq!(player.chord(), "Dm7");
    player.press("e");
    player.paste("q");
    assert_eq!(player.line(0), "Scales that fit Dm7");
}

/// A mistake is told with what was typed, in any window.
#[test]
fn wide_signs_may_be_typed_in_a_narrow_window() {
    for (field, columns) in
        ["c", "w"].into_iter().flat_map(|field| (0..30).map(move |n| (field, n)))
    {
        for typed in ["漢", "x漢 y漢漢漢漢漢漢 z漢"] {
            let mut player = Player::after("Gmaj7#11", field);
            player.paste(typed);
            player.resize(columns, 56);
            assert_eq!(player.buffer().area.width, columns);
        }
    }
}

#[test]
fn help_ends_on_its_last_line_and_comes_back_at_once() {
    let mut player = Player::after("Gmaj7#11", "?");
    let top = player.screen();
    player.press("pagedown pagedown pagedown pagedown pagedown pagedown pagedown down");
    assert!(player.shows("warm up, rest, and stop when it hurts"));
    let end = player.screen();
    player.press("up");
    assert_ne!(player.screen(), end, "the first key upwards moves");
    player.press("pageup pageup pageup pageup pageup pageup pageup");
    assert_eq!(player.screen(), top);
    player.press("esc");
    assert_eq!(player.line(0), OPENED);
}

/// At the classic width no line of it is cut off.
#[test]
fn help_can_be_read_to_the_end_of_its_lines() {
    let mut player = Player::after("Gmaj7#11", "?");
    player.resize(80, 150);
    let cut: Vec<String> =
        player.screen().lines().filter(|line| line.ends_with('…')).map(str::to_owned).collect();
    assert_eq!(cut, [""; 0]);
}

#[test]
fn help_shows_every_command_with_all_its_keys() {
    let (keys, _) = Keys::built_in();
    let mut player = Player::after("Gmaj7#11", "?");
    player.resize(80, 128);
    let help = player.screen();
    // The keys of the other screens stand on help pages of their own.
    let others =
        [Section::Line, Section::Changes, Section::Keepers, Section::Listen, Section::Practice];
    for row in COMMANDS.iter().filter(|row| !others.contains(&row.section)) {
        let line = help.lines().find(|line| line.ends_with(row.help));
        let line = line.unwrap_or_else(|| panic!("no help on {}", row.name));
        for key in keys.of(row) {
            assert!(line.contains(&key.label(fretloom::tui::key::Glyphs::Unicode)), "{line}");
        }
    }
}

#[test]
fn q_closes_a_list_before_it_quits() {
    let mut player = Player::after("Gmaj7#11", "? esc e q");
    assert!(player.effects.is_empty());
    player.press("q");
    assert!(matches!(player.effects[..], [Effect::Quit]));
}

/// Every command of the explorer that changes something is taken back as a whole, to the last cell,
/// and made again.
#[test]
fn every_change_can_be_taken_back_and_made_again() {
    let changes =
        "down s f m space d 1 2 t l h o n p i r y W L right 9 0 v x v x v x v x V X S up T I";
    let mut player = Player::after("C7b9", "");
    let mut seen = vec![below_told(&player)];
    for key in changes.split(' ') {
        player.press(key);
        if seen.last() != Some(&below_told(&player)) {
            seen.push(below_told(&player));
        }
    }
    player.press("w 7 enter e down enter g d r o p enter c D m 7 enter");
    let end = below_told(&player);
    player.press("z z z z");
    for (step, before) in seen.iter().enumerate().rev() {
        assert_eq!(&below_told(&player), before, "step {step}");
        player.press("z");
    }
    assert_eq!(player.told(), "nothing to take back");
    player.press(&"Z ".repeat(seen.len() + 3));
    assert_eq!(below_told(&player), end);
}

/// The screen of a guitar without the lines that tell what the last key did.
fn below_told(player: &Player) -> String {
    let screen = player.screen();
    let told = screen.lines().position(|line| line.starts_with("─ frets")).unwrap() + 10;
    screen
        .lines()
        .enumerate()
        .filter(|(row, _)| !(told..told + 2).contains(row))
        .map(|(_, line)| line)
        .collect()
}

#[test]
fn a_chord_that_was_typed_is_one_step_and_looking_is_none() {
    let mut player = Player::after("Gmaj7#11", "down c D m 7 enter ? esc e esc g esc w esc z");
    assert_eq!((player.chord().as_str(), player.pair().as_str()), ("Gmaj7♯11", "G & F#m"));
    player.press("z");
    assert_eq!(player.pair(), "G & A");
}

#[test]
fn chords_are_pages_that_keep_their_scale_and_pair() {
    let mut player = Player::after("Gmaj7#11", "s down c D m 7 enter down down c G 7 enter < <");
    let told = |player: &Player| (player.chord(), player.scale(), player.pair());
    let first = told(&player);
    assert_eq!((first.0.as_str(), first.1.as_str()), ("Gmaj7♯11", "G Lydian augmented"));
    player.press("> >");
    assert_eq!(player.chord(), "G7");
    player.press("<");
    assert_eq!(told(&player), ("Dm7".to_owned(), "D Dorian".to_owned(), "Dm & Em".to_owned()));
    player.press("c C 7 enter");
    assert_eq!(told(&Player::after("Gmaj7#11", "s down")), first);
    player.press(">");
    assert_eq!(player.told(), "this is the last chord");
}

/// Letters search the help page, by what a line says and by the command's name; headings stay.
#[test]
fn help_is_searched_by_typing() {
    let player = Player::after("Gmaj7#11", "? c a p o");
    let lines: Vec<String> = (0..6).map(|row| player.line(row)).collect();
    assert_eq!(lines[0], "Every key, or type a word: capo");
    assert_eq!(lines[1], HELP_FIRST);
    assert!(lines[2].ends_with("the capo a fret up, partial or not"), "{}", lines[2]);
    assert!(lines[3].ends_with("the capo a fret down, at last off"), "{}", lines[3]);
    assert_eq!(lines[5], "On the neck");
    let none = Player::after("Gmaj7#11", "? z z z");
    assert!(none.shows("nothing has that name"));
}

/// Whatever the list offers can be found by typing its name, and then stands first.
#[test]
fn every_command_is_found_by_its_name() {
    let palette = Command::Program(ProgramCommand::Palette);
    let there =
        |row: &&CommandRow| row.section.is_heard_with(Section::Explore) && row.command != palette;
    for row in COMMANDS.iter().filter(there) {
        let mut player = Player::after("Gmaj7#11", "tab");
        let name = row.name.replace('-', " ");
        player.paste(&name);
        assert_eq!(player.marked(), name);
    }
}

/// Every command of the explorer changes the screen or says why it changes nothing, wherever the
/// hand is and whatever is looked at.
#[test]
fn a_key_that_does_nothing_says_why() {
    let of_explorer = |row: &&CommandRow| matches!(row.command, Command::Explore(_));
    let keys = Keys::built_in().0;
    let leads = ["", "v", "v v", "v v X", "v v v", "v v v v", "l", "P V space 9 - 9 enter", "down"];
    for chord in ["Gmaj7#11", "C7alt", "Cmaj7#5#9b9", "C7b9"] {
        for lead in leads {
            for row in COMMANDS.iter().filter(of_explorer) {
                let mut player = Player::after(chord, lead);
                // Labels turn once, so that nothing is told of the keys before.
                player.press("n");
                let before = player.screen();
                player.press(&keys.first(row.command).unwrap().to_string());
                assert_ne!(player.screen(), before, "{chord}, {lead:?}: {}", row.name);
            }
        }
    }
}
