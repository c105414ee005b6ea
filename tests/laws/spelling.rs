//! How notes and triads are written.

use fretloom::answer::{Harmony, PairAnswer, Wishes, pairs_over};
use fretloom_theory::{Families, PitchClass, SpelledTriad, Speller, Spelling, TriadQuality};

use crate::arithmetic::{class_of, letter_and_accidental, semitones_of};
use crate::{CHORDS, ROOTS, called, grounds};

/// Letters and semitones from the root to the other two members, by the quality's word.
/// common practice, no source
fn members(quality: &str) -> [(usize, i32); 2] {
    match quality {
        "major" => [(2, 4), (4, 7)],
        "minor" => [(2, 3), (4, 7)],
        "diminished" => [(2, 3), (4, 6)],
        "augmented" => [(2, 4), (4, 8)],
        "sus" => [(3, 5), (4, 7)],
        "flat-five" => [(2, 4), (4, 6)],
        _ => panic!("{quality}"),
    }
}

/// The accidental that a pitch class needs on a letter, C being 0: the one nearest to none.
fn needed(letter: usize, class: i32) -> i32 {
    let natural = class_of(&"CDEFGAB"[letter..=letter]);
    (class - natural + 6).rem_euclid(12) - 6
}

fn is_everyday(name: &str) -> bool {
    ROOTS.contains(&name)
}

/// E♯, B♯, C♭ or F♭.
fn is_white_key_in_disguise(letter: usize, accidental: i32) -> bool {
    matches!((letter, accidental), (2 | 6, 1) | (0 | 3, -1))
}

/// May this member stand on its own letter, or must it take its everyday name? An augmented fifth
/// is E♯ or B♯ only where the scale writes the triad so.
fn stands_on_its_letter(letter: usize, class: i32, strange_fifth: bool) -> bool {
    let accidental = needed(letter, class);
    accidental.abs() <= 1 && !(strange_fifth && is_white_key_in_disguise(letter, accidental))
}

fn check_plain(triad: &SpelledTriad, scale: &[String], place: &str) {
    let names = triad.notes().map(|note| format!("{note:#}"));
    let (root_letter, root_accidental) = letter_and_accidental(&names[0]);
    assert!(root_accidental.abs() <= 1, "{names:?} in {place}");
    let quality = triad.quality().word();
    let in_letters = members(quality).map(|(steps, semitones)| {
        let letter = (root_letter + steps) % 7;
        (letter, needed(letter, class_of(&names[0]) + semitones))
    });
    let writes = |wanted| scale.iter().any(|name| letter_and_accidental(name) == wanted);
    let written = scale.contains(&names[0]) && in_letters.into_iter().all(writes);
    for (name, (steps, semitones)) in names[1..].iter().zip(members(quality)) {
        let class = (class_of(&names[0]) + semitones).rem_euclid(12);
        assert_eq!(class_of(name), class, "{names:?} in {place}");
        let letter = (root_letter + steps) % 7;
        if stands_on_its_letter(letter, class, semitones == 8 && !written) {
            assert_eq!(letter_and_accidental(name), (letter, needed(letter, class)), "{names:?}");
        } else {
            assert!(is_everyday(name), "{names:?} in {place}");
        }
    }
}

#[test]
fn plain_triads_stand_on_alternate_letters_and_on_everyday_names_only_where_they_must() {
    for root in ROOTS {
        for chord_scale in grounds(root) {
            let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
            let scale: Vec<String> =
                chord_scale.scale().notes().map(|note| format!("{note:#}")).collect();
            for triad in chord_scale.scale().triads(TriadQuality::ALL) {
                let spelled = speller.triad(triad);
                assert_eq!(spelled.triad(), triad, "{}", called(&chord_scale));
                check_plain(&spelled, &scale, &called(&chord_scale));
            }
        }
    }
}

#[test]
fn single_notes_sound_as_asked_and_in_plain_spelling_have_one_accidental_at_most() {
    for root in ROOTS {
        for chord_scale in grounds(root) {
            for class in PitchClass::all() {
                let name =
                    |policy| format!("{:#}", Speller::new(chord_scale.clone(), policy).note(class));
                let (plain, strict) = (name(Spelling::Plain), name(Spelling::Strict));
                let sounds = [class_of(&plain), class_of(&strict)];
                assert_eq!(sounds, [i32::from(class.number()); 2], "{}", called(&chord_scale));
                assert!(
                    letter_and_accidental(&plain).1.abs() <= 1,
                    "{plain} {}",
                    called(&chord_scale)
                );
            }
        }
    }
}

/// Every note of a pair with its degree: those of both triads and those left out.
fn labels(pair: &PairAnswer) -> Vec<(String, String)> {
    let of_triads = [&pair.first, &pair.second].into_iter();
    let mut labels: Vec<(String, String)> = of_triads
        .flat_map(|triad| triad.name.notes().into_iter().zip(triad.degrees))
        .map(|(note, degree)| (format!("{note:#}"), format!("{degree:#}")))
        .collect();
    let left_out = pair.left_out.iter();
    labels.extend(left_out.map(|left| (format!("{:#}", left.note), format!("{:#}", left.degree))));
    labels
}

#[test]
fn every_degree_agrees_with_the_pitch_of_the_note_it_labels() {
    for root in ROOTS {
        for chord in CHORDS {
            let harmony = Harmony::of_chord(&format!("{root}{chord}")).unwrap();
            for spelling in [Spelling::Plain, Spelling::Strict] {
                let wishes = Wishes::default();
                let answer = pairs_over(&harmony, &Families::default(), &wishes, spelling);
                for (note, degree) in answer.pairs.iter().flat_map(labels) {
                    let up = (class_of(&note) - class_of(root)).rem_euclid(12);
                    assert_eq!(semitones_of(&degree), up, "{note} = {degree} over {root}{chord}");
                }
            }
        }
    }
}
