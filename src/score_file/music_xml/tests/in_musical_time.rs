//! What a score says in musical time, worked out by hand.

use fretloom_theory::{NamedPitch, Quarters, Voice};

use super::{chord, grace, note, read_score, score};
use crate::score_file::{Choice, ReadScore, read};

fn quarters(above: u64, below: u32) -> Quarters {
    Quarters::new(above, below).unwrap()
}

fn whole(count: u32) -> Quarters {
    Quarters::whole(count)
}

/// Onset, duration and name of each note, in order of time.
fn told(read: &ReadScore) -> Vec<(Quarters, Quarters, String)> {
    let notes = read.score().parts[0].notes();
    let name = |pitch: NamedPitch| format!("{pitch:#}");
    notes.iter().map(|note| (note.onset(), note.duration(), name(note.pitch()))).collect()
}

/// The label of the bar, the beat and what comes after it.
fn position(read: &ReadScore, moment: Quarters) -> (String, u64, Quarters) {
    let at = read.score().bars.at(moment).unwrap();
    (at.bar.label.to_string(), at.beat, at.after_beat)
}

fn measure(number: &str, content: &str) -> String {
    format!("<measure number=\"{number}\">{content}</measure>")
}

fn attributes(divisions: u32, more: &str) -> String {
    format!("<attributes><divisions>{divisions}</divisions>{more}</attributes>")
}

fn time(beats: &str, kind: u8) -> String {
    format!("<time><beats>{beats}</beats><beat-type>{kind}</beat-type></time>")
}

fn rest(duration: u32) -> String {
    format!("<note><rest/><duration>{duration}</duration></note>")
}

/// Three eighths in the time of two, five sixteenths in the time of four, then seven sixteenths in
/// that of four: 1/3, 1/5 and 1/7 of a quarter.
#[test]
fn tuplets_are_exact_whatever_the_divisions() {
    let triplet = attributes(3, "") + &note("C", 4, 1, "").repeat(3);
    let quintuplet = attributes(10, "") + &note("D", 4, 2, "").repeat(5);
    let septuplet = attributes(7, "") + &note("E", 4, 1, "").repeat(7);
    let read = read_score(&score(&measure("1", &(triplet + &quintuplet + &septuplet))));
    let told = told(&read);
    assert_eq!(told[1], (quarters(1, 3), quarters(1, 3), "C4".to_owned()));
    assert_eq!(told[3], (whole(1), quarters(1, 5), "D4".to_owned()));
    assert_eq!(told[7], (quarters(9, 5), quarters(1, 5), "D4".to_owned()));
    assert_eq!(told[14], (quarters(20, 7), quarters(1, 7), "E4".to_owned()));
    assert_eq!(read.score().end(), whole(3));
}

/// A pick-up of an eighth in 3/4, two bars, then 6/8, in which the fourth eighth is beat 2.
#[test]
fn bars_have_pick_ups_numbers_and_meters() {
    let pick_up = attributes(2, &time("3", 4)) + &note("C", 4, 1, "");
    let bars = [
        format!("<measure number=\"0\" implicit=\"yes\">{pick_up}</measure>"),
        measure("1", &note("D", 4, 6, "")),
        measure("2", &note("E", 4, 6, "")),
        measure("3a", &(attributes(2, &time("6", 8)) + &note("F", 4, 6, ""))),
    ];
    let read = read_score(&score(&bars.concat()));
    let eighth = Quarters::EIGHTH;
    for (moment, label, beat, after) in [
        (Quarters::ZERO, "0", 3, eighth),
        (eighth, "1", 1, Quarters::ZERO),
        (quarters(3, 1), "1", 3, eighth),
        (quarters(7, 2), "2", 1, Quarters::ZERO),
        (quarters(13, 2), "3a", 1, Quarters::ZERO),
        (whole(8), "3a", 2, Quarters::ZERO),
    ] {
        assert_eq!(position(&read, moment), (label.to_owned(), beat, after), "{moment}");
    }
    assert_eq!(read.score().end(), quarters(19, 2));
    assert!(read.has_written_bars());
}

/// A bar of 4/4 that a repeat divides: its second half goes on at beat 3.
#[test]
fn a_divided_bar_goes_on_counting() {
    let half = |number: &str, more: &str, content: &str| {
        format!("<measure number=\"{number}\"{more}>{content}</measure>")
    };
    let bars = [
        half("1", "", &(attributes(1, &time("4", 4)) + &note("C", 4, 4, ""))),
        half("2", "", &note("D", 4, 2, "")),
        half("X1", " implicit=\"yes\"", &note("E", 4, 2, "")),
        half("3", "", &note("F", 4, 4, "")),
    ];
    let read = read_score(&score(&bars.concat()));
    assert_eq!(position(&read, whole(4)), ("2".to_owned(), 1, Quarters::ZERO));
    assert_eq!(position(&read, whole(6)), ("X1".to_owned(), 3, Quarters::ZERO));
    assert_eq!(position(&read, whole(8)), ("3".to_owned(), 1, Quarters::ZERO));
}

#[test]
fn meters_of_several_numbers_are_added() {
    for (time, expected) in [
        (time("3+2", 8), "5/8"),
        (time("3", 4).replace("</time>", "<beats>2</beats><beat-type>8</beat-type></time>"), "8/8"),
        ("<time><senza-misura/></time>".to_owned(), "4/4"),
        (time("x", 8), "4/8"),
    ] {
        let content = attributes(1, &time) + &note("C", 4, 1, "");
        let read = read_score(&score(&measure("1", &content)));
        assert_eq!(read.score().bars.bar(0).unwrap().meter.to_string(), expected);
    }
}

#[test]
fn tempi_and_keys_change_where_they_stand() {
    let tempo = |a_minute: &str| format!("<sound tempo=\"{a_minute}\"/>");
    let key = |fifths: i8, mode: &str| {
        format!("<attributes><key><fifths>{fifths}</fifths>{mode}</key></attributes>")
    };
    let content = [
        attributes(3, ""),
        key(-3, "<mode>minor</mode>"),
        tempo("86.7"),
        note("C", 4, 2, ""),
        tempo("60"),
        key(2, ""),
        note("D", 4, 4, ""),
    ];
    let read = read_score(&score(&measure("1", &content.concat())));
    let score = read.score();
    let tempi: Vec<String> =
        score.tempi.changes().map(|(from, tempo)| format!("{from}: {tempo}")).collect();
    assert_eq!(tempi, ["0: 86.7", "2/3: 60"]);
    let keys = score.keys.changes().iter();
    let keys: Vec<String> = keys.map(|(from, key)| format!("{from}: {:#}", key.key())).collect();
    assert_eq!(keys, ["0: C minor", "2/3: D"]);
}

#[test]
fn a_note_that_is_tied_over_a_bar_line_keeps_the_place_of_the_tie() {
    let (start, stop) = ("<tie type=\"start\"/>", "<tie type=\"stop\"/>");
    let both = format!("{stop}{start}");
    let bars = [
        measure("1", &(attributes(2, "") + &rest(6) + &note("C", 4, 2, start))),
        measure("2", &(note("C", 4, 8, &both))),
        measure("3", &(note("C", 4, 1, stop) + &note("C", 4, 7, ""))),
    ];
    let read = read_score(&score(&bars.concat()));
    let notes = read.score().parts[0].notes();
    assert_eq!(notes[0].ties(), [whole(4), whole(8)]);
    assert_eq!(told(&read)[0], (whole(3), quarters(11, 2), "C4".to_owned()));
    assert_eq!(notes[1].ties(), []);
    let rests = read.score().parts[0].rests();
    assert_eq!(
        rests.iter().map(|rest| (rest.from, rest.to)).collect::<Vec<_>>(),
        [(Quarters::ZERO, whole(3))]
    );
}

/// The second voice begins on beat 2 and has a chord; both are silent at the end.
#[test]
fn voices_overlap_and_rest_for_themselves() {
    let voice = |number: u8| format!("<voice>{number}</voice>");
    let content = [
        attributes(2, ""),
        note("C", 5, 4, &voice(1)),
        rest(4).replace("<duration>", "<voice>1</voice><duration>"),
        "<backup><duration>8</duration></backup><forward><duration>2</duration></forward>".into(),
        note("C", 3, 3, &voice(2)),
        chord("E", 3, 3).replace("</note>", &(voice(2) + "</note>")),
        "<forward><duration>3</duration></forward>".into(),
    ];
    let read = read_score(&score(&measure("1", &content.concat())));
    let part = &read.score().parts[0];
    let voices: Vec<u8> = part.notes().iter().map(|note| note.voice().number()).collect();
    assert_eq!(voices, [1, 2, 2]);
    assert_eq!(
        told(&read),
        [
            (Quarters::ZERO, whole(2), "C5".to_owned()),
            (whole(1), quarters(3, 2), "C3".to_owned()),
            (whole(1), quarters(3, 2), "E3".to_owned()),
        ]
    );
    let silent = |voice: u8| -> Vec<(Quarters, Quarters)> {
        let rests = part.rests_in(Voice::new(voice).unwrap());
        rests.iter().map(|rest| (rest.from, rest.to)).collect()
    };
    assert_eq!(silent(1), [(whole(2), whole(4))]);
    assert_eq!(silent(2), [(Quarters::ZERO, whole(1)), (quarters(5, 2), whole(4))]);
    assert_eq!(part.rests().len(), 1);
}

#[test]
fn grace_notes_belong_to_their_main_note() {
    let content = attributes(1, "")
        + &note("C", 4, 1, "")
        + &grace("D", 4)
        + &grace("E", 4)
        + &note("F", 4, 1, "");
    let read = read_score(&score(&measure("1", &content)));
    let notes = read.score().parts[0].notes();
    let graces: Vec<Option<(u32, u32)>> =
        notes.iter().map(|note| note.grace().map(|grace| (grace.steps(), grace.of()))).collect();
    assert_eq!(graces, [None, Some((2, 2)), Some((1, 2)), None]);
    assert_eq!(told(&read)[1], (whole(1), Quarters::ZERO, "D4".to_owned()));
}

/// By hand: an F♯ written for a clarinet in B♭ sounds E; a guitar keeps its names an octave lower.
#[test]
fn names_are_those_of_what_sounds() {
    let clarinet =
        "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>".to_owned();
    let guitar = "<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>";
    let altered = |step: &str, alter: &str| {
        let pitch = format!("<step>{step}</step><alter>{alter}</alter><octave>4</octave>");
        format!("<note><pitch>{pitch}</pitch><duration>1</duration></note>")
    };
    for (transpose, step, alter, name) in [
        (clarinet.as_str(), "F", "1", "E4"),
        (&clarinet, "C", "0", "Bb3"),
        (guitar, "E", "-1", "Eb3"),
        (guitar, "B", "1", "B#3"),
        ("", "C", "-1", "Cb4"),
        ("", "C", "3", "Eb4"),
    ] {
        let content = attributes(1, transpose) + &altered(step, alter);
        assert_eq!(told(&read_score(&score(&measure("1", &content))))[0].2, name);
    }
}

fn harmony(root: &str, kind: &str, more: &str) -> String {
    let root = format!("<root><root-step>{root}</root-step></root>");
    format!("<harmony>{root}<kind>{kind}</kind>{more}</harmony>")
}

/// The moments and the symbols over the staff.
fn chords(read: &ReadScore) -> Vec<String> {
    let chords = read.score().chords.changes().iter();
    chords.map(|(from, symbol)| format!("{from}: {symbol:#}")).collect()
}

/// By hand: two chords in the first bar, the second with its offset; in the second bar one over a
/// bass, one that is none, and one that no lead sheet has.
#[test]
fn chord_symbols_stand_where_they_are_heard() {
    let degree = "<degree><degree-value>11</degree-value><degree-alter>1</degree-alter>\
                  <degree-type>add</degree-type></degree>";
    let bass = "<bass><bass-step>B</bass-step><bass-alter>-1</bass-alter></bass>";
    let bars = [
        measure(
            "1",
            &[
                attributes(2, ""),
                harmony("G", "major-seventh", degree),
                harmony("D", "minor-seventh", "<offset>4</offset>"),
                note("C", 4, 8, ""),
            ]
            .concat(),
        ),
        measure(
            "2",
            &[
                harmony("C", "dominant", bass),
                note("C", 4, 4, ""),
                harmony("C", "none", ""),
                note("C", 4, 2, ""),
                harmony("C", "Neapolitan", "<offset>1</offset>"),
                note("C", 4, 2, ""),
            ]
            .concat(),
        ),
    ];
    let read = read_score(&score(&bars.concat()));
    let expected = ["0: Gmaj7#11", "2: Dm7", "4: C7/Bb", "6: N.C.", "15/2: C Neapolitan"];
    assert_eq!(chords(&read), expected);
    assert_eq!(read.remarks(), ["could not read one chord symbol: C Neapolitan"]);
}

#[test]
fn chord_symbols_of_another_part_serve_where_the_wanted_one_has_none() {
    let part = |id: &str, content: &str| {
        format!("<part id=\"{id}\">{}</part>", measure("1", &(attributes(1, "") + content)))
    };
    let tune = note("C", 4, 4, "");
    let two = harmony("A", "minor", "") + &tune;
    let three = harmony("B", "diminished", "") + &tune;
    let parts = [part("P1", &tune), part("P2", &two), part("P3", &three)].concat();
    let text = format!("<score-partwise>{parts}</score-partwise>");
    for (wanted, expected) in [("P1", "0: Am"), ("P2", "0: Am"), ("P3", "0: Bdim")] {
        let choice = Choice { part: Some(wanted.to_owned()), ..Choice::default() };
        assert_eq!(chords(&read(text.as_bytes(), &choice).unwrap()), [expected], "{wanted}");
    }
}

#[test]
fn titles_and_names_are_kept() {
    let part = measure("1", &(attributes(1, "") + &note("C", 4, 1, "")));
    let names = "<part-list><score-part id=\"P0\"><part-name>Piano</part-name></score-part>\
                 <score-part id=\"P1\"><score-instrument id=\"x\"/>\
                 <part-name> Jazz &amp; Co </part-name></score-part></part-list>";
    for (head, title) in [
        ("<work><work-title>Night</work-title></work><movement-title>I</movement-title>", "Night"),
        ("<work><work-title> </work-title></work><movement-title>I</movement-title>", "I"),
        ("<work/>", ""),
    ] {
        let text = score(&part).replace("<part id", &format!("{head}{names}<part id"));
        let read = read_score(&text);
        assert_eq!(read.score().title.clone().unwrap_or_default(), title);
        assert_eq!(read.score().parts[0].name(), Some("Jazz & Co"));
    }
}
