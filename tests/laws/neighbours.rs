//! Neighbouring triads look like neighbours: letters and accidentals worked out afresh.

use fretloom::answer::{Harmony, PairAnswer, Wishes, pairs_over};
use fretloom_theory::{ChordScale, Families, PairSound, Speller, Spelling, Triad, TriadQuality};

use crate::arithmetic::{class_of, letter_and_accidental};
use crate::{CHORDS, ROOTS, called, grounds};

/// A root as it is written: its letter, C being 0, and its accidental.
type Root = (usize, i32);

const NATURALS: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];

/// The accidental that a pitch class needs on a letter: the one nearest to none.
fn needed(letter: usize, class: i32) -> i32 {
    (class - NATURALS[letter % 7] + 6).rem_euclid(12) - 6
}

/// Letters up and semitones up of what must be readable in a triad: its third, and its fifth where
/// that is perfect. A flat or sharp fifth may take its everyday name. common practice, no source
fn readable_members(quality: TriadQuality) -> &'static [(usize, i32)] {
    match quality {
        TriadQuality::Major => &[(2, 4), (4, 7)],
        TriadQuality::Minor => &[(2, 3), (4, 7)],
        TriadQuality::Diminished => &[(2, 3)],
        TriadQuality::Augmented | TriadQuality::FlatFive => &[(2, 4)],
        TriadQuality::Sus => &[(3, 5), (4, 7)],
    }
}

/// Has the triad on this root no double accidental?
fn is_readable((letter, accidental): Root, quality: TriadQuality) -> bool {
    let class = NATURALS[letter] + accidental;
    let members = readable_members(quality).iter();
    accidental.abs() <= 1
        && members.map(|(steps, up)| needed(letter + steps, class + up)).all(|n| n.abs() <= 1)
}

/// Every readable way to write a triad.
fn roots(triad: Triad) -> Vec<Root> {
    let class = i32::from(triad.root().number());
    let named = (0..7).map(|letter| (letter, needed(letter, class)));
    named.filter(|root| is_readable(*root, triad.quality())).collect()
}

fn are_on_neighbouring_letters(one: Root, other: Root) -> bool {
    matches!((one.0 + 7 - other.0) % 7, 1 | 6)
}

/// E♯, B♯ and F♭, on which nobody builds a triad unasked.
fn is_strange(root: Root) -> bool {
    matches!(root, (2 | 6, 1) | (3, -1))
}

fn are_a_step_apart(pair: [Triad; 2]) -> bool {
    let [one, other] = pair.map(|triad| i32::from(triad.root().number()));
    matches!((one - other).rem_euclid(12), 1 | 2 | 10 | 11)
}

/// The chord's triad on its own root, as the chord names it.
fn own_root(chord_scale: &ChordScale, triad: Triad) -> Option<Root> {
    let root = format!("{:#}", chord_scale.root());
    let scene = crate::scene::Scene::of(chord_scale);
    let mut notes: Vec<i32> = triad
        .members()
        .map(|class| (i32::from(class.number()) - class_of(&root)).rem_euclid(12))
        .to_vec();
    let on_root = notes[0] == 0;
    notes.sort_unstable();
    let root = letter_and_accidental(&root);
    let own = on_root && scene.own_triads().contains(&notes) && is_readable(root, triad.quality());
    own.then_some(root)
}

/// Is one of the two the chord's own, and can the other not be written on a letter beside it?
fn may_stay_apart(chord_scale: &ChordScale, [one, other]: [Triad; 2]) -> bool {
    [(one, other), (other, one)].into_iter().any(|(own, neighbour)| {
        own_root(chord_scale, own).is_some_and(|own| {
            roots(neighbour).iter().all(|root| !are_on_neighbouring_letters(own, *root))
        })
    })
}

fn check(chord_scale: &ChordScale, pair: [Triad; 2], names: [Root; 2], place: &str) {
    let [one, other] = names;
    assert!(
        is_readable(one, pair[0].quality()) && is_readable(other, pair[1].quality()),
        "{place}"
    );
    if may_stay_apart(chord_scale, pair) {
        return;
    }
    let [first, second] = pair.map(roots);
    let couples = first.iter().flat_map(|one| second.iter().map(move |other| [*one, *other]));
    let neighbours: Vec<[Root; 2]> =
        couples.filter(|[one, other]| are_on_neighbouring_letters(*one, *other)).collect();
    // E♭ and E sus4 cannot be written as neighbours without a double accidental.
    assert!(neighbours.is_empty() || neighbours.contains(&names), "{place}");
    if neighbours.iter().any(|couple| !couple.iter().copied().any(is_strange)) {
        assert!(!names.into_iter().any(is_strange), "{place}");
    }
}

/// Every pair of every scale under every chord.
#[test]
fn triads_a_step_apart_stand_on_neighbouring_letters_under_names_that_players_use() {
    let mut count = 0;
    for root in ROOTS {
        for chord_scale in grounds(root) {
            let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
            for sound in PairSound::ranked(&chord_scale, TriadQuality::ALL) {
                let triads = sound.pair().triads();
                if !are_a_step_apart(triads) {
                    continue;
                }
                let spelled = speller.pair(sound.pair());
                let names = spelled.map(|name| format!("{:#}", name.root()));
                let place =
                    format!("{:#} & {:#}: {}", spelled[0], spelled[1], called(&chord_scale));
                check(&chord_scale, triads, names.map(|name| letter_and_accidental(&name)), &place);
                count += 1;
            }
        }
    }
    assert!(count > 100_000, "{count}");
}

/// The first pairs of chords on which neighbours once looked like a third or like one letter, and
/// the pair with a double accidental that stays as it is said. common practice, no source
#[test]
fn pairs_are_named_as_players_would_write_them() {
    for (chord, pair) in [
        ("F7alt", "Cb & Db"),
        ("Bb7alt", "E & F#"),
        ("Ebm7b5", "Cb & Db"),
        ("Ebm7b5", "Ebdim & Db"),
        ("Bb7b9b13", "Bb & Cb"),
        ("Gb6", "Cb & Db"),
        ("F#maj7", "Gb & Fm"),
        ("F#maj7", "F# & G#"),
        ("C7alt", "Gb & Ab"),
        ("C7alt", "E+ & F#"),
        ("Ab7b9b13", "Ab & A"),
        ("Amaj7#5", "A+ & G#m"),
        ("Dm7", "F & G"),
    ] {
        let names = names(&Harmony::of_chord(chord).unwrap());
        assert!(names.contains(&pair.to_owned()), "{pair} over {chord}: {names:?}");
    }
}

fn answers(harmony: &Harmony) -> Vec<PairAnswer> {
    let (families, wishes) = (Families::default(), Wishes::default());
    pairs_over(harmony, &families, &wishes, Spelling::Plain).pairs.iter().cloned().collect()
}

fn names(harmony: &Harmony) -> Vec<String> {
    answers(harmony).iter().map(|pair| format!("{:#}", pair.name())).collect()
}

/// Does the scale line write it with a single accidental at most?
fn in_line(line: &[String], class: i32) -> Option<&String> {
    let written = line.iter().find(|name| class_of(name) == class)?;
    (letter_and_accidental(written).1.abs() <= 1).then_some(written)
}

/// What is left out is written as in the line of the scale above it, but for the third of the chord
/// and for notes that need a double accidental there.
#[test]
fn what_a_pair_leaves_out_is_written_as_the_scale_writes_it() {
    for root in ROOTS {
        for chord in CHORDS {
            let harmony = Harmony::of_chord(&format!("{root}{chord}")).unwrap();
            let line: Vec<String> =
                harmony.scale().notes().map(|note| format!("{note:#}")).collect();
            for left in answers(&harmony).iter().flat_map(|pair| &pair.left_out) {
                let note = format!("{:#}", left.note);
                match in_line(&line, class_of(&note)) {
                    Some(written) if left.degree.number() != 3 => assert_eq!(note, *written),
                    _ => assert!(letter_and_accidental(&note).1.abs() <= 1, "{note}"),
                }
            }
        }
    }
}

/// One spelling: the alterations are flats, letter by letter those of the altered scale, and the
/// third is the chord's. Written out by hand from the melodic minor a half step up.
#[test]
fn the_notes_of_an_alt_chord_are_those_of_its_scale() {
    for (chord, notes) in [
        ("C7alt", "C E Gb Ab Bb Db Eb"),
        ("F7alt", "F A Cb Db Eb Gb Ab"),
        ("Bb7alt", "Bb D Fb Gb Ab Cb Db"),
        ("G7alt", "G B Db Eb F Ab Bb"),
        ("C#7alt", "C# E# G A B D E"),
        ("B7alt", "B D# F G A C D"),
    ] {
        let read: fretloom_theory::Chord = chord.parse().unwrap();
        let tones: Vec<String> = read.tones().map(|note| format!("{note:#}")).collect();
        assert_eq!(tones.join(" "), notes, "{chord}");
    }
}

/// Melodic minor from its third degree up holds an augmented triad in thirds: its scale says so.
#[test]
fn augmented_triads_stand_in_thirds_where_the_scale_writes_them_so() {
    for (chord, notes) in [("Amaj7#5", "A C# E#"), ("Emaj7#5", "E G# B#"), ("Bbmaj7#5", "Bb D F#")]
    {
        let harmony = Harmony::of_chord(chord).unwrap();
        let pairs = answers(&harmony);
        let triads = pairs.iter().flat_map(|pair| [pair.first.name, pair.second.name]);
        let augmented: Vec<String> = triads
            .filter(|triad| triad.quality() == TriadQuality::Augmented)
            .map(|triad| triad.notes().map(|note| format!("{note:#}")).join(" "))
            .collect();
        assert!(!augmented.is_empty() && augmented.iter().all(|found| found == notes), "{chord}");
    }
}
