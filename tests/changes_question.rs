//! What is said on the changes screen reaches its plan: each is compared with what `answer` says of
//! the same question, and with the plan without it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use std::fs;

use fretloom::answer::{
    ChangesAnswer, ChangesPlan, ChangesQuestion, HeldHere, TuneWishes, read_chart, shapes_in_region,
};
use fretloom::library::Library;
use fretloom::tui::program::Program;
use fretloom_fretboard::Region;
use fretloom_theory::{BarText, Chart, Meter, Spelling};
use player::Player;

const TUNE: &str = "[A] Dm7 | G7 | Cmaj7 | Cmaj7 (A7) | [B] Em7b5 A7 | Dm7";

fn opened() -> Player {
    let mut player = Player::after("Dm7", "4 c");
    player.paste(TUNE);
    player.press("enter");
    player
}

/// Types a text into the field that a key opens, over what stands there.
fn type_over(player: &mut Player, key: &str, text: &str) {
    player.press(key);
    for _ in 0..80 {
        player.press("backspace");
    }
    player.paste(text);
    player.press("enter");
}

/// The tune over the strings and frets on which the screen begins.
fn question(chart: Chart) -> ChangesQuestion {
    let region = Region::default().on("4-3-2".parse().unwrap()).within("1-12".parse().unwrap());
    ChangesQuestion { region: Some(region), ..ChangesQuestion::of(chart) }
}

fn typed() -> ChangesQuestion {
    question(Chart::of(BarText::read(TUNE, Meter::COMMON).unwrap()))
}

fn plan(player: &Player) -> ChangesPlan {
    player.program.changes().plan().unwrap().clone()
}

fn best(player: &Player, question: &ChangesQuestion) -> ChangesPlan {
    ChangesAnswer::new(player.program.neck(), question).unwrap().best().clone()
}

#[test]
fn every_wish_reaches_the_plan() {
    let mut player = opened();
    let plain = plan(&player);
    assert!(plain == best(&player, &typed()));
    for wish in ["major", "guide tones", "contrast", "brackets", "once", "never A@1, never 11@2"] {
        let before = plan(&player);
        type_over(&mut player, "w", wish);
        let TuneWishes { plan: wishes, optional } = TuneWishes::read_line(wish, None).unwrap();
        let asked = ChangesQuestion { wishes, optional, ..typed() };
        assert!(plan(&player) == best(&player, &asked), "{wish}\n{}", player.screen());
        assert!(plan(&player) != plain, "{wish}");
        player.press("z");
        assert!(plan(&player) == before, "{wish}");
        player.press("Z");
        let mut tomorrow = Player::with("Dm7");
        tomorrow.program.take_up(&player.program.session());
        tomorrow.resize(80, 24);
        assert!(plan(&tomorrow) == plan(&player), "{wish}");
    }
    type_over(&mut player, "w", "");
    assert!(plan(&player) == plain);
    // Another tune begins without what was wished of this one.
    type_over(&mut player, "w", "once");
    player.press("o n i n e enter");
    assert!(!player.shows("wished"), "{}", player.screen());
}

/// Of a chord in brackets the bars show what is played.
#[test]
fn chords_in_brackets_come_and_go() {
    let mut player = opened();
    let cells = |player: &Player| player.screen().matches("A7").count();
    let before = cells(&player);
    type_over(&mut player, "w", "brackets");
    assert_eq!(cells(&player), before + 1, "{}", player.screen());
}

/// A wish that cannot be fulfilled says over which chord, and one that is none where it stands.
#[test]
fn what_cannot_be_wished_is_told() {
    let mut player = opened();
    type_over(&mut player, "w", "augmented & diminished");
    let screen = player.screen().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(screen.contains("has no pair that does all that is wished"), "{screen}");
    player.press("w");
    player.paste(", often");
    assert!(player.shows("expected major & minor or other"), "{}", player.screen());
    player.press("enter esc z");
    assert!(!player.shows("wished"), "{}", player.screen());
}

#[test]
fn the_key_reaches_the_plan() {
    // A chord alone is a tonic, or the ii of what its key says.
    let mut player = Player::after("Dm7", "4 c");
    player.paste("Dm7 | %");
    player.press("enter");
    let plain = plan(&player);
    type_over(&mut player, "K", "Bb");
    let chart = Chart::of(BarText::read("Dm7 | %", Meter::COMMON).unwrap());
    let asked = ChangesQuestion { key: "Bb".parse().ok(), ..question(chart) };
    assert!(plan(&player) == best(&player, &asked));
    assert!(plan(&player) != plain);
}

/// Over the G7 of the second bar the melody holds an A flat, which its usual scale does not have.
fn lead_sheet() -> String {
    let measure = |number: u8, root: &str, kind: &str, note: &str| {
        format!(
            "<measure number=\"{number}\"><attributes><divisions>1</divisions></attributes>\
             <harmony><root><root-step>{root}</root-step></root><kind>{kind}</kind></harmony>\
             <note>{note}<duration>4</duration><voice>1</voice></note></measure>"
        )
    };
    let pitch = |step: &str, alter: i8| {
        format!("<pitch><step>{step}</step><alter>{alter}</alter><octave>4</octave></pitch>")
    };
    let bars = [
        measure(1, "D", "minor-seventh", &pitch("A", 0)),
        measure(2, "G", "dominant", &pitch("A", -1)),
        measure(3, "C", "major-seventh", &pitch("G", 0)),
    ];
    format!("<score-partwise><part id=\"P1\">{}</part></score-partwise>", bars.concat())
}

#[test]
fn the_melody_of_a_lead_sheet_reaches_the_plan() {
    let file = std::env::temp_dir().join(format!("fretloom-sheet-{}.musicxml", std::process::id()));
    fs::write(&file, lead_sheet()).unwrap();
    let mut player = Player::after("Dm7", "4");
    player.press("o");
    player.paste(&file.display().to_string());
    player.press("enter");
    fs::remove_file(&file).unwrap();
    assert!(player.line(0).contains("with its melody"), "{}", player.screen());
    let read = read_chart("sheet", lead_sheet().as_bytes(), &[]).unwrap();
    let without = question(read.chart);
    let asked = ChangesQuestion { melody: read.melody, ..without.clone() };
    let held = plan(&player);
    assert!(held == best(&player, &asked));
    assert_ne!(held.chords[1].over(), best(&player, &without).chords[1].over());
    // It is there tomorrow, and as long as the bars are.
    let mut tomorrow = Player::with("Dm7");
    tomorrow.program.take_up(&player.program.session());
    tomorrow.resize(80, 24);
    assert!(plan(&tomorrow) == held);
    player.press("right enter");
    player.paste("G9 ");
    player.press("enter");
    player.press("b");
    assert!(!player.line(0).contains("melody"), "{}", player.screen());
    player.press("z");
    assert!(player.line(0).contains("melody"), "{}", player.screen());
}

/// A scale of the player's own is one of those that a key goes through, and stays settled.
#[test]
fn the_scales_of_the_player_are_offered() {
    let folder = std::env::temp_dir().join(format!("fretloom-own-scales-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    fs::write(folder.join("scales.toml"), "\"harbour\" = \"1 2 b3 4 #4 5 b7\"\n").unwrap();
    let library = Library::load(Some(&folder));
    let own = library.scales.kinds().to_vec();
    fs::remove_dir_all(&folder).unwrap();
    let program = Program::open(Some("Dm7"), "guitar-standard", library, Spelling::Plain).unwrap();
    let mut player = Player::of(program);
    player.press("4");
    let scale = |player: &Player| {
        let chord = player.program.changes().chord().unwrap().clone();
        chord.over().scale().to_string()
    };
    let found = (0..20).any(|_| {
        player.press("s");
        scale(&player) == "D harbour"
    });
    assert!(found, "{}", scale(&player));
    let bars = BarText::read("| Dm7 | G7 | Cmaj7 | % |", Meter::COMMON).unwrap();
    let asked = ChangesQuestion { own: own.clone(), ..question(Chart::of(bars)) };
    let asked = asked.settling("D harbour@1", &own).unwrap();
    assert!(plan(&player) == best(&player, &asked));
}

/// The cheapest of the plans with each shape of a settled pair is the plan with that pair: so each is
/// the cheapest round its shape.
#[test]
fn a_shape_that_is_held_stays_and_the_others_follow() {
    let region = Region::default().on("4-3-2".parse().unwrap()).within("1-12".parse().unwrap());
    let bars = BarText::read("| Dm7 G7 | Cmaj7 | A7 |", Meter::COMMON).unwrap();
    let free = ChangesQuestion { region: Some(region), ..ChangesQuestion::of(Chart::of(bars)) };
    let free = free.settling("F & G@1.3", &[]).unwrap();
    let player = Player::with("Dm7");
    let neck = player.program.neck();
    let asked = |question: &ChangesQuestion| ChangesAnswer::new(neck, question);
    let pair = free.chart.choices[0].triad_pair().unwrap();
    let shapes = shapes_in_region(neck, region, free.hand, pair);
    assert!(shapes.len() > 3);
    let moment = "1.3".parse().unwrap();
    let mut costs = Vec::new();
    for shape in &shapes {
        let held = vec![HeldHere { places: shape.places(), moment }];
        let answer = asked(&ChangesQuestion { held, ..free.clone() }).unwrap();
        let hand = answer.best().chords[1].hand.unwrap();
        assert_eq!((hand.shape.shape.places(), hand.is_settled), (shape.places(), true));
        assert!(!answer.best().chords[0].hand.unwrap().is_settled);
        costs.push(answer.best().cost);
    }
    let best = asked(&free).unwrap();
    assert_eq!(costs.into_iter().min().unwrap(), best.best().cost);
    // Where no pair is settled, and elsewhere on the neck, it has no say.
    for held in ["7-7-8 on 4-3-2@1.1", "12-14-15 on 4-3-2@1.3", "7-7-8 on 3-2-1@1.3"] {
        let question = ChangesQuestion { held: vec![held.parse().unwrap()], ..free.clone() };
        assert!(asked(&question).unwrap() == best, "{held}");
    }
}
