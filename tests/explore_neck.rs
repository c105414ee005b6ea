//! The neck of the explorer and the hand on it: climbs, views, tunings, capos and what stays in view.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use std::collections::HashSet;

use fretloom::answer::PairPlace;
use fretloom::tui::event::Event;
use fretloom::tui::mouse::{Pointed, Pointer};
use fretloom::tui::runtime::App;
use neck_reader::DrawnNeck;
use player::Player;

/// Every step of a climb goes up by ear, over all string sets, until the neck ends; then it turns
/// round, says so, and comes down again. The other key goes the other way.
#[test]
fn a_climb_goes_over_all_strings_and_turns_where_the_neck_ends() {
    for (key, comes_up) in [("space", false), ("backspace", true)] {
        let mut player = Player::with("Gmaj7#11");
        let ends = |player: &Player| player.shows("the neck ends here: turning round");
        while !ends(&player) {
            player.press(key);
        }
        for up in [comes_up, !comes_up] {
            let mut sets = vec![player.strings()];
            loop {
                let before = (height(&player), player.strings());
                player.press(key);
                if ends(&player) {
                    break;
                }
                let rises = height(&player) >= before.0;
                assert!(rises == up || height(&player) == before.0, "{}", player.shape());
                if player.strings() != before.1 {
                    // What the fingers do may follow in the same line.
                    let said = format!("strings {} end here: on to {}", before.1, player.strings());
                    assert!(player.told().starts_with(&said), "{}", player.told());
                    sets.push(player.strings());
                }
            }
            let mut expected = vec!["6-5-4", "5-4-3", "4-3-2", "3-2-1"];
            if !up {
                expected.reverse();
            }
            assert_eq!(sets, expected);
        }
    }
}

/// How high three notes sound together.
fn height(player: &Player) -> u32 {
    let shape = player.named_shape().unwrap().shape;
    shape.pitches().map(|pitch| u32::from(pitch.midi())).iter().sum()
}

/// Locked strings are stayed on: at the end of the ladder the climb turns round, says so, and goes
/// over the same shapes back.
#[test]
fn a_climb_on_locked_strings_turns_at_their_end() {
    for (key, back, other) in [("space", "down", "backspace"), ("backspace", "up", "space")] {
        let mut player = Player::after("Gmaj7#11", "l");
        let said = format!("strings 4-3-2 end here: turning round, {back} again");
        let mut way = vec![player.shape()];
        while !player.shows(&said) {
            player.press(key);
            assert_eq!(player.strings(), "4-3-2");
            way.push(player.shape());
        }
        let (turn, last) = (way.pop().unwrap(), way.pop().unwrap());
        assert_eq!(Some(&turn), way.last(), "{last}");
        way.pop();
        while let Some(shape) = way.pop() {
            player.press(key);
            assert_eq!(player.shape(), shape);
        }
        // The other key goes the other way.
        let here = player.shape();
        player.press(other);
        assert_ne!(player.shape(), here);
        player.press(key);
        assert_eq!(player.shape(), here);
    }
}

/// In position V on strings 3-2-1, and in every view that holds shapes, the last shape is followed
/// by the one before it.
#[test]
fn a_climb_in_a_view_turns_at_its_last_shape() {
    for lead in ["P V space 3 - 2 - 1 enter", "v", "v v", "v v v"] {
        let mut player = Player::after("Dm7", lead);
        let mut way = vec![player.shape()];
        for _ in 0..60 {
            player.press("space");
            way.push(player.shape());
            if player.shows("turning round") {
                break;
            }
        }
        assert!(player.shows("the last shape "), "{lead}: {}", player.screen());
        assert!(way.len() > 1, "{lead}: {way:?}");
        if let [.., before, _, now] = &way[..] {
            assert_eq!(before, now, "{lead}");
        }
    }
}

/// Looking through pairs and scales does not lead the hand away: whatever lay between, a pair has
/// the shape that is nearest to the one that was played.
#[test]
fn looking_through_pairs_moves_no_hand() {
    for chord in ["Dm7b5", "G7alt", "Cm6", "Gmaj7#11"] {
        let mut player = Player::after(chord, "space space");
        let mut first = vec![];
        for _ in 0..7 {
            first.push((player.pair(), player.shape()));
            player.press("down");
        }
        for (pair, shape) in first {
            assert_eq!((player.pair(), player.shape()), (pair, shape), "{chord}");
            player.press("n down");
        }
    }
}

/// Strings that are typed keep the triad in hand: it is found on them.
#[test]
fn typed_strings_keep_the_triad() {
    for (lead, strings) in
        [("", "3-2-1"), ("2", "3-2-1"), ("space space 1", "6-5-4"), ("2 2", "5-4-3")]
    {
        for chord in ["Dm7b5", "G7alt", "Cm6", "Gmaj7#11"] {
            let mut player = Player::after(chord, lead);
            let triad = |player: &Player| player.named_shape().unwrap().triad;
            let before = triad(&player);
            let typed: Vec<String> = strings.chars().map(|sign| sign.to_string()).collect();
            player.press(&format!("P {} enter", typed.join(" ")));
            assert_eq!(player.strings(), strings);
            assert_eq!(triad(&player), before, "{chord}, {lead:?}");
        }
    }
}

/// In a view the hand stands on what is seen, and climbs over it; the view stays as it is.
#[test]
fn in_a_view_the_hand_is_where_one_looks() {
    for (view, lead) in [("position ", "v"), ("across, chain 1", "v v v"), ("strings ", "v v X")] {
        let mut player = Player::after("Dm7", lead);
        assert!(player.shows(&format!("─ {view}")), "{view}: {}", player.screen());
        let mut shapes = HashSet::new();
        for _ in 0..12 {
            player.press("space");
            let shape = player.named_shape().unwrap();
            let seen = player.program.explore().view_places().unwrap();
            for place in shape.shape.places() {
                let is_it = |answer: &&PairPlace| answer.place == place;
                assert!(seen.iter().find(is_it).is_some(), "{view}: {}", player.screen());
            }
            shapes.insert(player.shape());
            assert!(player.shows(&format!("─ {view}")), "{view}: {}", player.screen());
        }
        assert!(shapes.len() > 1, "{view}");
    }
}

/// A view opens where the hand is: a position and a chain hold its shape, and a run of single notes
/// begins no more than two positions away.
#[test]
fn a_view_opens_where_the_hand_is() {
    for climbs in ["", "space space space", "t space space", "1 1 1 1"] {
        for chord in ["Gmaj7#11", "Dm7", "C7alt"] {
            let mut player = Player::after(chord, climbs);
            let shape = player.shape();
            player.press("v");
            assert_eq!(player.shape(), shape, "{}", player.screen());
            player.press("v v");
            assert!(player.looks().starts_with("across, chain 1 of "), "{}", player.screen());
            assert_eq!(player.shape(), shape, "{}", player.screen());
        }
    }
}

/// In one position on three strings through a minor ii–V–i, forth and back: every chord has its
/// shape again, and it lies in position V on these strings.
#[test]
fn chords_keep_their_shapes_under_one_hand() {
    let mut player = Player::after("Dm7b5", "P V space 3 - 2 - 1 enter space");
    let mut shapes = vec![player.shape()];
    for keys in ["c G 7 a l t enter 2", "c C m ( m a j 7 ) enter space space"] {
        player.press(keys);
        shapes.push(player.shape());
    }
    for (key, back) in [("<", 1), ("<", 0), (">", 1), (">", 2)] {
        player.press(key);
        assert_eq!(player.shape(), shapes[back], "{}", player.screen());
        assert_eq!(player.looks(), "position V, locked to 3-2-1");
        let shape = player.named_shape().unwrap();
        assert!(shape.frets.iter().all(|fret| (4..=9).contains(&fret.number())));
    }
}

/// At some frets only nothing else is climbed, inverted or found elsewhere.
#[test]
fn wanted_frets_are_kept() {
    let mut player = Player::after("Gmaj7#11", "P 5 - 1 2 enter");
    for key in "space 1 2 o o t space backspace o v space o v v x 1 v x x v down s space".split(' ')
    {
        player.press(key);
        let Some(shape) = player.named_shape() else { continue };
        assert!(shape.frets.iter().all(|fret| (5..=12).contains(&fret.number())), "{key}");
        assert!(player.shows("only frets 5–12"));
    }
}

/// What no hand can do is said, with the key that gives more room.
#[test]
fn a_key_that_finds_no_shape_says_so() {
    for (keys, told) in [
        (
            "P V space 9 - 9 enter space",
            "no such shape in position V, at frets 9–9: v gives more room",
        ),
        ("v v X X space", "no such shape on string 6: v gives more room"),
        ("P 3 - 5 space 4 - 3 - 2 enter 1", "its only shape on strings 4-3-2, at frets 3–5"),
        ("l o", "nowhere else on strings 4-3-2"),
    ] {
        let player = Player::after("Gmaj7#11", keys);
        assert_eq!(player.told(), told, "{keys}");
    }
}

/// Whatever is in hand: other places sound the same, and other fingers stand on the same frets.
#[test]
fn alternatives_keep_what_they_promise() {
    let mut player = Player::with("Gmaj7#11");
    for _ in 0..12 {
        player.press("space");
        let home = player.named_shape().unwrap();
        player.press("h");
        assert_eq!(player.named_shape().unwrap().frets, home.frets);
        player.press("o");
        let there = player.named_shape().unwrap();
        assert_eq!(there.shape.going_up(), home.shape.going_up());
        assert!(player.hand_is_in_view(), "{}", player.screen());
    }
}

#[test]
fn a_search_finds_names_instruments_and_notes() {
    for (typed, first) in [
        ("d a d g a d", "typed"),
        ("d a d g a d down", "Guitar, DADGAD"),
        ("u k u space b a r", "Ukulele, baritone"),
        ("m a n d o c", "Mandocello"),
        ("G 4 space D 3 down", "Banjo, open G"),
        ("d a d g b e down", "Guitar, drop D"),
        ("z z z", ""),
    ] {
        let player = Player::after("C7", &format!("g {typed}"));
        assert_eq!(player.marked(), first, "{typed}\n{}", player.screen());
    }
}

#[test]
fn a_tuning_can_be_typed_in_the_search() {
    let mut player = Player::after("C7", "g");
    player.paste("D A D G B E");
    assert!(player.shows("octaves inferred"));
    assert!(
        player.shows("shapes stay on 5-4-3 4-3-2 3-2-1 · change on 6-5-4"),
        "{}",
        player.screen()
    );
    player.press("enter");
    assert_eq!(player.program.neck().tuning().to_string(), "D2 A2 D3 G3 B3 E4");
    player.press("g");
    assert_eq!(player.marked(), "typed");
}

/// Drop D leaves strings 4-3-2 alone; seven strings add one, and 4-3-2 sounds as before.
#[test]
fn the_hand_goes_to_its_counterpart() {
    for name in ["d r o p space d", "7 space s t r i n g s"] {
        let mut player = Player::after("Gmaj7#11", "space space");
        let before = (player.shape(), player.strings());
        player.press(&format!("g {name} enter"));
        assert_ne!(player.tuning(), "guitar-standard");
        assert_eq!((player.shape(), player.strings()), before);
    }
}

#[test]
fn the_capo_is_named_with_its_shapes_and_goes_with_the_player() {
    let mut player = Player::after("Gmaj7#11", "i i");
    assert!(player.shows("capo 2 · shapes of F & G"));
    player.press("g d r o p enter");
    assert_eq!(player.capo(), "capo at 2");
    player.press("I I I");
    assert_eq!(player.capo(), "no capo");
}

#[test]
fn a_partial_capo_stays_partial_even_when_it_was_off() {
    let mut player = Player::with("Gmaj7#11");
    let capo = fretloom_fretboard::Capo::read("2", Some("5-4-3")).unwrap();
    player.program.put_capo(capo).unwrap();
    assert!(player.shows("capo 2 on 5-4-3"));
    player.press("I I i i i");
    assert_eq!(player.capo(), "capo at 3 on 5-4-3");
}

/// How the neck lies is the player's own, and no tuning changes it.
#[test]
fn the_neck_stays_turned_when_the_tuning_changes() {
    let player = Player::after("Gmaj7#11", "r y g b a n j o enter");
    let lie = neck_reader::Lie { left_handed: true, upside_down: true };
    let read = DrawnNeck::read_lying(&player.buffer(), lie).unwrap();
    assert_eq!((player.tuning().as_str(), read.strings), ("banjo-open-g", 5));
    assert_eq!(read.names, ["D4", "B3", "G3", "D3", "G4"]);
}

/// On a bass four frets at the nut are beyond a hand or nearly so.
#[test]
fn a_wide_stretch_is_told_with_a_line_of_care() {
    let mut player = Player::after("Gmaj7#11", "g b a s s enter");
    let is_wide = |player: &Player| player.shows(" · wide") || player.shows(" mm, wide");
    let mut presses = 0;
    while !is_wide(&player) && presses < 60 {
        player.press("space");
        presses += 1;
    }
    let shape = player.named_shape().unwrap();
    // The default hand reaches 120 mm; from four fifths of that on a stretch is wide.
    assert!(shape.stretch_mm() >= 96.0, "{}", player.screen());
    while player.shows("end here") || player.shows("ends here") {
        player.press("n");
    }
    assert!(player.shows("a wide stretch: warm up, rest, stop when it hurts"));
}

/// What a view shows is in view, and all else is no mark.
#[test]
fn a_view_shows_its_places_and_no_others() {
    for views in ["v", "v v", "v v v", "v v v v"] {
        let mut player = Player::after("Gmaj7#11", views);
        for _ in 0..7 {
            let read = DrawnNeck::read(&player.buffer()).unwrap();
            let places = player.program.explore().view_places().unwrap().iter();
            let places = places.map(|place| (place.place.string.number(), place.fret.number()));
            let in_view = |fret: u8| fret == 0 || read.frets.contains(&fret);
            let wanted: HashSet<(u8, u8)> = places.filter(|(_, fret)| in_view(*fret)).collect();
            let marks: HashSet<_> = read.marks.iter().map(|m| (m.string, m.fret)).collect();
            assert_eq!(marks, wanted, "{}", player.screen());
            assert!(!wanted.is_empty());
            player.press("x");
        }
    }
}

#[test]
fn inversions_of_one_triad_go_round_and_stay_with_it() {
    for (key, triad) in [("1", "G "), ("2", "A ")] {
        let mut player = Player::after("Gmaj7#11", key);
        let start = player.shape();
        let mut seen = HashSet::new();
        while seen.insert(player.shape()) {
            assert!(player.shape().starts_with(triad), "{}", player.shape());
            player.press(key);
        }
        assert_eq!(player.shape(), start);
        assert!(seen.len() >= 3, "{seen:?}");
    }
}

#[test]
fn the_neck_follows_the_hand() {
    for columns in [60, 70, 80, 110] {
        for key in ["space", "backspace", "1", "2", "down", "s", "t", "n"] {
            let mut player = Player::with("Gmaj7#11");
            player.resize(columns, 24);
            for _ in 0..30 {
                player.press(key);
                assert!(player.hand_is_in_view(), "{columns} columns, {key}\n{}", player.screen());
            }
        }
    }
}

#[test]
fn the_neck_stays_where_the_player_scrolled_it() {
    let mut player = Player::after("Gmaj7#11", "end n l");
    assert_eq!(player.frets(), "12-22");
    player.press("home");
    assert_eq!(player.frets(), "1-11");
}

#[test]
fn a_narrower_window_keeps_the_hand_in_view() {
    let mut player = Player::after("Gmaj7#11", "space space space");
    assert_eq!((player.shape().as_str(), player.frets().as_str()), ("A 11-9-10", "1-11"));
    player.resize(60, 24);
    assert_eq!(player.frets(), "4-11");
}

#[test]
fn a_tuning_picked_gets_its_own_neck() {
    let player = Player::after("C7", "g down down down down down down enter");
    assert_eq!(player.tuning(), "ukulele-high-g");
    assert_eq!(player.program.neck().tuning().string_count(), 4);
    assert!(player.shows("Ukulele, high G  G C E A"));
    assert!(player.hand_is_in_view());
    // The list opens on the tuning in use.
    let again = Player::after("C7", "g down enter g");
    assert_eq!(again.marked(), "Guitar, drop D");
}

/// Every note that is drawn is in the shape that a click on it takes, if any close shape has it.
#[test]
fn a_click_on_a_note_takes_a_shape_with_it() {
    let mut taken = 0;
    let drawn = DrawnNeck::read(&Player::with("Gmaj7#11").buffer()).unwrap();
    for mark in &drawn.marks {
        let mut player = Player::with("Gmaj7#11");
        let string = format!(" {} ", mark.string);
        let screen = player.screen();
        let top = screen.lines().position(|line| line.starts_with("─ frets")).unwrap() + 2;
        let row = screen.lines().skip(top).position(|line| line.starts_with(&format!(" {string}")));
        let column = if mark.fret == 0 { 7 } else { 13 + 6 * (u16::from(mark.fret) - 1) };
        let row = u16::try_from(top + row.unwrap()).unwrap();
        player.program.update(Event::Mouse(Pointer { column, row, what: Pointed::Click }));
        if player.shows("no close shape of the pair has this place") {
            continue;
        }
        let shape = player.named_shape().unwrap();
        let places = shape.shape.places().map(|place| (place.string.number(), place.fret.number()));
        assert!(places.contains(&(mark.string, mark.fret)), "{mark:?}: {places:?}");
        taken += 1;
    }
    // Two places lie in no close shape.
    assert_eq!(taken + 2, drawn.marks.len(), "{taken} of {}", drawn.marks.len());
}

/// From chord to chord, pair to pair and scale to scale the neck stays on its rows, in any window.
#[test]
fn the_neck_stays_on_its_rows() {
    for (columns, rows) in [(80, 24), (80, 30), (120, 40), (200, 55), (60, 18)] {
        let mut player = Player::with("Gmaj7#11");
        player.resize(columns, rows);
        let rule = |player: &Player| {
            player.screen().lines().position(|line| line.starts_with("─ frets")).unwrap()
        };
        let at = rule(&player);
        for key in "c C 7 b 9 enter f f f down s s v v v v c D enter".split(' ') {
            player.press(key);
            assert_eq!(rule(&player), at, "{columns}×{rows}, {key}\n{}", player.screen());
        }
    }
}

/// What the fingers do is told with the shape: by hand from F 3-2-1 (3-2-1) to G 5-4-3 (3-2-1).
#[test]
fn the_movement_to_a_shape_is_told_until_the_next_key() {
    let mut player = Player::after("Dm7", "space");
    assert_eq!(player.told(), "the same grip up 2 frets", "{}", player.screen());
    player.press("n");
    assert!(!player.shows("the same grip"));
    player.press("c G 7 a l t enter");
    assert!(player.shows("stays:") && player.shows("finger 1 "), "{}", player.screen());
}

/// A neck that is scrolled away from the hand says where the hand is.
#[test]
fn a_hand_out_of_sight_is_told() {
    let mut player = Player::after("Gmaj7#11", "end");
    assert!(player.shows("the hand is out of sight: 8 goes there"), "{}", player.screen());
    player.press("8");
    assert!(!player.shows("out of sight") && player.hand_is_in_view());
}

/// A key without a meaning says so, and one that finds nothing says why.
#[test]
fn a_key_that_does_nothing_says_why() {
    for (key, told) in [
        ("f12", "F12 means nothing here: ? lists every key"),
        ("m", "this scale repeats nowhere: the pair has no other place in it"),
        ("home", "the neck begins here"),
        ("end end", "the neck ends here"),
    ] {
        let player = Player::after("Dm7", key);
        assert!(player.shows(told), "{key}\n{}", player.screen());
    }
}

/// The keys of a view are named while it is looked at, at 80 columns.
#[test]
fn the_footer_changes_with_the_view() {
    for (keys, named) in [
        ("", "z undo  < back"),
        ("v", "x position  z undo  < back"),
        ("v v", "x strings  z undo  < back"),
        ("v v v", "x chain  z undo  < back"),
        ("v v v v", "x start  z undo  < back"),
    ] {
        assert!(Player::after("Dm7", keys).shows(named), "{keys}: {named}");
    }
    assert!(!Player::with("Dm7").shows("  x "));
}
