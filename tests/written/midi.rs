//! MIDI files.

use fretloom::score_file::{self, Choice, WrittenScore};
use fretloom_fretboard::Tuning;
use fretloom_theory::{
    Bars, ChordSymbol, KeySignature, Meter, Note, Part, Quarters, Score, Tempo, TempoMap, Timeline,
};
use midly::{MetaMessage, MidiMessage, Smf, Timing, TrackEventKind};
use proptest::prelude::*;

use crate::lines::{self, Asked};

fn quarters(above: u64, below: u32) -> Quarters {
    Quarters::new(above, below).unwrap()
}

fn guitar() -> Tuning {
    Tuning::read("EADGBE").unwrap()
}

/// A track as text: `480 marker Dm7`, one event a line, in ticks from the beginning.
fn told(file: &Smf<'_>, track: usize) -> Vec<String> {
    let mut tick = 0;
    let mut told = Vec::new();
    for event in &file.tracks[track] {
        tick += event.delta.as_int();
        let text = |bytes| String::from_utf8(Vec::from(bytes)).unwrap();
        let said = match event.kind {
            TrackEventKind::Meta(MetaMessage::TrackName(name)) => format!("name {}", text(name)),
            TrackEventKind::Meta(MetaMessage::Marker(name)) => format!("marker {}", text(name)),
            TrackEventKind::Meta(MetaMessage::CuePoint(name)) => format!("cue {}", text(name)),
            TrackEventKind::Meta(MetaMessage::Tempo(tempo)) => format!("tempo {tempo}"),
            TrackEventKind::Meta(MetaMessage::TimeSignature(units, power, ..)) => {
                format!("meter {units}/{}", 1 << power)
            }
            TrackEventKind::Meta(MetaMessage::KeySignature(sharps, minor)) => {
                format!("key {sharps} {}", if minor { "minor" } else { "major" })
            }
            TrackEventKind::Meta(MetaMessage::EndOfTrack) => "end".to_owned(),
            TrackEventKind::Midi { channel, message: MidiMessage::NoteOn { key, vel } } => {
                format!("on {channel} {key} {vel}")
            }
            TrackEventKind::Midi { channel, message: MidiMessage::NoteOff { key, .. } } => {
                format!("off {channel} {key}")
            }
            other => panic!("{other:?} is none of what is written"),
        };
        told.push(format!("{tick} {said}"));
    }
    told
}

/// By hand: a pick-up of a quarter, then 3/4; at 100 a quarter lasts 600,000 microseconds.
#[test]
fn a_small_score_is_written_event_by_event() {
    let note =
        |onset, duration, pitch: &str| Note::new(onset, duration, pitch.parse().unwrap()).unwrap();
    let notes = [
        note(quarters(1, 2), quarters(1, 2), "B3"),
        note(quarters(1, 1), quarters(1, 3), "Eb4"),
        note(quarters(4, 3), quarters(1, 3), "Eb4"),
    ];
    let three = Meter::new(3, 4).unwrap();
    let chord = |symbol| ChordSymbol::read(symbol);
    let score = Score {
        title: Some("A line".to_owned()),
        bars: Bars::with_pick_up(three, Quarters::ONE).unwrap(),
        tempi: TempoMap::steady(Tempo::new(100, 1).unwrap()),
        keys: Timeline::of([(Quarters::ZERO, KeySignature::minor(-3).unwrap())]),
        chords: Timeline::of([(Quarters::ONE, chord("Cm7b5")), (quarters(2, 1), chord("N.C."))]),
        parts: vec![Part::new(notes).named("Guitar")],
    };
    let mut written = WrittenScore::of(score, guitar());
    written.notes[1].accent = true;
    written.sections = Timeline::of([(Quarters::ONE, "in Eb".to_owned())]);
    let bytes = written.midi().unwrap();
    let file = Smf::parse(&bytes).unwrap();
    assert_eq!(file.header.timing, Timing::Metrical(480.into()));
    assert_eq!(
        told(&file, 0),
        [
            "0 name A line",
            "0 tempo 600000",
            "0 meter 1/4",
            "0 key -3 minor",
            "480 meter 3/4",
            "480 cue in Eb",
            "480 marker Cm7b5",
            "960 marker N.C.",
            "1920 end"
        ]
    );
    assert_eq!(
        told(&file, 1),
        [
            "0 name Guitar",
            "240 on 0 59 80",
            "480 off 0 59",
            "480 on 0 63 108",
            "640 off 0 63",
            "640 on 0 63 80",
            "800 off 0 63",
            "1920 end"
        ]
    );
    assert_eq!(told(&file, 2), ["0 name Drone", "1920 end"]);
    assert_eq!(told(&file, 3), ["0 name Click", "1920 end"]);
}

/// Drone and click are on tracks of their own, the click on channel 10; by hand, over two bars.
#[test]
fn drone_and_click_have_their_own_tracks() {
    let asked = Asked { bars: Some(2), ..Asked::over("Dm7") };
    let bytes = asked.written().unwrap().midi().unwrap();
    let file = Smf::parse(&bytes).unwrap();
    let [drone, click] = [2, 3].map(|track| told(&file, track));
    let begun: Vec<&String> = drone.iter().filter(|event| event.starts_with("0 on")).collect();
    assert_eq!(begun.len(), 3, "{drone:?}"); // 1, 3 and 7
    assert!(begun.iter().all(|event| event.starts_with("0 on 0 ")), "{drone:?}");
    let struck: Vec<&str> = click
        .iter()
        .filter(|event| event.contains(" on 9 "))
        .map(|event| event.split(' ').next().unwrap())
        .collect();
    assert_eq!(struck, ["480", "1440", "2400", "3360"]); // beats 2 and 4
}

#[test]
fn a_tempo_that_has_no_number_is_refused_in_words() {
    let at = |above, below| {
        let tempi = TempoMap::steady(Tempo::new(above, below).unwrap());
        let score = Score { tempi, parts: vec![Part::new([])], ..Score::default() };
        WrittenScore::of(score, guitar()).midi()
    };
    assert_eq!(
        at(3, 1).unwrap_err().to_string(),
        "a tempo of 3 has no place in a MIDI file: expected 4 to 60000000 quarter notes a minute"
    );
    assert!(at(4, 1).is_ok() && at(60_000_000, 1).is_ok());
    assert!(at(3_576, 1000).is_err() && at(130_000_000, 1).is_err());
}

#[test]
fn a_score_that_is_too_long_is_refused_in_words() {
    let at_the_end = Note::new(Quarters::whole(u32::MAX), Quarters::ONE, "C4".parse().unwrap());
    let parts = vec![Part::new(at_the_end)];
    let written = WrittenScore::of(Score { parts, ..Score::default() }, guitar());
    let said = "it is too long: expected at most 200000 bars";
    assert_eq!(written.midi().unwrap_err().to_string(), said);
}

/// A rest of 2^28 ticks and more is longer than one event may wait.
#[test]
fn a_long_rest_is_waited_for() {
    let bars = Bars::of(Meter::new(255, 1).unwrap());
    let onset = Quarters::whole(1_000_000);
    let late = Note::new(onset, Quarters::ONE, "C4".parse().unwrap()).unwrap();
    // Fast, since a line that is read lasts a day at most.
    let tempi = TempoMap::steady(Tempo::new(1000, 1).unwrap());
    let score = Score { bars, tempi, parts: vec![Part::new([late])], ..Score::default() };
    let bytes = WrittenScore::of(score, guitar()).midi().unwrap();
    let read = score_file::read(&bytes, &Choice::default()).unwrap();
    assert_eq!(read.score().parts[0].notes()[0].onset(), onset);
}

/// Two strings at one pitch: each note ends when it ends.
#[test]
fn a_pitch_that_sounds_twice_is_two_notes() {
    let note = |onset, duration| {
        Note::new(Quarters::whole(onset), Quarters::whole(duration), "B3".parse().unwrap()).unwrap()
    };
    let notes = vec![note(0, 4), note(1, 1), note(2, 6)];
    let score = Score { parts: vec![Part::new(notes.clone())], ..Score::default() };
    let bytes = WrittenScore::of(score, guitar()).midi().unwrap();
    assert_eq!(times_of(&bytes), times(&notes));
}

fn times(notes: &[Note]) -> Vec<(Quarters, Quarters, u8)> {
    let time = |note: &Note| (note.onset(), note.duration(), note.pitch().pitch().midi());
    let mut times: Vec<_> = notes.iter().map(time).collect();
    times.sort_unstable();
    times
}

fn times_of(bytes: &[u8]) -> Vec<(Quarters, Quarters, u8)> {
    let read = score_file::read(bytes, &Choice::default()).unwrap();
    times(read.score().parts[0].notes())
}

/// When bars begin until a moment.
fn begins(bars: &Bars, end: Quarters) -> Vec<Quarters> {
    let begins = (0..).map_while(|index| bars.bar(index)).map(|bar| bar.from);
    begins.take_while(|from| *from < end).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn a_line_is_read_as_it_was_written(asked in lines::any()) {
        let Ok(written) = asked.written() else { return Ok(()) };
        if written.notes.is_empty() {
            return Ok(());
        }
        let bytes = written.midi().unwrap();
        let read = score_file::read(&bytes, &Choice::default()).unwrap();
        let (score, again) = (&written.score, read.score());
        prop_assert_eq!(times(again.parts[0].notes()), times(score.parts[0].notes()));
        let end = score.end();
        prop_assert_eq!(begins(&again.bars, end), begins(&score.bars, end));
        prop_assert_eq!(&again.keys, &score.keys);
        prop_assert_eq!(&again.title, &score.title);
        prop_assert_eq!(again.parts[0].name(), score.parts[0].name());
        let [quarter, wanted] = [again, score].map(|it| it.tempi.tempo_at(Quarters::ZERO).quarter_s());
        prop_assert!((quarter - wanted).abs() <= 5e-7, "{} for {}", quarter, wanted);
        let file = Smf::parse(&bytes).unwrap();
        let markers = told(&file, 0).into_iter().filter_map(|event| {
            event.split_once(" marker ").map(|(_, symbol)| symbol.to_owned())
        });
        let symbols = score.chords.changes().iter().map(|(_, symbol)| format!("{symbol:#}"));
        prop_assert_eq!(markers.collect::<Vec<_>>(), symbols.collect::<Vec<_>>());
    }
}
