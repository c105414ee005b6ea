//! What phrases aim at: several notes for one, as on the screen so by the command.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/line_reader.rs"]
mod line_reader;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;
#[path = "support/program.rs"]
mod program;

use fretloom::tui::program::Effect;
use line_reader::{notes, told};
use player::Player;
use program::Home;
use serde_json::Value;

const CHORDS: &str = "Dm7 | G7 | Cmaj7 | %";

/// Over three chords a first phrase from 1.1& that goes on to where the second landed, on 3.1, and is
/// held until 3.2&; another begins on 3.3&.
fn long_phrase() -> Player {
    let mut player = Player::after("Dm7", "3 c");
    player.paste(CHORDS);
    player.press("enter s home C 8 G");
    player
}

fn aim(player: &mut Player, targets: &str) {
    player.press("g end ctrl-u");
    player.paste(targets);
    player.press("enter");
}

fn phrases(player: &Player) -> String {
    player.line(2)
}

fn copied(player: &mut Player) -> String {
    player.press("Q");
    match player.effects.iter().next_back() {
        Some(Effect::Copy(clip)) => clip.text().to_owned(),
        other => panic!("{other:?}"),
    }
}

/// Onset in quarters, and the note in MIDI numbers.
fn sounding(player: &Player) -> Vec<(f64, u64)> {
    let notes = player.program.line().notes().iter();
    notes.map(|told| (told.note.onset.to_f64(), u64::from(told.note.pitch.midi()))).collect()
}

/// A, B and E are those degrees of D, G and C: 5@1.4, 3@2.1 and 3@3.1.
#[test]
fn a_phrase_goes_through_several_notes() {
    let mut player = long_phrase();
    assert!(
        phrases(&player).starts_with("▸1 F & G 1232 321 → 7 of Cmaj7 ✓"),
        "{}",
        player.screen()
    );
    let before = notes(&player);
    aim(&mut player, "3@3.1:below 5@1.4 3@2.1");
    let told = "▸1 F & G 1232 321 → 5 of Dm7 ✓ → 3 of G7 ✓ → 3 of Cmaj7 ✓   2 ";
    assert!(phrases(&player).starts_with(told), "{}", player.screen());
    for (at, class) in [(3.0, 9), (4.0, 11), (8.0, 4)] {
        let landing = sounding(&player).into_iter().find(|(onset, _)| *onset == at).unwrap();
        assert_eq!(landing.1 % 12, class, "{at}");
    }
    // From the half step below, and as long as the phrase held its landing before.
    let line = player.program.line().notes();
    let last = line.iter().position(|told| told.note.onset.to_f64() == 8.0).unwrap();
    assert_eq!(line[last].note.pitch.midi() - line[last - 1].note.pitch.midi(), 1);
    assert_eq!(line[last].note.duration.to_f64(), 1.5);
    // All of it is one phrase still: its keys go to its beginning, and past its end.
    player.press("pagedown *");
    assert_eq!(player.program.line().note().unwrap().note.onset.to_f64(), 0.5);
    player.press("8");
    assert!(phrases(&player).contains("▸2 "), "{}", player.screen());
    player.press("*");
    player.press("g");
    assert_eq!(player.line(0), "aim of phrase 1 3@3.1:below 5@1.4 3@2.1");
    player.press("esc z");
    assert_eq!(notes(&player), before);
    player.press("Z home");
    assert!(phrases(&player).starts_with(told), "{}", player.screen());
}

#[test]
fn several_aims_are_there_tomorrow() {
    let mut today = long_phrase();
    aim(&mut today, "5@1.4 3@2.1 3@3.1:below");
    today.press("home");
    let mut tomorrow = Player::with("Gmaj7#11");
    tomorrow.program.take_up(&today.program.session());
    assert_eq!(tomorrow.screen(), today.screen());
    tomorrow.press("g");
    assert_eq!(tomorrow.line(0), "aim of phrase 1 5@1.4 3@2.1 3@3.1:below");
    // A session in which each phrase aims at one note, as all did once.
    let mut session = today.program.session();
    let line = session.line.as_mut().unwrap();
    let several = line.phrases.take().unwrap();
    assert!(several.contains("target = \"5@1.4 3@2.1 3@3.1:below\""), "{several}");
    line.phrases = Some(several.replace("5@1.4 3@2.1 3@3.1:below", "3@3.1:below"));
    let mut tomorrow = Player::with("Gmaj7#11");
    tomorrow.program.take_up(&session);
    assert!(phrases(&tomorrow).starts_with("▸1 F & G 1232 321 → 3 of Cmaj7 ✓"));
}

/// What is copied is a file of phrases, of which the command makes the same notes.
#[test]
fn the_command_makes_the_same_of_what_is_copied() {
    for targets in ["3@3.1", "5@1.4 3@3.1", "b3@1.3 3@2.1 1@2.3:above 5@3.1:early"] {
        let mut player = long_phrase();
        aim(&mut player, targets);
        let home = Home::new();
        let file = home.put("copied.toml", &copied(&mut player));
        let file = file.to_str().unwrap();
        let said = home.run(&[
            "line",
            CHORDS,
            "--strings",
            "4-3-2",
            "--start",
            "root",
            "--phrases",
            file,
            "--json",
        ]);
        assert_eq!((said.status, said.err.as_str()), (Some(0), ""), "{targets}");
        let answer: Value = serde_json::from_str(&said.out).unwrap();
        let of = |note: &Value| (note["onset"].as_f64().unwrap(), note["midi"].as_u64().unwrap());
        let made: Vec<_> = answer["notes"].as_array().unwrap().iter().map(of).collect();
        assert_eq!(made, sounding(&player), "{targets}");
        let told = answer["phrases"].as_array().unwrap().iter();
        let told: Vec<_> = told.filter_map(|phrase| phrase["target"].as_str()).collect();
        assert!(targets.split(' ').all(|target| told.contains(&target)), "{told:?}");
    }
}

/// Cut after a note that it goes through, a phrase goes through it as before and goes on to the cut;
/// what is aimed at stays.
#[test]
fn a_cut_leaves_what_comes_before_it() {
    for steps in 1..12 {
        let mut player = long_phrase();
        aim(&mut player, "5@1.4 3@2.1 3@3.1");
        player.press("home");
        (0..steps).for_each(|_| player.press("right"));
        let (all, at) = (sounding(&player), player.program.line().note().unwrap().note.onset);
        player.press("C");
        if told(&player).starts_with("this phrase lands here") {
            assert!([3.0, 4.0].contains(&at.to_f64()), "{at:?}");
            continue;
        }
        let now = sounding(&player);
        let landed = [3.0, 4.0].into_iter().rfind(|landing| *landing < at.to_f64());
        let until = |end: f64, notes: &[(f64, u64)]| -> Vec<(f64, u64)> {
            notes.iter().filter(|(onset, _)| *onset <= end).copied().collect()
        };
        let landed = landed.unwrap_or_default();
        assert_eq!(until(landed, &now), until(landed, &all), "{steps}");
        let onsets = |notes: &[(f64, u64)]| -> Vec<f64> {
            until(at.to_f64(), notes).iter().map(|note| note.0).collect()
        };
        assert_eq!(onsets(&now), onsets(&all), "{steps}");
        for (onset, class) in [(3.0, 9), (4.0, 11), (8.0, 4)] {
            assert!(now.iter().any(|(at, midi)| *at == onset && midi % 12 == class), "{steps}");
        }
        let written = copied(&mut player);
        let aims = ["5@1.4", "3@2.1", "3@3.1"];
        assert!(aims.iter().all(|aim| written.contains(aim)), "{written}");
    }
}

#[test]
fn aims_that_cannot_be_lose_nothing() {
    for (targets, words) in [
        ("3@2.1 3@2.1", "nothing can lead to the target 3@2.1, it comes too soon"),
        ("3@2.1 3@2.1&", "nothing can lead to the target 3@2.1&, it comes too soon"),
        ("3@2.1 5@3.4", "the next phrase begins at 3.3& and would lie over the target 5@3.4"),
        ("3@2.1, 5@3.1", "cannot read the target"),
        ("3@2.1 9", "@ and when, as in 3@5.1"),
        ("3@9.1 3@2.1", "the target 3@9.1 does not lie in the line"),
    ] {
        let mut player = long_phrase();
        let before = (notes(&player), phrases(&player));
        aim(&mut player, targets);
        let screen = player.screen();
        let head = screen.lines().take(4).collect::<Vec<_>>().join(" ");
        assert!(head.contains(words), "{targets}: {screen}");
        player.press("esc");
        assert_eq!((notes(&player), phrases(&player)), before, "{targets}");
    }
}

/// Where a note is changed, the one that is missed says so and the others do not.
#[test]
fn a_note_that_is_missed_is_told() {
    let mut player = long_phrase();
    aim(&mut player, "5@1.4 3@2.1 3@3.1");
    player.press("home");
    while player.program.line().note().unwrap().note.onset.to_f64() < 4.0 {
        player.press("right");
    }
    player.press("U");
    let told = "▸1 F & G 1232 321 → 5 of Dm7 ✓ → 3@2.1 ✗ → 3 of Cmaj7 ✓ ";
    assert!(phrases(&player).starts_with(told), "{}", player.screen());
}
