//! The JSON of each command has every key it is documented to have, with values of the right kind.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/arithmetic.rs"]
mod arithmetic;

use arithmetic::{class_of, semitones_of};
use fretloom::answer::{
    self, ChangesAnswer, ChangesQuestion, ChartsAnswer, FingerAnswer, FingerQuestion, Harmony,
    LadderAnswer, NamedPair, NeckAnswer, PairsAnswer, PatternsAnswer, ShapesAnswer, TuningAnswer,
    TuningsAnswer, Wishes,
};
use fretloom::json::{self, AsJson};
use fretloom::library::{LoadedCharts, LoadedPatterns, LoadedTunings};
use fretloom::score_file::{self, Choice};
use fretloom_fretboard::{FingeringQuery, FretRange, Neck, Region, ShapeQuery};
use fretloom_theory::{BarSection, BarText, Chart, Families, Meter, SpelledTriad, Spelling};
use serde_json::Value;

/// What a value has to be.
enum Kind {
    /// Words for people.
    Text,
    /// Letters and signs of ASCII only.
    Ascii,
    /// An ASCII note name.
    Note,
    /// An ASCII degree.
    Degree,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// A whole number, not negative.
    Count,
    Number,
    Flag,
    Null,
    Maybe(&'static Kind),
    List(&'static Kind),
    Object(&'static [(&'static str, Kind)]),
    /// An object with at least the keys of both.
    Both(&'static Kind, &'static Kind),
    /// Whichever of the two has its first key.
    Either(&'static Kind, &'static Kind),
}

use Kind::{
    Ascii, Both, Count, Degree, Either, Flag, List, Maybe, Note, Null, Number, Object, OneOf, Text,
};

const NOTES: Kind = List(&Note);
const DEGREES: Kind = List(&Degree);
const COUNTS: Kind = List(&Count);
const QUALITY: Kind = OneOf(&["major", "minor", "diminished", "augmented", "sus", "flat-five"]);

const CHORD: Kind = Object(&[
    ("symbol", Text),
    ("root", Note),
    ("bass", Maybe(&Note)),
    ("tones", NOTES),
    ("degrees", DEGREES),
    ("assumed", List(&Text)),
]);
const UNREAD: Kind = Object(&[("error", Text), ("symbol", Text), ("at", Count)]);
const SCALE: Kind = Object(&[
    ("name", Ascii),
    ("root", Note),
    ("kind", Ascii),
    ("parent", Maybe(&Ascii)),
    ("mode", Maybe(&Count)),
    ("notes", NOTES),
    ("degrees", DEGREES),
    ("why", Ascii),
]);
const TRIAD: Kind = Object(&[("root", Note), ("quality", QUALITY), ("notes", NOTES)]);
const PAIR: Kind = Object(&[
    ("rank", Count),
    ("name", Ascii),
    ("first", Both(&TRIAD, &Object(&[("degrees", DEGREES)]))),
    ("second", Both(&TRIAD, &Object(&[("degrees", DEGREES)]))),
    ("left_out", List(&Object(&[("note", Note), ("degree", Degree)]))),
    ("states_root", Flag),
    ("states_third", Flag),
    ("states_seventh", Flag),
    ("tensions", DEGREES),
    ("rubs", DEGREES),
    ("outside", NOTES),
    ("drops_named", DEGREES),
    ("in_thirds", Flag),
    ("interleaves", Flag),
    ("symmetry", COUNTS),
    ("also_fits", List(&Ascii)),
    ("forte", Ascii),
    ("prime_form", COUNTS),
    ("interval_vector", COUNTS),
    ("why", Ascii),
]);
const TUNING: Kind = Object(&[
    ("id", Ascii),
    ("name", Text),
    ("instrument", Ascii),
    ("strings", List(&Ascii)),
    ("courses", Maybe(&List(&List(&Ascii)))),
    ("start_frets", Maybe(&COUNTS)),
    ("capo", Count),
    ("capo_strings", Maybe(&COUNTS)),
    ("frets", Count),
    ("scale_mm", Number),
    ("source", Text),
]);
const PATTERN: Kind = Object(&[
    ("id", Ascii),
    ("name", Ascii),
    ("figures", Ascii),
    ("length", Count),
    ("source", Ascii),
    ("note", Maybe(&Ascii)),
    ("bars", Maybe(&Count)),
    ("strokes", List(&Maybe(&OneOf(&["down", "up"])))),
]);
const CHART: Kind = Object(&[
    ("id", Ascii),
    ("title", Maybe(&Text)),
    ("key", Maybe(&Ascii)),
    ("meter", Ascii),
    ("tempo", Maybe(&Number)),
    ("feel", Maybe(&Text)),
    ("bars", Count),
    ("source", Text),
]);
const SHAPE: Kind = Object(&[
    ("triad", Ascii),
    ("inversion", OneOf(&["root", "first", "second"])),
    ("by_name_only", Flag),
    ("voicing", OneOf(&["close", "open"])),
    ("strings", COUNTS),
    ("frets", COUNTS),
    ("pitches", COUNTS),
    ("fingers", Maybe(&COUNTS)),
    ("stretch_mm", Number),
    ("position", Count),
]);
const PLACE: Kind = Object(&[
    ("string", Count),
    ("fret", Count),
    ("midi", Count),
    ("note", Note),
    ("triad", OneOf(&["first", "second"])),
    ("degree", Degree),
]);

const FINGERED: Kind = Object(&[
    ("midi", Count),
    ("string", Count),
    ("fret", Count),
    ("finger", Count),
    ("position", Count),
]);
const WAY: Kind = Object(&[("cost", Number), ("why", Ascii), ("notes", List(&FINGERED))]);
const WAYS: Kind = Object(&[("tuning", TUNING), ("ways", List(&WAY))]);

const PAIRS_OF_CHORD: Kind = Object(&[("chord", CHORD), ("scale", SCALE), ("pairs", List(&PAIR))]);
const PAIRS_OF_SCALE: Kind = Object(&[("chord", Null), ("scale", SCALE), ("pairs", List(&PAIR))]);
const EVERY_PAIR: Kind = Object(&[("chord", Null), ("scale", Null), ("pairs", List(&PAIR))]);
const SCALES: Kind =
    Object(&[("chord", CHORD), ("scales", List(&Both(&SCALE, &Object(&[("rank", Count)]))))]);
const TRIADS: Kind =
    Object(&[("scale", SCALE), ("triads", List(&Both(&TRIAD, &Object(&[("degree", Degree)]))))]);
const CHORDS: Kind = Object(&[("chords", List(&Either(&UNREAD, &CHORD)))]);
const BARRE: Kind = Object(&[("finger", Count), ("fret", Count), ("strings", COUNTS)]);
const LISTED: Kind = Both(&SHAPE, &Object(&[("barre", Maybe(&BARRE))]));
const SHAPES: Kind = Object(&[("tuning", TUNING), ("shapes", List(&LISTED))]);
const LADDER: Kind = Object(&[("tuning", TUNING), ("strings", COUNTS), ("rungs", List(&SHAPE))]);
const NECK: Kind = Object(&[("tuning", TUNING), ("pair", Ascii), ("places", List(&PLACE))]);
const VOICE: Kind = Object(&[
    ("string", Count),
    ("from_string", Count),
    ("from", Count),
    ("to", Count),
    ("frets", Number),
    ("mm", Number),
]);
const PLANNED: Kind = Object(&[
    ("scale", Maybe(&Ascii)),
    ("beat", Number),
    ("beats", Number),
    ("onset", Number),
    ("symbol", Ascii),
    ("function", Maybe(&Ascii)),
    ("pair", Maybe(&Ascii)),
    ("left_out", NOTES),
    ("rubs", DEGREES),
    ("drops_named", DEGREES),
    ("kept", Flag),
    ("goes_on", Flag),
    ("settled", Flag),
    ("moved_mm", Maybe(&Number)),
    ("shape", Maybe(&SHAPE)),
    ("voices", List(&VOICE)),
    ("shapes", Maybe(&Count)),
    ("scales", List(&Ascii)),
    ("pairs", List(&Ascii)),
    ("why", Ascii),
]);
const HEARD_BAR: Kind = Object(&[
    ("bar", Count),
    ("section", Maybe(&Text)),
    ("onset", Number),
    ("meter", Ascii),
    ("chords", List(&Either(&UNREAD, &PLANNED))),
]);
const ONE_PLAN: Kind =
    Object(&[("cost", Number), ("distinct_pairs", Count), ("chords", List(&CHOICE))]);
const CHOICE: Kind =
    Object(&[("onset", Number), ("symbol", Ascii), ("scale", Ascii), ("pair", Ascii)]);
const CHANGES: Kind = Object(&[
    ("title", Maybe(&Text)),
    ("key", Maybe(&Ascii)),
    ("meter", Ascii),
    ("tempo", Maybe(&Number)),
    ("feel", Maybe(&Text)),
    ("strings", Maybe(&COUNTS)),
    ("frets", Maybe(&COUNTS)),
    ("bars", List(&HEARD_BAR)),
    ("distinct_pairs", Count),
    ("cost", Number),
    ("plans", List(&ONE_PLAN)),
]);

impl Kind {
    /// Fails with the path of the first value that is missing or of another kind.
    fn check(&self, value: &Value, path: &str) {
        let holds = match self {
            Maybe(_) if value.is_null() => true,
            Maybe(kind) => return kind.check(value, path),
            List(kind) => return check_list(kind, value, path),
            Object(keys) => return check_object(keys, value, path),
            Both(one, other) => {
                one.check(value, path);
                return other.check(value, path);
            }
            Either(one, other) => {
                return if one.is_meant(value) { one } else { other }.check(value, path);
            }
            Number => value.is_number(),
            Count => value.is_u64(),
            Flag => value.is_boolean(),
            Null => value.is_null(),
            _ => value.as_str().is_some_and(|text| self.allows(text)),
        };
        assert!(holds, "{path} is {value}");
    }

    /// Is a text of this kind?
    fn allows(&self, text: &str) -> bool {
        match self {
            Text => true,
            Ascii => text.is_ascii(),
            Note => (0..12).contains(&class_of(text)),
            Degree => (0..12).contains(&semitones_of(text)),
            OneOf(words) => words.contains(&text),
            _ => false,
        }
    }

    fn is_meant(&self, value: &Value) -> bool {
        matches!(self, Object([(key, _), ..]) if value.get(key).is_some())
    }
}

fn check_list(kind: &Kind, value: &Value, path: &str) {
    let list = value.as_array().unwrap_or_else(|| panic!("{path} is no list: {value}"));
    for (index, entry) in list.iter().enumerate() {
        kind.check(entry, &format!("{path}[{index}]"));
    }
}

fn check_object(keys: &[(&str, Kind)], value: &Value, path: &str) {
    for (key, kind) in keys {
        let value = value.get(key).unwrap_or_else(|| panic!("{path}.{key} is missing: {value}"));
        kind.check(value, &format!("{path}.{key}"));
    }
}

/// Every answer begins with its format; the rest is as documented.
fn check(command: &str, answer: &impl AsJson, kind: &Kind) -> Value {
    let text = json::text(answer);
    assert!(text.starts_with("{\"format\":1,"), "{command}: {text:.40}");
    let value: Value = serde_json::from_str(&text).unwrap();
    kind.check(&value, command);
    value
}

fn pairs(harmony: &Harmony, families: &str) -> PairsAnswer {
    let families: Families = families.parse().unwrap();
    answer::pairs_over(harmony, &families, &Wishes::default(), Spelling::default())
}

fn neck(tuning: &str) -> (Neck, TuningAnswer) {
    let found = answer::find_tuning(&LoadedTunings::load(None), tuning).unwrap();
    (Neck::new(found.tuning.clone()), found)
}

fn triad(name: &str) -> SpelledTriad {
    name.parse().unwrap()
}

#[test]
fn pairs_of_a_chord() {
    for symbol in ["Gmaj7#11", "C7alt", "Bbm7b5", "F#7sus4", "C6/9", "D/C", "Ebdim7", "Abadd9"] {
        let harmony = Harmony::of_chord(symbol).unwrap();
        let value = check(symbol, &pairs(&harmony, "all"), &PAIRS_OF_CHORD);
        assert!(!value["pairs"].as_array().unwrap().is_empty(), "{symbol}");
    }
}

#[test]
fn pairs_of_a_scale_and_every_pair() {
    for scale in ["C Dorian", "F# half-whole", "C E G", "Db: 1 b9 3 11 5 13 b7"] {
        check(scale, &pairs(&Harmony::of_scale(scale).unwrap(), "tertian"), &PAIRS_OF_SCALE);
    }
    let all = answer::every_pair(&Families::default(), Spelling::default());
    let value = check("pairs --all", &all, &EVERY_PAIR);
    for pair in value["pairs"].as_array().unwrap() {
        let empty = |list: &Value| list.as_array().unwrap().is_empty();
        assert!(empty(&pair["left_out"]), "{pair}");
        assert!(empty(&pair["first"]["degrees"]) && empty(&pair["second"]["degrees"]), "{pair}");
    }
}

#[test]
fn scales_and_triads() {
    for symbol in ["C7", "Am7b5", "F#+"] {
        check(symbol, &answer::scales_of(symbol, &[]).unwrap(), &SCALES);
    }
    for scale in ["G Lydian", "Cb altered bb7", "C augmented"] {
        check(scale, &answer::triads_of(scale, Spelling::Plain, &[]).unwrap(), &TRIADS);
    }
}

#[test]
fn chords_and_lists_of_chords() {
    let one = Object(const { &[("chord", CHORD)] });
    for symbol in ["GΔ7(♯11)", "C°", "B♭7alt/E", "Calt"] {
        check(symbol, &answer::chord(symbol).unwrap(), &one);
    }
    let value = check("chord --file", &answer::chord_list("Cm7\n\nC7x\n F9 \n"), &CHORDS);
    let chords = value["chords"].as_array().unwrap();
    assert_eq!(chords.len(), 3);
    assert_eq!(chords[1]["symbol"], "C7x");
    assert_eq!(chords[1]["at"], 3);
}

#[test]
fn shapes_ladders_and_necks() {
    let harmony = Harmony::of_chord("Gmaj7#11").unwrap();
    for name in ["guitar-standard", "ukulele-high-g", "bass-4-string", "D2 A2 D3 G3 A3 D4"] {
        let (neck, tuning) = neck(name);
        let query = ShapeQuery::default();
        let shapes = ShapesAnswer::new(&neck, tuning.clone(), triad("C+"), None, &query).unwrap();
        check(name, &shapes, &SHAPES);
        let pair = NamedPair::new([triad("F"), triad("G")]).unwrap();
        let strings = "3-2-1".parse().unwrap();
        let ladder = LadderAnswer::new(&neck, tuning.clone(), pair, strings, &query).unwrap();
        check(name, &ladder, &LADDER);
        let pairs = pairs(&harmony, "tertian").pairs;
        let pair = pairs.get(0).unwrap();
        let places = NeckAnswer::new(&neck, tuning, pair, FretRange::WHOLE_NECK);
        check(name, &places, &NECK);
    }
}

#[test]
fn ways_to_play_a_line() {
    let file = b"{\"notes\":[{\"onset_s\":0,\"duration_s\":0.2,\"midi\":60}]}";
    let score = score_file::read(file, &Choice::default()).unwrap();
    let question = FingerQuestion { query: FingeringQuery::default(), count: 3 };
    for tuning in ["guitar-standard", "ukulele-high-g"] {
        let (neck, tuning) = neck(tuning);
        let answer = FingerAnswer::new(&neck, tuning, &score, &question).unwrap();
        let value = check("finger", &answer, &WAYS);
        let first = value["ways"][0].as_object().unwrap();
        assert_eq!(first.keys().collect::<Vec<_>>(), ["cost", "notes", "why"]);
    }
}

#[test]
fn charts_and_their_plans() {
    let (neck, _) = neck("guitar-standard");
    let bars = BarText::read_marking(
        &[BarSection::unnamed("[A] Dm7♭5 G7alt | Cm6 | Cx7 | % | N.C. | [B] 6/8 F♯m7 | % |")],
        Meter::COMMON,
        None,
    );
    let chart = Chart::of(bars.unwrap().0);
    let free = ChangesQuestion { plans: 2, ..ChangesQuestion::of(chart) };
    let region = Region::default().on("3-2-1".parse().unwrap());
    let locked = ChangesQuestion { region: Some(region), ..free.clone() };
    for question in [free, locked] {
        let answer = ChangesAnswer::new(&neck, &question).unwrap();
        let value = check("changes", &answer, &CHANGES);
        assert_eq!(value["bars"].as_array().unwrap().len(), 7);
        let shape = &value["bars"][0]["chords"][0]["shape"];
        assert_eq!(shape.is_object(), question.region.is_some());
    }
}

#[test]
fn patterns() {
    let kind = Object(const { &[("patterns", List(&PATTERN))] });
    let value = check("patterns", &PatternsAnswer::new(&LoadedPatterns::load(None)), &kind);
    let five =
        value["patterns"].as_array().unwrap().iter().find(|one| one["id"] == "three-and-two");
    let five = five.unwrap();
    assert_eq!((five["figures"].as_str(), five["length"].as_u64()), (Some("132 32"), Some(5)));
    assert_eq!(five["strokes"], serde_json::json!(["down", "up", "down", "up", "down"]));
}

#[test]
fn charts() {
    let kind = Object(const { &[("charts", List(&CHART))] });
    let value = check("charts", &ChartsAnswer::new(&LoadedCharts::load(None), &[]), &kind);
    assert_eq!(value["charts"][1]["meter"], "3/4");
}

#[test]
fn tunings() {
    let kind = Object(const { &[("tunings", List(&TUNING))] });
    let value = check("tunings", &TuningsAnswer::new(&LoadedTunings::load(None)), &kind);
    assert_eq!(value["tunings"][0]["strings"][0], "E2");
}
