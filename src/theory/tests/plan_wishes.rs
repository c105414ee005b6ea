//! What a player wishes of a plan holds in all of it: common practice, no source.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom_theory::{
    BarText, GuideTones, Meter, NoteName, OptionalChords, PairKinds, PairStep, PitchClass,
    PitchClassSet, Plan, PlanChord, PlanError, PlanQuery, SpelledTriad, StretchBegins, TriadPair,
    TriadQuality,
};

const TUNE: &str = "[A] | Em7b5 | A7b9 | Dm6 | G13 | [B] | Cm7 | F7 | Bbmaj7 | Eb7 | \
                    [C] | Abmaj7 | Db9 | Gm7 C7alt | Fm7 Bb7sus4 |";

fn form(text: &str) -> Vec<PlanChord> {
    let text = BarText::read(text, Meter::COMMON).unwrap();
    let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::Played), None);
    chords.into_iter().map(|(_, chord)| chord).collect()
}

fn class(name: &str) -> PitchClass {
    name.parse::<NoteName>().unwrap().pitch_class()
}

/// The notes of a chord's third and seventh, by hand.
fn guide_tones(symbol: &str) -> [PitchClass; 2] {
    let notes = [
        ("Em7♭5", "G D"),
        ("A7♭9", "C# G"),
        ("Dm6", "F B"),
        ("G13", "B F"),
        ("Cm7", "Eb Bb"),
        ("F7", "A Eb"),
        ("B♭maj7", "D A"),
        ("E♭7", "G Db"),
        ("A♭maj7", "C G"),
        ("D♭9", "F Cb"),
        ("Gm7", "Bb F"),
        ("C7alt", "E Bb"),
        ("Fm7", "Ab Eb"),
        ("B♭7sus4", "Eb Ab"),
    ];
    let (_, found) = notes.iter().find(|(known, _)| *known == symbol).unwrap();
    let (third, seventh) = found.split_once(' ').unwrap();
    [class(third), class(seventh)]
}

#[test]
fn every_pair_is_of_the_kinds_that_are_wished() {
    for [one, other] in [
        [TriadQuality::Major, TriadQuality::Major],
        [TriadQuality::Major, TriadQuality::Minor],
        [TriadQuality::Diminished, TriadQuality::Major],
    ] {
        let plan = PlanQuery::over(form("| Dm7 | G7 | Cmaj7 | Am7 |"))
            .of_kinds(PairKinds(one, other))
            .plan()
            .unwrap();
        for chord in plan.chords() {
            let kinds = chord.pair().triads().map(|triad| triad.quality());
            assert!(kinds == [one, other] || kinds == [other, one], "{kinds:?}");
        }
    }
}

#[test]
fn guide_tones_are_stated_where_that_is_wished() {
    let states_both = |plan: &Plan| {
        let states = |chord: &fretloom_theory::PlannedChord| {
            let symbol = chord.over().chord().unwrap().to_string();
            guide_tones(&symbol).into_iter().all(|note| chord.pair().set().contains(note))
        };
        plan.chords().iter().filter(|chord| states(chord)).count()
    };
    let query = PlanQuery::over(form(TUNE));
    let free = query.plan().unwrap();
    assert!(states_both(&free) < free.chords().len(), "else the wish says nothing here");
    let plan = query.stating(GuideTones::Both).plan().unwrap();
    assert_eq!(states_both(&plan), plan.chords().len());
}

#[test]
fn a_note_that_is_never_wanted_is_never_played() {
    for note in PitchClass::all() {
        let chords = form(TUNE);
        let without = |(index, chord): (usize, PlanChord)| match index % 3 {
            0 => chord.without(PitchClassSet::EMPTY.with(note)),
            _ => chord,
        };
        let plan = PlanQuery::over(chords.into_iter().enumerate().map(without)).plan();
        for chord in plan.unwrap().chords().iter().step_by(3) {
            assert!(!chord.pair().set().contains(note), "{note:?}");
        }
    }
}

#[test]
fn a_settled_pair_stays_and_the_others_follow_it() {
    let triad = |name: &str| name.parse::<SpelledTriad>().unwrap().triad();
    let pair = TriadPair::in_order(triad("F#"), triad("E")).unwrap();
    let mut chords = form("| Dm7 | G7 | Cmaj7 | % |");
    let free = PlanQuery::over(chords.clone()).plan().unwrap();
    chords[1] = chords[1].clone().with_pair(pair);
    let plan = PlanQuery::over(chords).plan().unwrap();
    assert!(plan.chords()[1].pair().is_same_couple(pair));
    assert!(plan.cost() > free.cost());
}

/// Nothing comes before the first pair of a form that is played once, though the last one is the same.
#[test]
fn what_is_played_once_begins_with_its_first_pair() {
    let query = PlanQuery::over(form("| Dm7 | G7 | Cmaj7 | % |"));
    let first = |query: &PlanQuery| query.plan().unwrap().chords()[0].clone();
    let (round, once) = (first(&query), first(&query.once()));
    assert_eq!(round.step(), Some(PairStep::Kept));
    assert_eq!(once.step(), None);
    assert!(once.why().to_string().starts_with("begins with "), "{}", once.why());
}

#[test]
fn sections_begin_with_another_pair_where_that_is_wished() {
    // Over one chord all the way nothing would change.
    let text = "[A] | Dm7 | G7 | [B] | Dm7 | G7 | [C] | Dm7 | G7 |";
    let changes = |plan: &Plan| -> Vec<bool> {
        plan.chords().iter().map(|chord| chord.step() != Some(PairStep::Kept)).collect()
    };
    let query = PlanQuery::over(form(text));
    assert_eq!(changes(&query.plan().unwrap()), [false; 6]);
    let contrasting = query.contrasting_sections().plan().unwrap();
    let begins = changes(&contrasting).into_iter().step_by(2);
    assert!(begins.skip(1).all(|changes| changes));
}

/// Eight bars that every jazz player reads alike, with scales and pairs as a player has them, and the
/// third of each chord: common practice, no source.
#[test]
fn four_pairs_serve_eight_bars_with_every_third() {
    let bars = [
        ("Em7b5", "E Locrian natural 2", "G"),
        ("A7", "A altered", "C#"),
        ("Cm7", "C Dorian", "Eb"),
        ("F7", "F Mixolydian", "A"),
        ("Fm7", "F Dorian", "Ab"),
        ("Bb7", "B♭ Mixolydian", "D"),
        ("Ebmaj7", "E♭ Lydian", "G"),
        ("Ab7", "A♭ Lydian dominant", "C"),
    ];
    let text = bars.map(|(symbol, ..)| symbol).join(" | ");
    let query = PlanQuery::over(form(&text)).stating(GuideTones::Third);
    let plan = query.clone().of_few_pairs(4).plan().unwrap();
    assert_eq!(plan.pairs().len(), 4);
    for (chord, (symbol, scale, third)) in plan.chords().iter().zip(bars) {
        assert_eq!(chord.over().scale().to_string(), scale, "{symbol}");
        assert!(chord.pair().set().contains(class(third)), "{symbol}");
    }
    // One pair for Cm7, F7 and Ebmaj7, another one for Fm7, Bb7 and Ab7.
    for bars in [[2, 3, 6], [4, 5, 7]] {
        let [one, other, third] = bars.map(|bar| plan.chords()[bar].pair());
        assert!(one.is_same_couple(other) && one.is_same_couple(third));
    }
    let none = query.of_few_pairs(3).plan();
    assert_eq!(none, Err(PlanError::TooFewPairs { most: 3, enough: 4 }));
}

/// Of so many chords not all choices of pairs can be tried. Fewer pairs never make a plan cheaper.
#[test]
fn a_whole_tune_is_played_with_few_pairs() {
    let tune = "[A] | Dm7 | G7 | Cmaj7 | % | Cm7 | F7 | Bbmaj7 | % | [B] | Bbm7 | Eb7 | Abmaj7 | % | \
                Dm7b5 | G7 | Cm6 | % | [A] | Dm7 | G7 | Cmaj7 | A7 | Em7b5 | A7 | Dm7 | F#dim7 |";
    let query = PlanQuery::over(form(tune));
    let free = query.plan().unwrap();
    let (different, mut dearest) = (free.pairs().len(), free.cost());
    assert!(different > 6, "else six pairs are no wish");
    for most in (6..=different).rev() {
        let plan = query.clone().of_few_pairs(most).plan().unwrap();
        assert!(plan.pairs().len() <= most);
        assert!(plan.cost() >= dearest);
        dearest = plan.cost();
    }
}

/// By its names a player knows a pair again: its triads stand in one order all through a tune.
#[test]
fn a_pair_has_one_name_all_through_a_tune() {
    for text in [TUNE, "| C#m7 | F#13 | Bmaj7 | G#m7 | Bm7 | E13 | Amaj7 | F#m7 |"] {
        let plan = PlanQuery::over(form(text)).plan().unwrap();
        let firsts = plan.pairs();
        for chord in plan.chords() {
            let named = firsts.iter().find(|pair| pair.is_same_couple(chord.pair())).unwrap();
            assert_eq!(named.first().set(), chord.pair().first().set(), "{text}");
        }
    }
}

/// For eight bars or more, another pair every four; for fewer none.
#[test]
fn a_chord_that_stands_for_long_is_given_another_pair_every_four_bars() {
    for (text, stretches) in [
        ("| Dm7 | % | % | % | % | % | % | % | G7 | Cmaj7 |", 2),
        ("| Dm7 | % | % | % | % | % | % | % | % | % | % | % | % | % | % | % |", 4),
        ("| Dm7 | % | % | % | % | % | % | G7 | Cmaj7 |", 1),
    ] {
        let plan = PlanQuery::over(form(text)).plan().unwrap();
        let over_dm7 = |chord: &&fretloom_theory::PlannedChord| {
            chord.over().chord().unwrap().to_string() == "Dm7"
        };
        let pairs: Vec<TriadPair> =
            plan.chords().iter().filter(over_dm7).map(|chord| chord.pair()).collect();
        assert_eq!(pairs.len(), stretches, "{text}");
        assert!(pairs.windows(2).all(|two| !two[0].is_same_couple(two[1])), "{text}");
    }
}

/// The third of every I and i, by hand, though to leave it out would save a change.
#[test]
fn a_line_that_rests_has_the_third() {
    for (text, tonic, third) in [
        ("| Dm7 | G7 | Cmaj7 | % |", "Cmaj7", "E"),
        ("| Dm7 | G7 | C6 | % |", "C6", "E"),
        ("| Dm7b5 | G7b9 | Cm6 | % |", "Cm6", "Eb"),
        ("| Ebm7 | Ab7 | Dbmaj9 | % |", "D♭maj9", "F"),
        ("| F7 | Bb7 | F7 | % | Bb7 | % | F7 | % | C7 | Bb7 | F7 | C7 |", "F7", "A"),
        ("| Am7 | Ab7 | Gmaj7 | E7alt |", "Gmaj7", "B"),
    ] {
        let plan = PlanQuery::over(form(text)).plan().unwrap();
        let rests =
            plan.chords().iter().filter(|chord| chord.over().chord().unwrap().to_string() == tonic);
        let rests: Vec<bool> =
            rests.map(|chord| chord.pair().set().contains(class(third))).collect();
        assert!(!rests.is_empty() && rests.iter().all(|states| *states), "{text}");
    }
}

/// The only scale of a G7 that has all six notes, by hand; `None` where none of the usual ones has.
#[test]
fn a_pair_that_is_settled_brings_a_scale_that_holds_it() {
    for ([one, other], scale) in [
        (["B+", "C#"], Some("altered")),
        (["F", "G"], Some("Mixolydian")),
        (["F#", "G"], None),
        (["Ddim", "Eb+"], Some("Phrygian dominant")),
    ] {
        let triad = |name: &str| name.parse::<SpelledTriad>().unwrap().triad();
        let pair = TriadPair::in_order(triad(one), triad(other)).unwrap();
        let mut chords = form("| Dm7 | G7 | Cmaj7 | % |");
        chords[1] = chords[1].clone().with_pair(pair);
        let plan = PlanQuery::over(chords).plan().unwrap();
        let chord = &plan.chords()[1];
        assert!(chord.pair().is_same_couple(pair));
        match scale {
            Some(scale) => assert_eq!(chord.over().scale().kind().name(), scale, "{one} & {other}"),
            None => assert!(!pair.set().is_subset(chord.over().scale().set())),
        }
    }
}

#[test]
fn a_wish_that_no_pair_can_grant_names_its_chord() {
    let mut chords = form("| Dm7 | G7 | Cmaj7 | % |");
    chords[1] = chords[1].clone().without(PitchClassSet::CHROMATIC);
    assert_eq!(PlanQuery::over(chords).plan(), Err(PlanError::NoPair { chord: 1 }));
    let begins = |chord: PlanChord| chord.beginning(StretchBegins::Chord);
    let none = PlanQuery::over(form("| N.C. |").into_iter().map(begins)).plan();
    assert_eq!(none, Err(PlanError::NoChords));
}
