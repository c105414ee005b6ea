//! Our own form: `{"notes":[{"onset_s":0.0,"duration_s":0.2,"midi":60,"string":3,"fret":5}]}`.
//!
//! `string` and `fret` are optional and settle the place. In a note with seconds other keys are
//! refused, since a misspelled `string` would settle nothing; beside the notes they are left alone.
//! Around the notes may stand
//!
//! | key | meaning |
//! |---|---|
//! | `chords` | `[{"onset_s":0.0,"symbol":"Dm7"}]` |
//! | `tempo`, `meter` | quarter notes a minute, `"6/8"` |
//! | `bars_s` | when each bar begins; what comes before the first is bar 0 |
//!
//! Seconds are kept. Without tempo, meter and bars, beats are counted at 120 in 4/4, so that a bar
//! lasts two seconds.
//!
//! A line as the program itself prints it is read too: its notes have `onset` and `duration` in
//! beats, its chords `onset`, and `bars` are beats as well. What it says of its pairs is kept as a
//! claim; where it cannot be read it is left alone.

mod clock;
mod fields;
mod file;
mod frame;
mod list;
mod made_of;
mod note;

use fretloom_theory::{Note, Part, Quarters};

use super::error::{At, ScoreFileError};
use super::limits::MOST_NOTES;
use super::locator::Locator;
use super::read_score::{NoteSource, ReadScore, too_many};
use clock::Clock;
use file::{File, offset_in};
use frame::Frame;
use made_of::made_of;
use note::note;

pub(super) fn read(text: &str) -> Result<ReadScore, ScoreFileError> {
    let file: File<'_> = serde_json::from_str(text).map_err(|error| unreadable(text, &error))?;
    if file.notes.0.len() > MOST_NOTES {
        return Err(too_many());
    }
    let clock = Clock::of(&file.notes);
    let frame = Frame::read(text, &file, clock)?;
    let mut locator = Locator::new(text);
    let notes = file.notes.0.iter().zip(1..).map(|(raw, number)| {
        let at = locator.at(offset_in(text, raw));
        note(raw, number, at, clock, &frame)
    });
    let (notes, sources): (Vec<Note>, Vec<NoteSource>) =
        notes.collect::<Result<Vec<_>, _>>()?.into_iter().unzip();
    let end = notes.iter().map(Note::end).max().unwrap_or(Quarters::ZERO);
    let (score, bars_from, remarks) = frame.until(end)?;
    let made_of = match clock {
        Clock::Beats => made_of(&file, &notes),
        Clock::Seconds => Vec::new(),
    };
    let read = ReadScore::of(score, Part::new(notes), sources)?;
    Ok(read.with_bars(bars_from).made_of_pairs(made_of).saying(remarks))
}

/// What the JSON reader says, with its place before it and our form after it.
fn unreadable(text: &str, error: &serde_json::Error) -> ScoreFileError {
    const EXPECTED: &str =
        "JSON as in {\"notes\":[{\"onset_s\":0.5,\"duration_s\":0.2,\"midi\":60}]}";
    let said = error.to_string();
    let said = said.split(" at line ").next().unwrap_or_default().to_owned();
    let line = error.line().max(1);
    // The reader counts bytes, and 0 for the end of the line before.
    let in_line = text.lines().nth(line - 1).unwrap_or_default();
    let before = in_line.get(..error.column().saturating_sub(1)).unwrap_or(in_line);
    ScoreFileError::new(At::Text { line, column: before.chars().count() + 1 }, said, EXPECTED)
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Fret, Pin, StringNumber};
    use fretloom_theory::{Bar, ChordSymbol};

    use super::*;

    fn refused(text: &str) -> String {
        read(text).unwrap_err().to_string()
    }

    #[test]
    fn notes_keep_their_order_and_their_pins() {
        let read = read(
            r#"{"title": "x", "notes": [
                {"onset_s": 3, "duration_s": 0, "midi": 127, "string": 12, "fret": 36},
                {"onset_s": 0.5, "duration_s": 0.25, "midi": 0, "string": null}
            ]}"#,
        )
        .unwrap();
        let [late, early] = [read.note(0).unwrap(), read.note(1).unwrap()];
        assert_eq!((late.time.onset_s(), late.sounding().midi()), (3.0, 127));
        assert_eq!((late.source.bar, late.source.pin.fret), (1, Fret::new(36)));
        assert_eq!(late.source.pin.string, StringNumber::new(12));
        assert_eq!((early.time.duration_s(), early.source.pin), (0.25, Pin::default()));
        assert_eq!(early.source.origin.to_string(), "note 2 (line 3, column 17)");
        assert!(!read.has_written_bars());
    }

    /// At 120 a quarter lasts half a second: 0.1 s are a fifth of one, nearly 0.3 s three fifths.
    #[test]
    fn seconds_are_kept_and_beats_are_counted() {
        let third = 1.0 / 3.0;
        let times = [(0.1 + 0.2, 0.1), (1.999_999_999, 1.5), (third, 2.0 * third)];
        let note = |(onset, duration): &(f64, f64)| {
            format!(r#"{{"onset_s":{onset:?},"duration_s":{duration:?},"midi":61}}"#)
        };
        let list = times.iter().map(note).collect::<Vec<_>>().join(",");
        let read = read(&format!(r#"{{"notes":[{list}]}}"#)).unwrap();
        let kept = read.notes().map(|note| (note.time.onset_s(), note.time.duration_s()));
        assert_eq!(kept.collect::<Vec<_>>(), times);
        let quarters = |(above, below)| Quarters::new(above, below).unwrap();
        let counted = [((3, 5), (1, 5)), ((4, 1), (3, 1)), ((2, 3), (4, 3))];
        for (note, (onset, duration)) in read.notes().zip(counted) {
            assert_eq!(note.note.onset(), quarters(onset));
            assert_eq!(note.note.duration(), quarters(duration));
            assert_eq!(note.note.pitch().to_string(), "D♭4");
        }
        // The bar is told by the seconds, the beat by what they nearly are.
        let second = read.note(1).unwrap();
        assert_eq!(second.source.bar, 0);
        assert_eq!(read.score().bars.at(second.note.onset()).unwrap().index, 1);
    }

    #[test]
    fn each_mistake_says_where_and_what_was_expected() {
        let with = |fields: &str| format!("{{\"notes\":[\n {{{fields}}}]}}");
        let full = "\"onset_s\":0,\"duration_s\":1,\"midi\":60";
        for (fields, words) in [
            ("\"onset_s\":-1,\"duration_s\":1,\"midi\":60", "found \"-1\"; expected onset_s: sec"),
            ("\"onset_s\":\"0\",\"duration_s\":1,\"midi\":60", "expected onset_s: seconds"),
            ("\"onset_s\":0,\"duration_s\":null,\"midi\":60", "expected duration_s: seconds"),
            (
                "\"onset_s\":0,\"duration_s\":1,\"midi\":128",
                "expected midi: a MIDI number, 0 to 127",
            ),
            ("\"onset_s\":0,\"duration_s\":1,\"midi\":60.5", "expected midi: a MIDI number"),
            ("\"onset_s\":0,\"duration_s\":1", "midi is missing; expected midi: a MIDI number"),
            (&format!("{full},\"string\":0"), "expected string: a string number, 1 to 12"),
            (&format!("{full},\"fret\":37"), "expected fret: a fret number, 0 to 36"),
            (&format!("{full},\"sting\":3"), "found \"sting\"; expected one of onset_s, "),
        ] {
            let said = refused(&with(fields));
            assert!(said.starts_with("line 2, column 2: ") && said.contains(words), "{said}");
        }
    }

    #[test]
    fn what_is_no_such_json_is_refused() {
        for text in [
            "{",
            "{}",
            "{\"notes\":3}",
            "{\"notes\":[3]}",
            "{\"notes\":[]}",
            "{\"notes\":[{\"onset_s\":NaN}]}",
            "{\"notes\":[{\"onset_s\":1e999,\"duration_s\":1,\"midi\":60}]}",
            "{\"notes\":[{\"onset_s\":1e300,\"duration_s\":1,\"midi\":60}]}",
        ] {
            assert!(refused(text).contains("expected"), "{text}");
        }
        let deep = format!("{{\"notes\":[{}]}}", "[".repeat(100_000));
        assert!(refused(&deep).contains("expected"));
    }

    #[test]
    fn a_note_too_many_is_refused() {
        let note = "{\"onset_s\":0,\"duration_s\":1,\"midi\":60}";
        let list = |count: usize| format!("{{\"notes\":[{}]}}", vec![note; count].join(","));
        assert_eq!(read(&list(MOST_NOTES)).unwrap().notes().len(), MOST_NOTES);
        assert!(refused(&list(MOST_NOTES + 1)).contains("at most 200000 notes"));
    }

    const NOTE: &str = "\"onset_s\":1,\"duration_s\":1,\"midi\":60";

    /// The bars before a moment, as label, beginning and length in quarters.
    fn bars(read: &ReadScore, count: u64) -> Vec<String> {
        let told = |Bar { from, length, label, .. }: Bar| format!("{label}: {from}+{length}");
        (0..count).filter_map(|index| read.score().bars.bar(index)).map(told).collect()
    }

    fn chords(read: &ReadScore) -> Vec<String> {
        let changes = read.score().chords.changes().iter();
        changes.map(|(at, symbol)| format!("{at} {symbol}")).collect()
    }

    /// By hand: at 60 a quarter lasts a second, so that 4.5 s are the and of 2 in bar 2 of 3/4.
    #[test]
    fn tempo_and_meter_say_where_beats_are() {
        let text = r#"{"tempo":60,"meter":"3/4",
            "chords":[{"onset_s":0,"symbol":"Dm7"},{"onset_s":3.0,"symbol":"N.C."},
                      {"onset_s":4.25,"symbol":"??"}],
            "notes":[{"onset_s":4.5,"duration_s":0.5,"midi":60}]}"#;
        let read = read(text).unwrap();
        let note = read.note(0).unwrap();
        assert_eq!(note.note.onset(), Quarters::new(9, 2).unwrap());
        assert_eq!((note.source.bar, read.has_written_bars()), (1, true));
        assert_eq!(chords(&read), ["0 Dm7", "3 N.C.", "17/4 ??"]);
        assert_eq!(read.score().tempi.seconds_at(Quarters::whole(3)), 3.0);
    }

    /// By hand: bars of 2, 4 and 2 seconds after half a second, which is a beat of the first bar.
    #[test]
    fn bars_that_were_tapped_say_where_beats_are() {
        let text = r#"{"bars_s":[0.5,2.5,6.5,8.5],
            "chords":[{"onset_s":0.5,"symbol":"Dm7"},{"onset_s":2.5,"symbol":"G7"}],
            "notes":[{"onset_s":0.25,"duration_s":0.25,"midi":60},
                     {"onset_s":4.5,"duration_s":0.5,"midi":62},
                     {"onset_s":9.5,"duration_s":0.5,"midi":64}]}"#;
        let read = read(text).unwrap();
        assert_eq!(bars(&read, 4), ["0: 0+1", "1: 1+4", "2: 5+4", "3: 9+4"]);
        let onsets: Vec<Quarters> = read.notes().map(|note| note.note.onset()).collect();
        assert_eq!(onsets, [Quarters::EIGHTH, Quarters::whole(7), Quarters::whole(15)]);
        assert_eq!(read.notes().map(|note| note.source.bar).collect::<Vec<_>>(), [0, 2, 4]);
        assert_eq!(chords(&read), ["1 Dm7", "5 G7"]);
        assert_eq!(read.note(1).unwrap().time.onset_s(), 4.5);
    }

    /// By hand: a pick-up of a beat, two bars of 4/4 and one of 3/4.
    #[test]
    fn a_line_in_beats_is_read_with_its_names_and_places() {
        let text = r#"{"format":1,"tempo":90,"meter":"4/4","bars":[0.0,1.0,5.0,9.0,12.0],
            "chords":[{"onset":1.0,"symbol":"A7alt"}],"phrases":[],
            "notes":[{"onset":0.5,"duration":0.5,"midi":61,"note":"Db","degree":"3","string":2,
                      "fret":2,"tie":null,"accent":false},
                     {"onset":1.0,"duration":0.3333333333333333,"midi":63,"note":"nonsense"},
                     {"onset":9.0,"duration":3.0,"midi":64}]}"#;
        let read = read(text).unwrap();
        let [first, second, last] = [0, 1, 2].map(|index| read.note(index).unwrap());
        assert_eq!(first.note.pitch().to_string(), "D♭4");
        assert_eq!(second.note.pitch().to_string(), "E♭4");
        assert_eq!(first.source.pin.fret, Fret::new(2));
        assert_eq!(second.note.duration(), Quarters::new(1, 3).unwrap());
        assert_eq!(bars(&read, 5), ["0: 0+1", "1: 1+4", "2: 5+4", "3: 9+3", "4: 12+3"]);
        assert_eq!((last.source.bar, chords(&read)), (3, vec!["1 A7alt".to_owned()]));
        assert!(last.note.recorded().is_none());
    }

    #[test]
    fn what_stands_around_the_notes_is_refused_where_it_is_wrong() {
        let with = |around: &str| format!("{{\"notes\":[{{{NOTE}}}],\n{around}}}");
        for (around, words) in [
            ("\"tempo\":0", "line 2, column 9: found \"0\"; expected tempo: quarter notes"),
            ("\"tempo\":1e300", "expected tempo: quarter notes a minute, 5 to 1000"),
            ("\"meter\":\"4/5\"", "column 9: found \"\"4/5\"\"; expected meter: one as in"),
            ("\"bars_s\":[]", "expected bars_s: the seconds at which bars begin"),
            ("\"bars_s\":[0,2,2]", "expected bars_s: the seconds at which bars begin"),
            ("\"bars_s\":[0,-1]", "expected bars_s"),
            ("\"bars_s\":[0,1e9]", "expected bars_s"),
            ("\"chords\":3", "column 10: found \"3\"; expected chords: a list, as in"),
            ("\"chords\":[3]", "column 11: found \"3\"; expected a chord: an object"),
            ("\"chords\":[{\"symbol\":\"C\"}]", "onset_s is missing; expected onset_s: seconds"),
            ("\"chords\":[{\"onset_s\":0}]", "symbol is missing; expected symbol: a chord symbol"),
            (
                "\"chords\":[{\"onset_s\":2,\"symbol\":\"Dm7\"}]",
                "column 11: the chord Dm7 begins after the last note; expected chords that begin",
            ),
        ] {
            let said = refused(&with(around));
            assert!(said.contains(words), "{around}: {said}");
        }
        let beats = "{\"notes\":[{\"onset\":0,\"duration\":1,\"midi\":60}],\"bars\":[0,4,3]}";
        assert!(refused(beats).contains("expected bars: the beats at which bars begin"));
    }

    #[test]
    fn chords_after_the_last_note_are_left_out_where_others_are_not() {
        let text = format!(
            "{{\"notes\":[{{{NOTE}}}],\"chords\":[{{\"onset_s\":0,\"symbol\":\"Dm7\"}},\
             {{\"onset_s\":2,\"symbol\":\"G7\"}},{{\"onset_s\":99,\"symbol\":\"C\"}}]}}"
        );
        let read = read(&text).unwrap();
        assert_eq!(read.score().chords.changes(), [(Quarters::ZERO, ChordSymbol::read("Dm7"))]);
        let remark = &read.remarks()[0];
        assert!(remark.ends_with(
            "the chord G7 begins after the last note, and is left out, and so are 1 more"
        ));
    }
}
