//! MusicXML.

use fretloom::score_file::{self, Choice, ReadScore, WrittenNote, WrittenScore};
use fretloom_fretboard::{Fret, Neck, Place, StringNumber, Tuning};
use fretloom_theory::{ChordSymbol, Note, Part, Quarters, Score, Slur};
use proptest::prelude::*;

use crate::lines::{self, Asked};

fn text_of(written: &WrittenScore) -> String {
    String::from_utf8(written.music_xml().unwrap()).unwrap()
}

fn read(written: &WrittenScore) -> ReadScore {
    score_file::read(&written.music_xml().unwrap(), &Choice::default()).unwrap()
}

/// The text without the white space between elements.
fn bare(text: &str) -> String {
    text.lines().map(str::trim).collect()
}

fn quarters(above: u64, below: u32) -> Quarters {
    Quarters::new(above, below).unwrap()
}

fn guitar() -> Tuning {
    Tuning::read("EADGBE").unwrap()
}

fn place(string: u8, fret: u8) -> Place {
    Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
}

/// `eighth.~ 8th` and so on: each note or rest of the first staff as type, dot and ties, by hand.
fn values(text: &str) -> Vec<String> {
    let notes = text.split("<note>").skip(1);
    let of_staff = notes.filter(|note| !note.contains("<staff>2</staff>"));
    let told = of_staff.map(|note| {
        let value = note.split("<type>").nth(1).and_then(|rest| rest.split('<').next());
        let rest = if note.contains("<rest") { "rest " } else { "" };
        let dot = if note.contains("<dot/>") { "." } else { "" };
        let [stop, start] = ["<tie type=\"stop\"/>", "<tie type=\"start\"/>"]
            .map(|tie| if note.contains(tie) { "~" } else { "" });
        format!("{stop}{rest}{}{dot}{start}", value.unwrap_or("bar"))
    });
    told.collect()
}

fn one_note(onset: Quarters, duration: Quarters) -> WrittenScore {
    let note = Note::new(onset, duration, "C4".parse().unwrap()).unwrap();
    let parts = vec![Part::new([note])];
    WrittenScore::of(Score { parts, ..Score::default() }, guitar())
}

#[test]
fn lengths_that_are_no_value_are_tied_at_the_bar_and_the_beat() {
    let told = |onset, duration| values(&text_of(&one_note(onset, duration)));
    assert_eq!(told(quarters(0, 1), quarters(4, 1)), ["whole"]);
    assert_eq!(told(quarters(0, 1), quarters(3, 1)), ["half.", "rest quarter"]);
    assert_eq!(
        told(quarters(7, 2), quarters(1, 1)),
        [
            "rest half",
            "rest quarter",
            "rest eighth",
            "eighth~",
            "~eighth",
            "rest eighth",
            "rest quarter",
            "rest half"
        ]
    );
    assert_eq!(
        told(quarters(0, 1), quarters(5, 4)),
        ["quarter~", "~16th", "rest eighth.", "rest half"]
    );
    assert_eq!(told(quarters(4, 1), quarters(4, 1)), ["rest bar", "whole"]);
    assert_eq!(
        told(quarters(1, 3), quarters(2, 3)),
        ["rest eighth", "quarter", "rest quarter", "rest half"]
    );
}

/// Triplets of quarters over two beats are one tuplet; a note that leaves a triplet is tied at the
/// beat.
#[test]
fn tuplets_are_as_a_reader_expects_them() {
    let note =
        |from: Quarters, to: Quarters| Note::between(from, to, "C4".parse().unwrap()).unwrap();
    let moments = [(0, 1), (2, 3), (4, 3), (2, 1), (7, 3), (4, 1)].map(|(a, b)| quarters(a, b));
    let notes = moments.windows(2).map(|two| note(two[0], two[1]));
    let score = Score { parts: vec![Part::new(notes)], ..Score::default() };
    let text = text_of(&WrittenScore::of(score, guitar()));
    assert_eq!(values(&text), ["quarter", "quarter", "quarter", "eighth", "quarter~", "~quarter"]);
    let ratio = "<actual-notes>3</actual-notes><normal-notes>2</normal-notes>";
    let bare = bare(&text);
    assert_eq!(bare.matches(&format!("{ratio}<normal-type>quarter")).count(), 3);
    assert_eq!(bare.matches(&format!("{ratio}<normal-type>eighth")).count(), 2);
    assert_eq!(bare.matches("<tuplet number=\"1\" type=\"start\"").count(), 2);
    assert_eq!(bare.matches("<tuplet number=\"1\" type=\"stop\"").count(), 2);
}

/// A hammer-on from open D to E on the fourth string, over Dm7, for a guitar with a capo at 2 whose
/// player reads C and D.
#[test]
fn places_slurs_and_strings_are_written() {
    let capo = fretloom_fretboard::Capo::full(Fret::new(2).unwrap());
    let tuning = guitar().with_capo(capo).unwrap();
    let note = |onset, pitch: &str| {
        Note::new(Quarters::whole(onset), Quarters::ONE, pitch.parse().unwrap()).unwrap()
    };
    let parts = vec![Part::new([note(0, "E3"), note(1, "F#3")])];
    let beside = |fret, slur| WrittenNote {
        place: Some(place(4, fret)),
        slur,
        accent: slur.is_none(),
        ..WrittenNote::default()
    };
    let written = WrittenScore {
        notes: vec![beside(0, None), beside(4, Some(Slur::HammerOn))],
        ..WrittenScore::of(Score { parts, ..Score::default() }, tuning.clone())
    };
    let neck = Neck::new(tuning);
    assert_eq!(neck.pitch_at(place(4, 0)).unwrap().midi(), 52); // E3
    let text = bare(&text_of(&written));
    for piece in [
        "<clef number=\"1\"><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change>",
        "<clef number=\"2\"><sign>TAB</sign>",
        "<staff-lines>6</staff-lines><staff-tuning line=\"1\"><tuning-step>E</tuning-step>\
         <tuning-octave>2</tuning-octave></staff-tuning>",
        "</staff-tuning><capo>2</capo></staff-details>",
        "<hammer-on number=\"1\" type=\"start\">H</hammer-on><string>4</string><fret>0</fret>",
        "<hammer-on number=\"1\" type=\"stop\"></hammer-on><string>4</string><fret>2</fret>",
        "<slur number=\"1\" type=\"start\"/>",
        "<slur number=\"2\" type=\"stop\"/>",
        "<articulations><accent/></articulations>",
    ] {
        assert!(text.contains(piece), "{piece}\n{text}");
    }
}

#[test]
fn what_stands_over_the_staff_is_written() {
    let asked = Asked::over("| Dm7 | G7alt/B N.C. |");
    let text = bare(&text_of(&asked.written().unwrap()));
    for piece in [
        "<work-title>Line over Dm7 G7alt/B N.C.</work-title>",
        "<part-name>Guitar</part-name>",
        "<sound tempo=\"120\"/>",
        "<sound><swing><first>2</first><second>1</second><swing-type>eighth</swing-type></swing>",
        "<root-step>D</root-step></root><kind text=\"m7\">minor-seventh</kind>",
        "<root-step>G</root-step></root><kind text=\"7alt\">augmented-seventh</kind><bass><bass-step>B",
        "<degree print-object=\"no\"><degree-value>9</degree-value><degree-alter>-1</degree-alter>\
         <degree-type>add</degree-type></degree>",
        "<kind text=\"N.C.\">none</kind>",
        "<bar-style>light-heavy</bar-style>",
    ] {
        assert!(text.contains(piece), "{piece}\n{text}");
    }
}

#[test]
fn twelve_keys_follow_one_another_between_double_bars() {
    let keys = Some(fretloom::answer::KeyCycle::Fourths);
    let text =
        bare(&text_of(&Asked { bars: Some(2), keys, ..Asked::over("Dm7") }.written().unwrap()));
    assert_eq!(text.matches("<bar-style>light-light</bar-style>").count(), 11);
    assert_eq!(text.matches("<rehearsal>in ").count(), 12);
    assert_eq!(text.matches("<measure ").count(), 24);
    assert!(text.contains("<measure implicit=\"no\" number=\"24\">"), "{text}");
}

#[test]
fn a_title_with_any_sign_is_one_that_xml_allows() {
    let mut written = one_note(Quarters::ZERO, Quarters::ONE);
    written.score.title = Some("<A> & \"B\"\u{0}\u{1b}\u{fffe} ♭".to_owned());
    assert_eq!(read(&written).score().title.as_deref(), Some("<A> & \"B\" ♭"));
}

#[test]
fn what_the_format_cannot_hold_is_refused_in_words() {
    let low = Note::new(Quarters::ZERO, Quarters::ONE, "B-1".parse().unwrap()).unwrap();
    let fine = [u32::MAX, u32::MAX - 1]
        .map(|below| Note::new(Quarters::ZERO, quarters(1, below), "C4".parse().unwrap()).unwrap());
    for (notes, said) in [
        (vec![low], "B-1 is too low for MusicXML: expected notes from C0 up"),
        (
            fine.to_vec(),
            "its notes are divided too finely: expected note values and tuplets that have a common \
             unit",
        ),
    ] {
        let score = Score { parts: vec![Part::new(notes)], ..Score::default() };
        let refused = WrittenScore::of(score, guitar()).music_xml().unwrap_err();
        assert_eq!(refused.to_string(), said);
    }
}

/// Any note values, in any tuplets, wherever they fall: nothing is lost.
fn any_notes() -> impl Strategy<Value = Vec<Note>> {
    let length =
        (1u64..20, proptest::sample::select(vec![1u32, 2, 3, 4, 5, 6, 7, 8, 9, 12, 16, 64]));
    let note = (length.clone(), length, 24u8..96, proptest::bool::ANY);
    proptest::collection::vec(note, 1..24).prop_map(|notes| {
        let mut now = Quarters::ZERO;
        let mut made = Vec::new();
        for (rest, (above, below), midi, is_silent) in notes {
            if is_silent {
                now = now.checked_add(quarters(rest.0, rest.1)).unwrap();
            }
            let pitch = fretloom_theory::Pitch::from_midi(midi).unwrap();
            let pitch = fretloom_theory::NamedPitch::everyday(pitch);
            made.extend(Note::new(now, quarters(above, below), pitch));
            // Some notes overlap, some follow one another.
            now =
                now.checked_add(quarters(above.div_ceil(1 + u64::from(midi % 2)), below)).unwrap();
        }
        made
    })
}

/// Onset, duration, name, and where it is played if that is known.
type Told = (Quarters, Quarters, String, Option<(u8, u8)>);

fn told_of(written: &WrittenScore) -> Vec<Told> {
    let neck = Neck::new(written.tuning.clone());
    let notes = written.score.parts[0].notes().iter().zip(&written.notes);
    let mut told: Vec<Told> = notes
        .map(|(note, beside)| {
            let at = beside.place.map(|at| (at.string.number(), neck.tab_number(at).number()));
            (note.onset(), note.duration(), format!("{:#}", note.pitch()), at)
        })
        .collect();
    told.sort();
    told
}

fn told_again(read: &ReadScore) -> Vec<Told> {
    let mut told: Vec<Told> = read
        .notes()
        .map(|read| {
            let pin = read.source.pin;
            let at =
                pin.string.zip(pin.fret).map(|(string, fret)| (string.number(), fret.number()));
            let note = read.note;
            (note.onset(), note.duration(), format!("{:#}", note.pitch()), at)
        })
        .collect();
    told.sort();
    told
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    #[test]
    fn a_line_is_read_as_it_was_written(asked in lines::any()) {
        let Ok(written) = asked.written() else { return Ok(()) };
        if written.notes.is_empty() {
            return Ok(());
        }
        let again = read(&written);
        prop_assert_eq!(told_again(&again), told_of(&written));
        let (score, again) = (&written.score, again.score());
        prop_assert_eq!(&again.title, &score.title);
        prop_assert_eq!(again.parts[0].name(), score.parts[0].name());
        prop_assert_eq!(&again.keys, &score.keys);
        let [found, wanted] = [again, score].map(|it| it.tempi.tempo_at(Quarters::ZERO).a_minute());
        // To nine decimals, as numbers are read.
        prop_assert!((found - wanted).abs() <= 1e-9, "{} for {}", found, wanted);
        let end = score.end();
        for bar in (0..).map_while(|index| score.bars.bar(index)).take_while(|bar| bar.from < end) {
            let found = again.bars.at(bar.from).unwrap().bar;
            prop_assert_eq!((found.from, found.length, found.meter), (bar.from, bar.length, bar.meter));
            prop_assert_eq!(&found.label, &bar.label);
            // Later on a pick-up is a short bar, and the format says no more of it.
            prop_assert!(found.missing == bar.missing || !bar.from.is_zero());
        }
        let symbols = |score: &Score| -> Vec<(Quarters, ChordSymbol)> { score.chords.changes().to_vec() };
        prop_assert_eq!(symbols(again), symbols(score));
        // A line is tied where it crosses bar lines; values that need it are tied elsewhere too.
        for note in score.parts[0].notes() {
            let notes = again.parts[0].notes();
            let same = notes.iter().find(|other| {
                (other.onset(), other.pitch()) == (note.onset(), note.pitch())
            });
            let ties = same.unwrap().ties();
            prop_assert!(note.ties().iter().all(|tie| ties.contains(tie)), "{:?}", note);
        }
    }

    #[test]
    fn any_notes_are_read_as_they_were_written(notes in any_notes(), meter in proptest::sample::select(
        vec!["4/4", "3/4", "6/8", "7/8", "12/8", "5/4", "3/16"],
    )) {
        let bars = fretloom_theory::Bars::of(meter.parse().unwrap());
        let score = Score { bars, parts: vec![Part::new(notes)], ..Score::default() };
        let written = WrittenScore::of(score, guitar());
        prop_assert_eq!(told_again(&read(&written)), told_of(&written));
    }
}
