//! The pairs of scales against tables made outside the project; the head of each table says how.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/arithmetic.rs"]
mod arithmetic;

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use arithmetic::{class_of, numbers, rows, sorted};
use fretloom::answer::{Harmony, NamedPair, PairAnswer, Wishes, every_pair, pairs_over};
use fretloom_theory::{Families, PairKind, SpelledTriad, Spelling};

const COUNTS: &str = include_str!("reference/scale_pair_counts.tsv");
const PAIRS: &str = include_str!("reference/scale_pairs.tsv");

/// Two triads as quality and pitch classes, in no order: the smaller first.
type Couple = [(String, Vec<i32>); 2];

/// What a pair leaves out, and the Forte name of its six notes.
type Facts = (Vec<i32>, String);

fn families(text: &str) -> Families {
    text.parse().unwrap()
}

fn tertian(couple: &Couple) -> bool {
    couple.iter().all(|(quality, _)| !matches!(quality.as_str(), "sus" | "flat-five"))
}

/// The pairs of each scale in the reference, all six qualities.
fn reference() -> HashMap<&'static str, BTreeMap<Couple, Facts>> {
    let mut scales: HashMap<_, BTreeMap<_, _>> = HashMap::new();
    for row in rows(PAIRS) {
        let [scale, quality, notes, other, other_notes, omits, forte] = row[..] else {
            panic!("{row:?}")
        };
        let couple = couple([(quality, numbers(notes)), (other, numbers(other_notes))]);
        let facts = (numbers(omits), forte.to_owned());
        let before = scales.entry(scale).or_default().insert(couple, facts);
        assert_eq!(before, None, "{row:?} stands twice");
    }
    scales
}

fn couple(triads: [(&str, Vec<i32>); 2]) -> Couple {
    let mut couple = triads.map(|(quality, notes)| (quality.to_owned(), notes));
    couple.sort();
    couple
}

fn sounding(triad: SpelledTriad) -> Vec<i32> {
    sorted(triad.notes().map(|note| class_of(&format!("{note:#}"))))
}

fn triads(pair: NamedPair) -> Couple {
    couple(pair.names().map(|triad| (triad.quality().word(), sounding(triad))))
}

fn found(pair: &PairAnswer) -> (Couple, Facts) {
    let omits = pair.left_out.iter().map(|left| class_of(&format!("{:#}", left.note)));
    (triads(pair.name()), (sorted(omits), pair.six_notes.forte.unwrap().to_owned()))
}

/// Asks the program for the pairs of a scale; each couple may come once only.
fn pairs_of(scale: &str, families: &Families) -> BTreeMap<Couple, Facts> {
    let harmony = Harmony::of_scale(scale).unwrap();
    let answer = pairs_over(&harmony, families, &Wishes::default(), Spelling::Plain);
    let pairs: BTreeMap<Couple, Facts> = answer.pairs.iter().map(found).collect();
    assert_eq!(pairs.len(), answer.pairs.len(), "{scale} lists a pair twice");
    pairs
}

#[test]
fn every_scale_holds_the_reference_pairs_with_what_they_leave_out_and_their_forte_names() {
    let reference = reference();
    let mut scales = 0;
    for row in rows(COUNTS) {
        let scale = format!("C {}", row[0]);
        let expected = reference.get(row[0]).cloned().unwrap_or_default();
        assert_eq!(pairs_of(&scale, &families("all")), expected, "{scale}");
        let in_thirds = expected.into_iter().filter(|(couple, _)| tertian(couple)).collect();
        assert_eq!(pairs_of(&scale, &Families::default()), in_thirds, "{scale}");
        scales += 1;
    }
    assert_eq!(scales, 48);
}

#[test]
fn every_scale_holds_the_reference_notes_and_counts() {
    for row in rows(COUNTS) {
        let [name, classes, _, tertian, all] = row[..] else { panic!("{row:?}") };
        let scale = format!("C {name}");
        let harmony = Harmony::of_scale(&scale).unwrap();
        let notes = harmony.chord_scale().scale().notes();
        let sounds = sorted(notes.map(|note| class_of(&format!("{note:#}"))));
        assert_eq!(sounds, numbers(classes), "{scale}");
        for (count, asked) in [(tertian, "tertian"), (all, "all")] {
            let found = pairs_of(&scale, &families(asked)).len();
            assert_eq!(found.to_string(), count, "{asked} pairs of {scale}");
        }
    }
}

/// The counts that a player would check first, written out: common practice, no source; they
/// follow from the table above.
#[test]
fn the_counts_of_well_known_scales_are_the_known_ones() {
    for (scale, count) in [
        ("C major", 7),
        ("C melodic minor", 7),
        ("C harmonic minor", 9),
        ("C harmonic major", 9),
        ("C half-whole diminished", 36),
        ("C whole tone", 1),
        ("C augmented", 4),
        ("C minor pentatonic", 0),
    ] {
        assert_eq!(pairs_of(scale, &Families::default()).len(), count, "{scale}");
    }
}

/// Counted from first principles outside the project: 366 pairs, 840 with sus and flat-five.
#[test]
fn every_pair_there_is_comes_once() {
    for (asked, count) in [("tertian", 366), ("all", 840)] {
        let answer = every_pair(&families(asked), Spelling::Plain);
        let couples: BTreeSet<Couple> = answer.pairs.iter().map(|pair| triads(pair.name)).collect();
        assert_eq!((answer.pairs.len(), couples.len()), (count, count), "{asked}");
    }
}

#[test]
fn a_family_that_is_asked_for_twice_counts_once() {
    for asked in ["all,tertian", "sus,tertian,flat-five,sus", "tertian,all"] {
        assert_eq!(pairs_of("C major", &families(asked)), pairs_of("C major", &families("all")));
    }
}

/// Going up its six notes the two triads of an interleaving pair alternate; judged here on the
/// notes as they are spelled.
fn alternates(pair: NamedPair) -> bool {
    let [first, second] = pair.names();
    let first = sounding(first);
    let six = sorted(first.iter().copied().chain(sounding(second)));
    let sides: Vec<bool> = six.iter().map(|class| first.contains(class)).collect();
    (0..6).all(|place| sides[place] != sides[(place + 1) % 6])
}

/// Counted from first principles outside the project: 33 kinds, of which 26 interleave; the seven
/// others by name.
#[test]
fn twenty_six_of_the_thirty_three_kinds_interleave() {
    let pairs = every_pair(&Families::default(), Spelling::Plain).pairs;
    let mut kinds: HashMap<PairKind, bool> = HashMap::new();
    for pair in &pairs {
        let interleaves = pair.pair.interleaves();
        assert_eq!(interleaves, alternates(pair.name), "{}", pair.name);
        let known = *kinds.entry(pair.pair.kind()).or_insert(interleaves);
        assert_eq!(known, interleaves, "{}", pair.name);
    }
    assert_eq!(kinds.len(), 33);
    assert_eq!(kinds.values().filter(|interleaves| **interleaves).count(), 26);
    let kinds = pairs.iter().map(|pair| pair.pair);
    let others: HashSet<PairKind> =
        kinds.filter(|pair| !pair.interleaves()).map(|pair| pair.kind()).collect();
    let named: HashSet<PairKind> = NOT_INTERLEAVING.iter().map(|name| kind_of(name)).collect();
    assert_eq!(others, named);
}

/// The kinds that do not interleave, each by one pair.
const NOT_INTERLEAVING: [&str; 7] =
    ["Cdim & Edim", "Cdim & Fdim", "C & Fdim", "C & Abdim", "C & Abm", "Cm & Fdim", "Cm & Abdim"];

fn kind_of(name: &str) -> PairKind {
    let harmony = Harmony::of_scale("C chromatic").unwrap();
    let (one, other) = name.split_once(" & ").unwrap();
    let triads = [one.parse().unwrap(), other.parse().unwrap()];
    fretloom::answer::pair_over(&harmony, triads, Spelling::Plain).unwrap().pair().kind()
}

fn words<T: std::fmt::Display>(list: impl IntoIterator<Item = T>) -> String {
    list.into_iter().map(|word| format!("{word:#}")).collect::<Vec<_>>().join(" ")
}

fn row(pair: &PairAnswer) -> String {
    let [first, second] = [&pair.first, &pair.second].map(|triad| words(triad.degrees));
    let left_out = words(pair.left_out.iter().map(|left| left.note));
    let as_degree = words(pair.left_out.iter().map(|left| left.degree));
    format!("{:#} | {first} | {second} | {left_out} = {as_degree}", pair.name())
}

/// The seven rows worked out by hand from the letters of G Lydian: common practice, no source.
#[test]
fn gmaj7_sharp_eleven_has_seven_pairs_in_g_lydian_and_g_and_a_come_first() {
    let harmony = Harmony::of_chord("Gmaj7#11").unwrap();
    assert_eq!(harmony.chord_scale().scale().to_string(), "G Lydian");
    let answer =
        pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::default());
    let rows: Vec<String> = answer.pairs.iter().map(row).collect();
    let mut by_root = rows.clone();
    by_root.sort();
    assert_eq!(rows[0], "G & A | 1 3 5 | 9 #11 13 | F# = 7");
    assert_eq!(
        by_root,
        [
            "A & Bm | 9 #11 13 | 3 5 7 | G = 1",
            "Bm & C#dim | 3 5 7 | #11 13 1 | A = 9",
            "C#dim & D | #11 13 1 | 5 7 9 | B = 3",
            "D & Em | 5 7 9 | 13 1 3 | C# = #11",
            "Em & F#m | 13 1 3 | 7 9 #11 | D = 5",
            "G & A | 1 3 5 | 9 #11 13 | F# = 7",
            "G & F#m | 1 3 5 | 7 9 #11 | E = 13",
        ]
    );
}
