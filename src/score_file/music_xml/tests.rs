//! Scores are written by hand after the MusicXML 4.0 reference (from memory; `tests/outside`
//! compares with another writer). Sounding pitches and seconds are worked out by hand.

mod in_musical_time;

use super::*;
use crate::score_file::{self, Choice, DEEPEST_NESTING, ReadNote};

/// A score of one part.
fn score(measures: &str) -> String {
    format!("<score-partwise version=\"4.0\"><part id=\"P1\">{measures}</part></score-partwise>")
}

/// A measure in which a quarter note has two divisions.
fn measure(content: &str) -> String {
    score(&format!(
        "<measure number=\"1\"><attributes><divisions>2</divisions></attributes>{content}</measure>"
    ))
}

fn note(step: &str, octave: u8, duration: u32, more: &str) -> String {
    let pitch = format!("<pitch><step>{step}</step><octave>{octave}</octave></pitch>");
    format!("<note>{pitch}<duration>{duration}</duration>{more}</note>")
}

fn chord(step: &str, octave: u8, duration: u32) -> String {
    note(step, octave, duration, "").replace("<note>", "<note><chord/>")
}

fn grace(step: &str, octave: u8) -> String {
    let pitch = format!("<pitch><step>{step}</step><octave>{octave}</octave></pitch>");
    format!("<note><grace slash=\"yes\"/>{pitch}</note>")
}

fn read_score(text: &str) -> ReadScore {
    score_file::read(text.as_bytes(), &Choice::default()).unwrap()
}

fn refused(text: &str) -> String {
    score_file::read(text.as_bytes(), &Choice::default()).unwrap_err().to_string()
}

/// Onset and duration in milliseconds, and the pitch.
fn told(read: &ReadScore) -> Vec<(i64, i64, u8)> {
    let ms = |seconds: f64| (seconds * 1000.0).round() as i64;
    let told = |note: ReadNote<'_>| {
        (ms(note.time.onset_s()), ms(note.time.duration_s()), note.sounding().midi())
    };
    read.notes().map(told).collect()
}

#[test]
fn chords_rests_and_voices_have_their_times() {
    let rest = "<note><rest/><duration>1</duration></note>";
    let content = [
        note("C", 4, 1, ""),
        chord("E", 4, 1),
        rest.to_owned(),
        note("G", 4, 2, ""),
        "<backup><duration>4</duration></backup><forward><duration>1</duration></forward>".into(),
        note("C", 3, 3, ""),
    ];
    let read = read_score(&measure(&content.concat()));
    let expected = [(0, 250, 60), (0, 250, 64), (250, 750, 48), (500, 500, 67)];
    assert_eq!(told(&read), expected);
    assert!(read.has_written_bars() && read.frets_from() == FretsFrom::Capo);
}

#[test]
fn tied_notes_are_one() {
    let (start, stop) = ("<tie type=\"start\"/>", "<tie type=\"stop\"/>");
    let both = format!("{stop}{start}");
    let content = [note("C", 4, 2, start), note("C", 4, 1, &both), note("C", 4, 1, stop)];
    let again = note("C", 4, 2, stop);
    let read = read_score(&measure(&(content.concat() + &again)));
    assert_eq!(told(&read), [(0, 1000, 60), (1000, 500, 60)]);
}

/// Two voices of one staff hold the same pitch over the bar line, of different lengths; the second
/// also where its halves are said to be of other voices.
#[test]
fn voices_that_tie_one_pitch_keep_their_own_halves() {
    let half = |duration: u32, way: &str, voice: u8| {
        note("C", 4, duration, &format!("<tie type=\"{way}\"/><voice>{voice}</voice>"))
    };
    let back = |duration: u32| format!("<backup><duration>{duration}</duration></backup>");
    for second in [2, 3] {
        let rest = "<note><rest/><duration>2</duration><voice>2</voice></note>";
        let one = half(4, "start", 1) + &back(4) + rest + &half(2, "start", 2);
        let other = half(2, "stop", 1) + &back(2) + &half(4, "stop", second);
        let divisions = "<attributes><divisions>2</divisions></attributes>";
        let measures = format!("<measure>{divisions}{one}</measure><measure>{other}</measure>");
        assert_eq!(told(&read_score(&score(&measures))), [(0, 1500, 60), (500, 1500, 60)]);
    }
}

/// Where only rests are written, programs leave the divisions out.
#[test]
fn rests_need_no_divisions() {
    let rest = "<measure><note><rest/><duration>4</duration></note><forward><duration>1</duration>\
                </forward></measure>";
    assert!(refused(&score(rest)).contains("it holds no notes"));
    let tune = measure(&note("C", 4, 2, ""));
    let two = score(&format!("{rest}</part>{}", &tune[tune.find("<part").unwrap()..]))
        .replace("</score-partwise></part>", "");
    let read = read_score(&two);
    assert_eq!(told(&read), [(0, 500, 60)]);
    assert!(read.remarks()[0].contains("took part 2 (--part chooses: 1, no notes; 2 (P1), one"));
}

/// A second ending, over whose beginning a note of the first bar is tied in both.
#[test]
fn repeats_are_unfolded_with_their_ties_tempi_and_chords() {
    let bar = |number: u8, inside: &str| format!("<measure number=\"{number}\">{inside}</measure>");
    let ending = |number: u8, kind: &str, more: &str| {
        format!("<barline><ending number=\"{number}\" type=\"{kind}\"/>{more}</barline>")
    };
    let harmony = |root: &str| {
        format!("<harmony><root><root-step>{root}</root-step></root><kind>major</kind></harmony>")
    };
    let (start, stop) = ("<tie type=\"start\"/>", "<tie type=\"stop\"/>");
    let attributes = "<attributes><divisions>2</divisions><time><beats>1</beats><beat-type>4\
                      </beat-type></time></attributes>";
    let text = score(
        &[
            bar(
                1,
                &(attributes.to_owned()
                    + &harmony("C")
                    + &note("C", 4, 1, "")
                    + &note("D", 4, 1, start)),
            ),
            bar(
                2,
                &(ending(1, "start", "")
                    + "<sound tempo=\"60\"/>"
                    + &harmony("G")
                    + &note("D", 4, 2, stop)
                    + &ending(1, "stop", "<repeat direction=\"backward\"/>")),
            ),
            bar(
                3,
                &(ending(2, "start", "")
                    + &note("D", 4, 1, stop)
                    + &note("E", 4, 1, "")
                    + &ending(2, "stop", "")),
            ),
        ]
        .concat(),
    );
    let choice = Choice { repeats: Repeats::Unfolded, ..Choice::default() };
    let read = score_file::read(text.as_bytes(), &choice).unwrap();
    // Half a second a quarter; from the second bar on a second, but not in the first when it comes
    // again.
    let expected =
        [(0, 250, 60), (250, 1250, 62), (1500, 250, 60), (1750, 750, 62), (2500, 500, 64)];
    assert_eq!(told(&read), expected);
    let bars: Vec<u64> = read.notes().map(|note| note.source.bar).collect();
    assert_eq!(bars, [0, 0, 2, 2, 3]);
    let labels = (0..4).map(|bar| read.score().bars.bar(bar).unwrap().label.to_string());
    assert_eq!(labels.collect::<Vec<_>>(), ["1", "2", "1", "3"]);
    let chords = read.score().chords.changes().iter();
    let chords: Vec<String> = chords.map(|(at, chord)| format!("{at} {chord}")).collect();
    assert_eq!(chords, ["0 C", "1 G", "2 C", "3 G"]);
    assert_eq!(read.remarks(), ["unfolded the repeats: 3 bars as written, 4 as heard"]);
    let written = read_score(&text);
    assert_eq!(written.notes().len(), 4);
    assert!(written.remarks()[0].ends_with("3 bars as written, 4 as heard (--unfold)"));
}

#[test]
fn what_is_transposed_comes_out_as_it_sounds() {
    let transpose = |inner: &str| format!("<attributes>{inner}</attributes>");
    let octave = "<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>";
    let b_flat = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>";
    for (inner, midi) in [(octave, 48), (b_flat, 58), ("", 60)] {
        let content = transpose(inner) + &note("C", 4, 2, "");
        assert_eq!(told(&read_score(&measure(&content)))[0].2, midi);
    }
}

#[test]
fn alterations_are_read_and_quarter_tones_refused() {
    let altered = |alter: &str| {
        let pitch = format!("<step>B</step><alter>{alter}</alter><octave>3</octave>");
        measure(&format!("<note><pitch>{pitch}</pitch><duration>2</duration></note>"))
    };
    assert_eq!(told(&read_score(&altered("-1")))[0].2, 58);
    assert_eq!(told(&read_score(&altered("1")))[0].2, 60);
    assert!(refused(&altered("0.5")).contains("the MIDI number 59.5; expected a whole number"));
}

#[test]
fn grace_notes_come_before_the_beat() {
    let one = note("C", 4, 2, "") + &grace("D", 4) + &grace("E", 4) + &note("F", 4, 2, "");
    let expected = [(0, 500, 60), (360, 70, 62), (430, 70, 64), (500, 500, 65)];
    assert_eq!(told(&read_score(&measure(&one))), expected);
    let at_once = grace("D", 4) + &note("F", 4, 2, "");
    assert_eq!(told(&read_score(&measure(&at_once))), [(0, 70, 62), (70, 500, 65)]);
    let last = note("C", 4, 2, "") + &grace("D", 4);
    assert_eq!(told(&read_score(&measure(&last))), [(0, 500, 60), (430, 70, 62)]);
}

#[test]
fn grace_notes_crowd_where_there_is_little_room() {
    let fast = "<sound tempo=\"600\"/>";
    let content = fast.to_owned() + &note("C", 4, 2, "") + &grace("D", 4) + &note("E", 4, 2, "");
    assert_eq!(told(&read_score(&measure(&content))), [(0, 100, 60), (50, 50, 62), (100, 100, 64)]);
}

#[test]
fn tempi_come_from_sound_or_metronome_in_any_part() {
    let metronome = |unit: &str, a_minute: &str| {
        let mark = format!("{unit}<per-minute>{a_minute}</per-minute>");
        format!("<direction-type><metronome>{mark}</metronome></direction-type>")
    };
    let dotted = "<beat-unit>quarter</beat-unit><beat-unit-dot/>";
    for (direction, ms) in [
        ("<sound tempo=\"60\"/>".to_owned(), 1000),
        (metronome("<beat-unit>half</beat-unit>", "60"), 500),
        (metronome(dotted, "40"), 1000),
        (metronome(dotted, "c. 40"), 500),
        (metronome(dotted, "90") + "<sound tempo=\"30\"/>", 2000),
    ] {
        let content = format!("<direction>{direction}</direction>{}", note("C", 4, 2, ""));
        assert_eq!(told(&read_score(&measure(&content)))[0].1, ms, "{direction}");
    }
    let other = "</part><part id=\"P2\"><measure><sound tempo=\"30\"/></measure></part>";
    let text = measure(&note("C", 4, 2, "")).replace("</part>", other);
    assert_eq!(told(&read_score(&text))[0].1, 2000);
}

#[test]
fn strings_and_frets_settle_the_place() {
    let technical = "<technical><string>3</string><fret>5</fret></technical>";
    let content = note("C", 4, 2, &format!("<notations>{technical}</notations>"));
    let read = read_score(&measure(&content));
    let pin = read.note(0).unwrap().source.pin;
    assert_eq!(pin.string.map(|string| string.number()), Some(3));
    assert_eq!(pin.fret.map(|fret| fret.number()), Some(5));
    assert_eq!(read.without_pins().note(0).unwrap().source.pin, Default::default());
}

#[test]
fn of_two_staves_the_tablature_is_read() {
    let clef = "<attributes><clef number=\"2\"><sign>TAB</sign></clef></attributes>";
    let content = [
        clef.to_owned(),
        note("C", 4, 2, "<staff>1</staff>"),
        "<backup><duration>2</duration></backup>".to_owned(),
        note("C", 4, 2, "<staff>2</staff>"),
    ];
    let read = read_score(&measure(&content.concat()));
    assert_eq!(told(&read), [(0, 500, 60)]);
    assert_eq!(read.remarks(), ["read the tablature, staff 2, and no other staff of the part"]);
}

#[test]
fn parts_are_chosen_by_number_id_or_name() {
    let measures = |octave| {
        let one = measure(&note("C", octave, 2, ""));
        let from = one.find("<measure").unwrap();
        one[from..].split("</part>").next().unwrap().to_owned()
    };
    let (low, high) = (measures(3), measures(5));
    let parts = format!("{low}</part><part id=\"Gtr\">{high}");
    let names = "<part-list><score-part id=\"P1\"/><score-part id=\"Gtr\"><part-name>Lead Guitar\
                 </part-name></score-part></part-list>";
    let text = score(&parts).replace("<part id=\"P1", &format!("{names}<part id=\"P1"));
    let chosen = |part: &str| {
        let choice = Choice { part: Some(part.to_owned()), ..Choice::default() };
        score_file::read(text.as_bytes(), &choice)
    };
    for (part, midi) in [("1", 48), ("2", 72), ("Gtr", 72), ("P1", 48), ("lead", 72)] {
        assert_eq!(told(&chosen(part).unwrap())[0].2, midi, "{part}");
    }
    let said = chosen("3").unwrap_err().to_string();
    let all = "1, one note, C3; 2 Lead Guitar (Gtr), one note, C5";
    assert_eq!(said, format!("there is no part 3; expected the number or the name of one: {all}"));
    let first = read_score(&text);
    let remark = format!("the score has several parts; took the first (--part chooses: {all})");
    assert_eq!(first.remarks(), [remark]);
}

/// What stands over the staff and is no chord is told by its name, each once.
#[test]
fn chord_symbols_that_cannot_be_read_are_told() {
    let symbol = |kind: &str| {
        format!(
            "<harmony><root><root-step>C</root-step></root><kind text=\"{kind}\">other</kind></harmony>{}",
            note("C", 4, 1, "")
        )
    };
    let read = |kinds: &[&str]| {
        let content: Vec<String> = kinds.iter().map(|kind| symbol(kind)).collect();
        read_score(&measure(&content.concat())).remarks().to_vec()
    };
    assert_eq!(read(&["m7"]), [] as [&str; 0]);
    assert_eq!(read(&["quux", "m7", "quux"]), ["could not read one chord symbol: C quux"]);
    assert_eq!(
        read(&["q1", "q2", "q3", "q4", "q5", "q6"]),
        ["could not read 6 chord symbols: C q1, C q2, C q3, C q4 and 2 more"]
    );
}

#[test]
fn repeats_cues_and_drums_are_told() {
    let content = [
        note("C", 4, 2, ""),
        note("D", 4, 2, "").replace("<note>", "<note><cue/>"),
        "<note><unpitched/><duration>2</duration></note>".to_owned(),
        "<barline><repeat direction=\"backward\"/></barline>".to_owned(),
    ];
    let read = read_score(&measure(&content.concat()));
    assert_eq!(told(&read).len(), 1);
    assert_eq!(
        read.remarks(),
        [
            "left out 1 note without a pitch",
            "left out 1 cue note",
            "the part has repeats, which are not unfolded: 1 bar as written, 2 as heard (--unfold)",
        ]
    );
}

/// By hand: one bar that is heard three times, and one that would be heard too often.
#[test]
fn a_repeat_says_how_often_all_is_played() {
    for (times, remark) in [
        ("3", "unfolded the repeats: 1 bar as written, 3 as heard"),
        (
            "10001",
            "the repeats of the part are too many (that of bar 1 is heard 10001 times) and are not \
             unfolded; expected 10,000 bars as they are heard",
        ),
    ] {
        let repeat = "<barline><repeat direction=\"backward\" times=\"3\"/></barline>";
        let content = note("C", 4, 2, "") + &repeat.replace('3', times);
        let choice = Choice { repeats: Repeats::Unfolded, ..Choice::default() };
        let read = score_file::read(measure(&content).as_bytes(), &choice).unwrap();
        assert_eq!(read.remarks(), [remark]);
        assert_eq!(told(&read).len(), if times == "3" { 3 } else { 1 });
    }
}

#[test]
fn notes_know_where_they_stand() {
    let time = "<attributes><time><beats>6</beats><beat-type>8</beat-type></time></attributes>";
    let content = format!("{time}\n{}\n{}", note("C", 4, 1, ""), note("D", 4, 1, ""));
    let read = read_score(&measure(&content));
    assert_eq!(read.note(1).unwrap().source.origin.to_string(), "bar 1, beat 2 (line 3, column 1)");
}

#[test]
fn what_no_score_is_is_refused_with_its_place() {
    let open = "<measure><attributes><divisions>1</divisions></attributes>";
    for (text, words) in [
        ("<html/>".to_owned(), "line 1, column 1: found \"html\"; expected MusicXML"),
        ("<score-timewise/>".to_owned(), "expected score-partwise, as nearly every"),
        ("<score-partwise/>".to_owned(), "the score has no parts"),
        ("<!-- -->".to_owned(), "it holds no element"),
        ("<score-partwise>".to_owned(), "the file ends within 1 open elements"),
        ("<score-partwise></part>".to_owned(), "expected well-formed XML"),
        ("<score-partwise><a b=\"&x;\"/></score-partwise>".to_owned(), "expected well-formed XML"),
        ("<score-partwise>&x;</score-partwise>".to_owned(), "found \"&x;\"; expected text"),
        ("<score-partwise/><score-partwise/>".to_owned(), "expected nothing after the score"),
        (score(""), "it holds no notes"),
        (score(&format!("<measure>{}</measure>", note("C", 4, 1, ""))), "before any divisions"),
        (measure(&note("H", 4, 1, "")), "a pitch that cannot be read"),
        (measure(&note("C", 40, 1, "")), "the MIDI number 492"),
        (measure("<note><pitch/></note>"), "a note without a duration"),
        (measure("<note><duration>1</duration></note>"), "a note without a pitch"),
        (measure(&chord("C", 4, 1)), "expected the chord's first note before it"),
        (measure("<backup><duration>3</duration></backup>"), "stays within the measure"),
        (measure("<forward><duration>-1</duration></forward>"), "found \"-1\"; expected a dura"),
        (measure("<forward><duration>nan</duration></forward>"), "found \"nan\""),
        (measure("<sound tempo=\"0\"/>"), "found \"0\"; expected a tempo"),
        (measure(&note("C", 4, 4_000_000, "")), "a line of at most a day"),
        (score(&open.replace(">1<", ">0<")), "expected divisions of a quarter note, above 0"),
    ] {
        let said = refused(&text);
        assert!(said.contains(words) && said.contains("expected"), "{text}\n{said}");
    }
}

#[test]
fn entities_are_not_expanded_and_document_types_not_followed() {
    let bomb = "<!DOCTYPE score-partwise [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;&a;&a;\">]>";
    let with = |text: &str| format!("{bomb}{}", measure(&format!("{text}{}", note("C", 4, 2, ""))));
    assert_eq!(told(&read_score(&with("")))[0].2, 60);
    assert!(refused(&with("&b;")).contains("found \"&b;\"; expected text"));
}

#[test]
fn xml_may_nest_so_deep_and_no_deeper() {
    let nested = |depth: usize| {
        let inside = depth - 1;
        let content = format!("{}{}", "<a>".repeat(inside), "</a>".repeat(inside));
        format!("<score-partwise>{content}</score-partwise>")
    };
    assert!(refused(&nested(DEEPEST_NESTING)).contains("the score has no parts"));
    for depth in [DEEPEST_NESTING + 1, 100_000] {
        let said = refused(&nested(depth));
        assert!(said.contains("line 1, column 314: too many elements in one another"), "{said}");
    }
}

#[test]
fn a_note_of_thousands_of_elements_is_refused() {
    let content = format!("<note>{}</note>", "<a/>".repeat(2_001));
    assert!(refused(&measure(&content)).contains("more than 2000 elements in one"));
}
