//! The values are computed from open pitches, outside this code, unless a source is named.

use super::*;

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn place(string: u8, fret: u8) -> Place {
    Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
}

fn fret(number: u8) -> Fret {
    Fret::new(number).unwrap()
}

fn midi(text: &str) -> Pitch {
    text.parse::<fretloom_theory::NamedPitch>().unwrap().pitch()
}

/// How many different pitches, and how many pitches between the lowest and the highest are
/// missing, in a box of `width` frets from the fifth.
fn box_at_the_fifth(neck: &Neck, width: u8) -> (usize, usize, usize) {
    let mut pitches: Vec<u8> = neck
        .places()
        .filter(|(place, _)| (5..5 + width).contains(&place.fret.number()))
        .map(|(_, pitch)| pitch.midi())
        .collect();
    let places = pitches.len();
    pitches.sort_unstable();
    pitches.dedup();
    let range = usize::from(pitches[pitches.len() - 1] - pitches[0]) + 1;
    (places, pitches.len(), range - pitches.len())
}

#[test]
fn standard_tuning_has_138_places_and_47_pitches() {
    let neck = neck("EADGBE");
    assert_eq!(neck.places().count(), 138);
    let counts: Vec<usize> = (0..128)
        .map(|n| neck.places_of(Pitch::from_midi(n).unwrap()).count())
        .filter(|count| *count > 0)
        .collect();
    assert_eq!(counts.len(), 47);
    for (places, pitches) in [(1, 10), (2, 9), (3, 10), (4, 10), (5, 8)] {
        let such = counts.iter().filter(|count| **count == places).count();
        assert_eq!(such, pitches, "{places} places");
    }
    for name in ["B3", "C4", "C#4", "D4", "E4", "F4", "F#4", "G4"] {
        assert_eq!(neck.places_of(midi(name)).count(), 5, "{name}");
    }
}

#[test]
fn the_open_first_string_is_found_on_four_other_strings() {
    let neck = neck("EADGBE");
    let places: Vec<Place> = neck.places_of(midi("E4")).collect();
    let expected = [(1, 0), (2, 5), (3, 9), (4, 14), (5, 19)];
    assert_eq!(places, expected.map(|(string, fret)| place(string, fret)));
}

#[test]
fn places_and_pitches_agree() {
    for tuning in ["EADGBE", "GCEA", "EADG", "DADGAD", "BEADGBE"] {
        let neck = neck(tuning);
        for (place, pitch) in neck.places() {
            assert_eq!(neck.pitch_at(place), Some(pitch));
            assert!(neck.places_of(pitch).any(|found| found == place));
        }
    }
}

#[test]
fn octaves_lie_where_players_know_them() {
    let neck = neck("EADGBE");
    for (lower, upper, frets) in
        [(6, 4, 2), (5, 3, 2), (4, 2, 3), (3, 1, 3), (6, 3, -3), (5, 2, -2), (4, 1, -2)]
    {
        let low = neck.pitch_at(place(lower, 7)).unwrap();
        let high = neck.pitch_at(place(upper, 7u8.wrapping_add_signed(frets)));
        assert_eq!(high, low.up(12), "{lower} to {upper}");
    }
}

#[test]
fn every_pitch_class_stands_six_times_in_twelve_frets() {
    let neck = neck("EADGBE");
    for first in 0..=11 {
        for class in fretloom_theory::PitchClass::all() {
            let here = neck.places().filter(|(place, pitch)| {
                let fret = place.fret.number();
                (first..first + 12).contains(&fret) && pitch.pitch_class() == class
            });
            assert_eq!(here.count(), 6, "{class:?} from fret {first}");
        }
    }
}

#[test]
fn a_box_of_four_frets_misses_notes_and_one_of_five_does_not() {
    let standard = neck("EADGBE");
    assert_eq!(box_at_the_fifth(&standard, 4), (24, 24, 4));
    assert_eq!(box_at_the_fifth(&standard, 5), (30, 29, 0));
    let fourths = neck("EADGCF");
    assert_eq!(box_at_the_fifth(&fourths, 4), (24, 24, 5));
    assert_eq!(box_at_the_fifth(&fourths, 5), (30, 30, 0));
}

#[test]
fn spans_in_millimetres() {
    let spans = [(1, 4), (1, 5), (1, 6), (5, 8), (5, 9), (5, 10), (12, 15), (12, 17)];
    for (scale_mm, expected) in [
        (648.0, [97, 126, 153, 77, 100, 122, 52, 81]),
        (628.0, [94, 122, 149, 75, 97, 118, 50, 79]),
        (864.0, [130, 168, 205, 103, 134, 162, 69, 108]),
        (345.0, [52, 67, 82, 41, 53, 65, 27, 43]),
    ] {
        let strings = Tuning::read("EADGBE").unwrap();
        let strings = strings.strings().map(|(_, open)| open).collect();
        let neck = Neck::new(Tuning::new(strings, 22, scale_mm).unwrap());
        for ((low, high), mm) in spans.into_iter().zip(expected) {
            let span = neck.span_mm(fret(high), fret(low));
            assert!((span - f64::from(mm)).abs() <= 0.5, "{low}-{high}: {span}");
        }
    }
}

/// The rule of 17.817 (the equal-temperament fret rule), and the octave at half the string.
#[test]
fn frets_stand_by_the_rule_of_equal_temperament() {
    let neck = neck("EADGBE");
    assert!((neck.distance_mm(fret(1)) - 648.0 / 17.817).abs() < 0.001);
    assert!((neck.distance_mm(fret(12)) - 324.0).abs() < 1e-9);
    assert!((neck.distance_mm(Fret::HIGHEST) - 567.0).abs() < 1e-9);
    assert_eq!(neck.distance_mm(Fret::OPEN), 0.0);
}

/// Computed from open pitches: 0 is G4, frets 1 to 5 do not exist, fret 7 is A4.
#[test]
fn the_short_string_of_a_banjo_counts_the_frets_of_the_neck() {
    let open = |note: &str| crate::OpenString::new(note.parse().unwrap());
    let short = crate::OpenString::starting_at(open("G4").note(), fret(5));
    let strings = vec![short, open("D3"), open("G3"), open("B3"), open("D4")];
    let neck = Neck::new(Tuning::new(strings, 22, 670.0).unwrap());
    assert_eq!(neck.pitch_at(place(5, 0)), Some(midi("G4")));
    for number in 1..=5 {
        assert_eq!(neck.pitch_at(place(5, number)), None, "fret {number}");
    }
    assert_eq!(neck.pitch_at(place(5, 7)), Some(midi("A4")));
    assert_eq!(neck.fret_of(midi("A4"), place(5, 0).string), Some(fret(7)));
    assert_eq!(neck.places().count(), 5 * 23 - 5);
}

fn behind(capo: crate::Capo, tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap().with_capo(capo).unwrap())
}

/// Computed from open pitches: E2 behind fret 2 is F♯2, and fret 3 is G2 as ever.
#[test]
fn a_capo_leaves_neck_frets_their_numbers() {
    let neck = behind(crate::Capo::full(fret(2)), "EADGBE");
    assert_eq!(neck.pitch_at(place(6, 0)), Some(midi("F#2")));
    for number in 1..=2 {
        assert_eq!(neck.pitch_at(place(6, number)), None, "fret {number}");
    }
    assert_eq!(neck.pitch_at(place(6, 3)), Some(midi("G2")));
    assert_eq!(neck.fret_of(midi("F#2"), place(6, 0).string), Some(Fret::OPEN));
    assert_eq!(neck.fret_of(midi("F2"), place(6, 0).string), None);
    assert_eq!(neck.fret_of(midi("G2"), place(6, 0).string), Some(fret(3)));
    assert_eq!(neck.places().count(), 6 * 21);
    assert_eq!(neck.fret_number(place(6, 0)), fret(2));
    assert_eq!(neck.fret_number(place(6, 3)), fret(3));
}

#[test]
fn a_partial_capo_holds_its_strings_only() {
    let capo = crate::Capo::partial(fret(2), "5-4-3".parse().unwrap());
    let neck = behind(capo, "EADGBE");
    let open: Vec<Option<Pitch>> =
        (1..=6).rev().map(|string| neck.pitch_at(place(string, 0))).collect();
    let sounding = ["E2", "B2", "E3", "A3", "B3", "E4"].map(|name| Some(midi(name)));
    assert_eq!(open, sounding);
    assert_eq!(neck.fret_number(place(6, 0)), Fret::OPEN);
    assert_eq!(neck.fret_number(place(3, 0)), fret(2));
    assert_eq!(neck.pitch_at(place(2, 1)), Some(midi("C4")));
    assert_eq!(neck.pitch_at(place(3, 1)), None);
}

/// What sounds behind a capo is what sounds at its fret without one, and above it all is as
/// before.
#[test]
fn a_capo_takes_places_away_and_moves_none() {
    for tuning in ["EADGBE", "GCEA", "EADG"] {
        let bare = neck(tuning);
        for number in 0..=bare.tuning().last_fret().number() {
            let capoed = behind(crate::Capo::full(fret(number)), tuning);
            let places: Vec<(Place, Pitch)> = capoed
                .places()
                .map(|(there, pitch)| (Place { fret: capoed.fret_number(there), ..there }, pitch))
                .collect();
            let left: Vec<(Place, Pitch)> =
                bare.places().filter(|(there, _)| there.fret.number() >= number).collect();
            assert_eq!(places, left, "{tuning}, capo at {number}");
        }
    }
}

/// A banjo's short string begins at fret 5: a capo below does not reach it.
#[test]
fn a_capo_below_a_short_string_leaves_it_alone() {
    let short = |capo: u8| {
        let open = |note: &str| crate::OpenString::new(note.parse().unwrap());
        let fifth = crate::OpenString::starting_at(open("G4").note(), fret(5));
        let strings = vec![fifth, open("D3"), open("G3"), open("B3"), open("D4")];
        let tuning = Tuning::new(strings, 22, 670.0).unwrap();
        Neck::new(tuning.with_capo(crate::Capo::full(fret(capo))).unwrap())
    };
    assert_eq!(short(3).pitch_at(place(5, 0)), Some(midi("G4")));
    assert_eq!(short(3).fret_number(place(5, 0)), Fret::OPEN);
    assert_eq!(short(3).pitch_at(place(5, 6)), Some(midi("G#4")));
    assert_eq!(short(7).pitch_at(place(5, 0)), Some(midi("A4")));
    assert_eq!(short(7).fret_number(place(5, 0)), fret(7));
    assert_eq!(short(7).pitch_at(place(5, 7)), None);
}

/// A guitar of six courses: an octave beside the low strings, a unison beside the high ones.
#[test]
fn a_course_sounds_its_principal_first() {
    let notes = |text: &str| vec![text.parse().unwrap()];
    let beside = ["E3", "A3", "D4", "G4", "B3", "E4"].map(notes).to_vec();
    let tuning = Tuning::read("EADGBE").unwrap().with_courses(beside).unwrap();
    let capoed = tuning.clone().with_capo(crate::Capo::full(fret(2))).unwrap();
    for (tuning, at, expected) in [
        (&tuning, 0, ["E2", "E3"]),
        (&tuning, 3, ["G2", "G3"]),
        (&capoed, 0, ["F#2", "F#3"]),
        (&capoed, 3, ["G2", "G3"]),
    ] {
        let neck = Neck::new(tuning.clone());
        let sounding: Vec<Pitch> = neck.course_at(place(6, at)).collect();
        assert_eq!(sounding, expected.map(midi));
        assert_eq!(neck.pitch_at(place(6, at)), Some(midi(expected[0])));
    }
    assert_eq!(Neck::new(capoed).course_at(place(6, 1)).count(), 0);
}

#[test]
fn inlays_follow_the_instrument() {
    let marked = |neck: &Neck, inlay| -> Vec<u8> {
        let frets = Fret::HIGHEST.up_to_here();
        let such = frets.filter(|fret| neck.inlay(*fret) == inlay);
        such.map(Fret::number).collect()
    };
    let guitar = neck("BEADGBE");
    let singles = [3, 5, 7, 9, 15, 17, 19, 21];
    assert_eq!(marked(&guitar, Inlay::Single), singles);
    assert_eq!(marked(&guitar, Inlay::Double), [12, 24]);
    assert_eq!(marked(&neck("GCEA"), Inlay::Single), [3, 5, 7, 10, 15]);
}
