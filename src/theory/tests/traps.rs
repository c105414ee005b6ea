//! Traps into which programs about scales and chords fall, each with the right behaviour.
//!
//! Values are common practice, no source, unless a line says otherwise.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at the first surprise")]

use std::collections::HashSet;

use fretloom_theory::{
    Assumption, Chord, ChordScale, NamedPitch, PairSound, PitchClass, PitchClassSet, ReadChord,
    Scale, ScaleChoice, SpelledTriad, Speller, Spelling, TranspositionClass, Triad, TriadPair,
    TriadQuality, forte_name, interval_vector, prime_form, prime_form_rahn,
};

fn chord(symbol: &str) -> Chord {
    symbol.parse().unwrap_or_else(|error| panic!("{error}"))
}

fn degrees(symbol: &str) -> String {
    let chord = chord(symbol);
    chord.degrees().iter().map(|degree| format!("{degree:#}")).collect::<Vec<_>>().join(" ")
}

fn assumed(symbol: &str) -> Vec<Assumption> {
    symbol.parse::<ReadChord>().unwrap().assumed
}

fn notes(scale: &str) -> String {
    let scale: Scale = scale.parse().unwrap();
    scale.notes().map(|note| format!("{note:#}")).collect::<Vec<_>>().join(" ")
}

fn triad(name: &str) -> Triad {
    name.parse::<SpelledTriad>().unwrap().triad()
}

fn members(name: &str) -> String {
    let triad: SpelledTriad = name.parse().unwrap();
    triad.notes().map(|note| format!("{note:#}")).join(" ")
}

fn pair(names: &str) -> Option<TriadPair> {
    let (one, other) = names.split_once('&').unwrap();
    TriadPair::new(triad(one), triad(other), PitchClass::C)
}

fn over(chord: &str, scale: &str) -> ChordScale {
    ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap())
}

fn sounds(chord_scale: &ChordScale) -> Vec<PairSound> {
    PairSound::ranked(chord_scale, TriadQuality::TERTIAN)
}

fn labels(chord_scale: &ChordScale, set: PitchClassSet) -> String {
    chord_scale.degrees(set).map(|degree| format!("{degree:#}")).collect::<Vec<_>>().join(" ")
}

fn kinds(symbol: &str) -> Vec<String> {
    let choices = ScaleChoice::for_chord(&chord(symbol));
    choices.iter().map(|choice| choice.scale().kind().name().to_owned()).collect()
}

// Spelling and names.

#[test]
fn scales_stand_on_one_letter_each() {
    assert_eq!(notes("D Locrian"), "D Eb F G Ab Bb C");
    assert_eq!(notes("Db melodic minor"), "Db Eb Fb Gb Ab Bb C");
}

#[test]
fn the_altered_scale_keeps_its_letters_and_its_triads_their_everyday_names() {
    assert_eq!(notes("C altered"), "C Db Eb Fb Gb Ab Bb");
    let chord_scale = over("C7alt", "C altered");
    let augmented = triad("E+");
    assert_eq!(
        format!("{:#}", Speller::new(chord_scale.clone(), Spelling::Plain).triad(augmented)),
        "E+"
    );
    assert_eq!(
        format!("{:#}", Speller::new(chord_scale.clone(), Spelling::Strict).triad(augmented)),
        "Fb+"
    );
}

#[test]
fn a_typed_scale_is_recognised_by_sound_whatever_its_spelling() {
    let typed: Scale = "C D Eb F G A A#".parse().unwrap();
    assert_eq!(typed.kind().name(), "Dorian");
}

#[test]
fn the_third_of_a_flat_minor_is_c_flat() {
    assert_eq!(members("Abm"), "Ab Cb Eb");
}

#[test]
fn double_accidentals_are_right_when_strict_and_absent_when_plain() {
    assert_eq!(notes("Db altered"), "Db Ebb Fb Gbb Abb Bbb Cb");
    assert_eq!(notes("C# altered"), "C# D E F G A B");
    let chord_scale = over("Db7alt", "Db altered");
    let minor = triad("Dm");
    assert_eq!(
        format!("{:#}", Speller::new(chord_scale.clone(), Spelling::Plain).triad(minor)),
        "Dm"
    );
    assert_eq!(
        format!("{:#}", Speller::new(chord_scale.clone(), Spelling::Strict).triad(minor)),
        "Ebbm"
    );
}

#[test]
fn the_octave_belongs_to_the_letter() {
    for (name, octave, midi) in [("Cb", 4, 59), ("B#", 4, 72), ("C", 4, 60), ("B", 3, 59)] {
        let pitch = NamedPitch::new(name.parse().unwrap(), octave).unwrap();
        assert_eq!(pitch.pitch().midi(), midi, "{name}{octave}");
    }
}

#[test]
fn half_diminished_is_neither_diminished_seventh_nor_minor_sixth() {
    for symbol in ["Am7b5", "Am7(b5)", "A-7b5", "Aø", "Aø7", "AØ7"] {
        assert_eq!(degrees(symbol), "1 b3 b5 b7", "{symbol}");
    }
    assert_eq!(degrees("Adim7"), "1 b3 b5 bb7");
    assert_eq!(chord("Am7b5").set(), chord("Cm6").set());
    assert_ne!(chord("Am7b5"), chord("Cm6"));
    assert!(chord("Am7b5").set().is_subset(chord("F9").set()));
}

#[test]
fn a_circle_without_a_seventh_says_what_was_assumed() {
    assert_eq!(assumed("C°"), [Assumption::CircleIsTriad]);
    assert_eq!(assumed("Cø"), [Assumption::SlashedCircleHasSeventh]);
    assert_eq!(assumed("Cdim7"), []);
}

#[test]
fn a_minus_is_minor_after_the_root_and_flat_before_a_later_number() {
    assert_eq!(degrees("C-7"), "1 b3 5 b7");
    assert_eq!(degrees("C7-9"), "1 3 5 b7 b9");
    assert_eq!(degrees("C-7-5"), "1 b3 b5 b7");
    assert_eq!(chord("B-").root(), "B".parse().unwrap());
}

#[test]
fn a_plus_is_augmented_after_the_root_and_sharp_before_a_later_number() {
    assert_eq!(degrees("C+"), "1 3 #5");
    assert_eq!(degrees("C7+"), "1 3 #5 b7");
    assert_eq!(degrees("A7+5"), "1 3 #5 b7");
    assert_eq!(degrees("C+7"), "1 3 #5 b7");
    assert_eq!(degrees("C7+9"), "1 3 5 b7 #9");
}

#[test]
fn case_matters_only_for_m_and_a_lone_triangle_is_a_major_seventh() {
    assert_eq!(degrees("CM7"), "1 3 5 7");
    assert_eq!(degrees("Cm7"), "1 b3 5 b7");
    assert_eq!(chord("CMAJ7"), chord("Cmaj7"));
    assert_eq!(degrees("CΔ"), "1 3 5 7");
    assert_eq!(assumed("CΔ"), [Assumption::TriangleIsMajorSeventh]);
}

#[test]
fn an_added_ninth_brings_no_seventh() {
    for (symbol, expected) in [
        ("Cadd9", "1 3 5 9"),
        ("C2", "1 3 5 9"),
        ("C9", "1 3 5 b7 9"),
        ("C6/9", "1 3 5 6 9"),
        ("Csusb7", "1 4 5 b7"),
    ] {
        assert_eq!(degrees(symbol), expected, "{symbol}");
    }
}

#[test]
fn an_eleventh_chord_is_suspended_and_pairs_with_and_without_the_third_are_offered() {
    assert_eq!(chord("C11"), chord("C9sus4"));
    assert_eq!(kinds("C11")[0], "Mixolydian");
    let chord_scale = over("C7sus4", "C Mixolydian");
    let major_third = PitchClass::new(4);
    let (with, without): (Vec<PairSound>, Vec<PairSound>) = sounds(&chord_scale)
        .into_iter()
        .partition(|sound| sound.pair().set().contains(major_third));
    assert!(!with.is_empty() && !without.is_empty());
}

#[test]
fn alt_lists_every_alteration_and_keeps_the_major_third() {
    assert_eq!(degrees("C7alt"), "1 3 b5 #5 b7 b9 #9");
    assert_eq!(kinds("C7alt")[0], "altered");
    assert_eq!(format!("{:#}", over("C7alt", "C altered").degree(PitchClass::new(4))), "3");
}

#[test]
fn a_slash_is_a_bass_that_the_scale_must_hold_and_a_six_nine_is_none() {
    assert_eq!(chord("F/A").bass(), Some("A".parse().unwrap()));
    assert_eq!(chord("D/C").bass(), Some("C".parse().unwrap()));
    assert_eq!(chord("C6/9").bass(), None);
    assert_eq!(chord("C6/9/E").bass(), Some("E".parse().unwrap()));
    for symbol in ["D/C", "Ab/C", "F#m7/B", "C/F#", "E7/D"] {
        let chord = chord(symbol);
        let bass = chord.bass().unwrap().pitch_class();
        let choices = ScaleChoice::for_chord(&chord);
        assert!(choices.iter().all(|choice| choice.scale().set().contains(bass)), "{symbol}");
    }
}

#[test]
fn a_raised_eleventh_keeps_the_fifth_and_a_flat_fifth_replaces_it() {
    for (symbol, expected, first) in [
        ("C7#11", "1 3 5 b7 #11", "Lydian dominant"),
        ("C7b5", "1 3 b5 b7", "whole tone"),
        ("C7b13", "1 3 5 b7 b13", "Mixolydian b6"),
        ("C7#5", "1 3 #5 b7", "whole tone"),
    ] {
        assert_eq!(degrees(symbol), expected, "{symbol}");
        assert_eq!(kinds(symbol)[0], first, "{symbol}");
    }
    assert_eq!(chord("C7b10"), chord("C7#9"));
}

#[test]
fn a_german_h_is_refused_with_a_hint_and_a_small_b_is_a_flat() {
    let error = "H7".parse::<Chord>().unwrap_err();
    assert_eq!(error.expected(), "a note letter, A to G");
    assert_eq!(error.hint(), Some("H is written B here, and B is Bb"));
    assert!("Bbb".parse::<Chord>().is_err());
    assert_eq!(chord("bb").root(), "Bb".parse().unwrap());
    assert_eq!(chord("Bb").root(), "Bb".parse().unwrap());
}

/// Hutchinson 31.1 insists on the three chords.
#[test]
fn a_flat_after_the_root_belongs_to_the_root() {
    assert_eq!((chord("Cb9").root().accidental(), degrees("Cb9").as_str()), (-1, "1 3 5 b7 9"));
    assert_eq!(degrees("C(b9)"), "1 3 5 b9");
    assert_eq!(degrees("C7(b9)"), "1 3 5 b7 b9");
    assert_eq!(degrees("Eb9"), "1 3 5 b7 9");
    assert_eq!(degrees("C(b5)"), "1 3 b5");
    assert_eq!(assumed("Cb5"), [Assumption::FlatBelongsToRoot]);
}

#[test]
fn every_sign_that_charts_print_is_read() {
    for (symbol, ascii) in [
        ("B♭7", "Bb7"),
        ("F♯m", "F#m"),
        ("CΔ7", "Cmaj7"),
        ("C∆7", "Cmaj7"),
        ("C△7", "Cmaj7"),
        ("C°7", "Cdim7"),
        ("Cº7", "Cdim7"),
        ("Cø7", "Cm7b5"),
        ("CØ7", "Cm7b5"),
        ("C−7", "Cm7"),
    ] {
        assert_eq!(format!("{:#}", chord(symbol)), ascii);
    }
}

// Triads and pairs.

#[test]
fn an_augmented_triad_has_three_names_and_one_sound() {
    let sets: HashSet<u16> =
        Triad::every(&[TriadQuality::Augmented]).map(|triad| triad.set().bits()).collect();
    assert_eq!(sets.len(), 4);
    assert_eq!(triad("C+").set(), triad("E+").set());
    assert_eq!(triad("C+").set(), triad("G#+").set());
    let melodic_minor: Scale = "C melodic minor".parse().unwrap();
    let named = melodic_minor.triads(&[TriadQuality::Augmented]);
    assert_eq!(named, [triad("Eb+")], "its root is the one that the scale spells");
}

#[test]
fn a_diminished_scale_folds_a_pair_and_its_three_moves_and_hides_none() {
    let chord_scale = over("C13b9", "C half-whole");
    let sounds = sounds(&chord_scale);
    let classes = TranspositionClass::all(&sounds, chord_scale.scale().set());
    assert_eq!((sounds.len(), classes.len()), (36, 10));
    let moves: HashSet<u8> =
        classes.iter().flat_map(|class| class.transpositions.iter().map(|copy| copy.1)).collect();
    assert_eq!(moves, HashSet::from([3, 6, 9]));
    assert!(chord_scale.scale().triads(&[TriadQuality::Augmented]).is_empty());
    for (quality, count) in
        [(TriadQuality::Major, 4), (TriadQuality::Minor, 4), (TriadQuality::Diminished, 8)]
    {
        assert_eq!(chord_scale.scale().triads(&[quality]).len(), count);
    }
}

#[test]
fn pairs_are_complete_by_sound_and_say_which_are_spelled() {
    let chord_scale = over("Cm(maj7)", "C harmonic minor");
    let sounds = sounds(&chord_scale);
    assert_eq!(sounds.len(), 9);
    assert!(sounds.iter().take(7).all(PairSound::in_thirds));
    let by_sound: HashSet<TriadPair> = sounds
        .iter()
        .skip(7)
        .inspect(|sound| assert!(!sound.in_thirds()))
        .map(PairSound::pair)
        .collect();
    let expected = ["Cm&Fdim", "Cm&Abdim"].map(|names| pair(names).unwrap());
    assert_eq!(by_sound, HashSet::from(expected));
}

#[test]
fn a_common_note_is_a_matter_of_sound_not_of_letter() {
    for names in ["C&Dbm", "C&Eb", "Ab&Ddim", "Bb&A+"] {
        assert_eq!(pair(names), None, "{names}");
    }
    for names in ["C&Db", "C&D", "C&Gb", "C&Ebm", "Bb&Ab+"] {
        assert!(pair(names).is_some(), "{names}");
    }
}

#[test]
fn a_pair_without_the_third_is_flagged_and_stands_first_all_the_same() {
    let chord_scale = over("C7alt", "C altered");
    let sounds = sounds(&chord_scale);
    assert_eq!(Some(sounds[0].pair()), pair("Gb&Ab"));
    assert!(!sounds[0].states_third());
    assert_eq!(labels(&chord_scale, sounds[0].left_out()), "3");
}

/// Each with its degrees; the sets are those of books by Campbell, Bergonzi and Weiskopf.
#[test]
fn worked_examples_leave_out_what_the_books_say() {
    for (symbol, scale, names, says, left_out) in [
        ("Dm7", "D Dorian", "F&G", "1 b3 11 5 13 b7", "9"),
        ("Cmaj7#11", "C Lydian", "C&D", "1 9 3 #11 5 13", "7"),
        ("C7#11", "C Lydian dominant", "C&D", "1 9 3 #11 5 13", "b7"),
        ("G7alt", "G altered", "Db&Eb", "1 b9 #9 b5 #5 b7", "3"),
        ("Cm(maj7)", "C melodic minor", "Cm&Dm", "1 9 b3 11 5 13", "7"),
        ("Cm(maj7)", "C melodic minor", "F&G", "1 9 11 5 13 7", "b3"),
    ] {
        let chord_scale = over(symbol, scale);
        let sound = PairSound::of(pair(names).unwrap(), &chord_scale);
        assert_eq!(labels(&chord_scale, sound.pair().set()), says, "{names} over {symbol}");
        assert_eq!(labels(&chord_scale, sound.left_out()), left_out, "{names} over {symbol}");
    }
}

#[test]
fn one_pair_lies_in_two_parents_and_leaves_out_another_note_in_each() {
    let c_and_d_minor = pair("C&Dm").unwrap();
    for (scale, left_out) in [("C major", 11), ("F major", 10)] {
        let sound = PairSound::of(c_and_d_minor, &ChordScale::alone(scale.parse().unwrap()));
        assert!(sound.outside().is_empty());
        let expected = PitchClassSet::EMPTY.with(PitchClass::new(left_out));
        assert_eq!(sound.left_out(), expected, "{scale}");
    }
}

#[test]
fn symmetric_scales_give_no_empty_and_no_repeated_list() {
    for (chord, scale, pairs, sets) in
        [("C7#5", "C whole tone", 1, 1), ("Cmaj7#5", "C augmented", 4, 1)]
    {
        let sounds = sounds(&over(chord, scale));
        let distinct: HashSet<u16> = sounds.iter().map(|sound| sound.pair().set().bits()).collect();
        assert_eq!((sounds.len(), distinct.len()), (pairs, sets), "{scale}");
    }
}

/// White's lesson plays E & F over a ii-V in C and B & C over its I: outside on purpose.
#[test]
fn a_pair_that_leaves_the_scale_shows_its_outside_notes() {
    for (symbol, scale, names, outside) in [
        ("Dm7", "D Dorian", "E&F", "#11"),
        ("G7", "G Mixolydian", "E&F", "b9"),
        ("Cmaj7", "C Ionian", "B&C", "#9 #11"),
    ] {
        let chord_scale = over(symbol, scale);
        let sound = PairSound::of(pair(names).unwrap(), &chord_scale);
        assert_eq!(labels(&chord_scale, sound.outside()), outside, "{names} over {symbol}");
    }
}

#[test]
fn a_sus_triad_is_listed_once_not_also_as_a_sus2() {
    let ionian: Scale = "C Ionian".parse().unwrap();
    let sus = ionian.triads(&[TriadQuality::Sus]);
    let sets: HashSet<u16> = sus.iter().map(|triad| triad.set().bits()).collect();
    assert_eq!((sus.len(), sets.len()), (5, 5));
    let pairs = TriadPair::within(ionian.set(), &[TriadQuality::Sus], PitchClass::C);
    assert_eq!(pairs.count(), 3);
    assert_eq!(ionian.triads(&[TriadQuality::FlatFive]), [triad("F(b5)")]);
}

#[test]
fn a_flat_five_triad_is_no_inversion_of_a_tertian_one() {
    let flat_five = triad("C(b5)").set();
    assert!(Triad::every(TriadQuality::TERTIAN).all(|triad| triad.set() != flat_five));
    let mirror: PitchClassSet = [0, 2, 6].map(PitchClass::new).into_iter().collect();
    assert_eq!(prime_form(flat_five), prime_form(mirror));
}

/// 6-Z29 and 6-31 are where the two algorithms part: Forte's, and Rahn's.
#[test]
fn prime_forms_name_their_algorithm_and_z_partners_are_told_apart() {
    let set = |names: &str| pair(names).unwrap().set();
    let harmonic_minor = set("G&Fm");
    assert_eq!(forte_name(harmonic_minor), Some("6-Z29"));
    assert_ne!(prime_form(harmonic_minor), prime_form_rahn(harmonic_minor));
    assert_eq!(prime_form_rahn(harmonic_minor), [0, 2, 3, 6, 7, 9]);
    let partner = harmonic_minor.complement();
    assert_eq!(interval_vector(harmonic_minor), interval_vector(partner));
    assert_ne!(forte_name(harmonic_minor), forte_name(partner));
}

/// Lists in print hold slips: they are computed here, not copied.
#[test]
fn slips_of_printed_lists_are_not_repeated() {
    let melodic_minor: Scale = "C melodic minor".parse().unwrap();
    assert!(!triad("C").set().is_subset(melodic_minor.set()), "Bdim goes with C minor");
    assert!(pair("Bdim&Cm").unwrap().set().is_subset(melodic_minor.set()));
    let whole_half: Scale = "C whole-half".parse().unwrap();
    assert!(pair("Ab&D").unwrap().set().is_subset(whole_half.set()));
    assert!(!pair("Ab&D+").unwrap().set().is_subset(whole_half.set()), "D+ is no part of it");
}

/// Found by `tests/fuzz`: a flat seventh and then a major one printed as the major one alone.
#[test]
fn a_flat_seventh_and_a_major_one_contradict_each_other() {
    for symbol in ["A--7Δ", "Amb7maj7", "Cb7M"] {
        match symbol.parse::<Chord>() {
            Ok(chord) => assert_eq!(chord.to_string().parse(), Ok(chord), "{symbol}"),
            Err(error) => assert!(error.to_string().contains("expected"), "{symbol}"),
        }
    }
    assert!("Amb7maj7".parse::<Chord>().is_err());
}
