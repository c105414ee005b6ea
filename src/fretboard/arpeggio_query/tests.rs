//! Values are computed from open pitches, outside this code; common practice, no source.

use std::collections::BTreeSet;

use fretloom_theory::{SpelledTriad, Triad, TriadQuality};

use super::*;
use crate::{Ease, FingeringQuery, FretRange, LineNote, Pin, Tuning};

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn triad(name: &str) -> Triad {
    name.parse::<SpelledTriad>().unwrap().triad()
}

type Written = Vec<(u8, u8)>;

fn written(arpeggio: &Arpeggio) -> Written {
    let places = arpeggio.notes().iter();
    places.map(|(place, _)| (place.string.number(), place.fret.number())).collect()
}

/// Every list of places of the triad, one after another as thought up: each next note is any place
/// of the set that sounds higher with no chord tone between, and each string gets its share.
fn by_brute_force(
    neck: &Neck,
    triad: Triad,
    set: StringSet,
    per_string: usize,
) -> BTreeSet<Written> {
    let notes: Vec<(Place, Pitch)> = neck
        .places()
        .filter(|(place, pitch)| {
            set.contains(place.string) && triad.set().contains(pitch.pitch_class())
        })
        .collect();
    let gap = |low: Pitch, high: Pitch| {
        let between = low.midi() + 1..high.midi();
        low < high
            && !between
                .into_iter()
                .any(|midi| triad.set().contains(Pitch::from_midi(midi).unwrap().pitch_class()))
    };
    let mut lists: Vec<Vec<(Place, Pitch)>> = vec![Vec::new()];
    for _ in 0..set.len() * per_string {
        let longer = |list: Vec<(Place, Pitch)>| {
            let last = list.last().map(|(_, pitch)| *pitch);
            let next =
                notes.iter().filter(move |(_, pitch)| last.is_none_or(|last| gap(last, *pitch)));
            next.map(move |note| [list.as_slice(), &[*note]].concat()).collect::<Vec<_>>()
        };
        lists = lists.into_iter().flat_map(longer).collect();
    }
    let open = |place: Place| neck.tuning().string(place.string).unwrap().pitch();
    let fits = |list: &Vec<(Place, Pitch)>| {
        let groups: Vec<_> = list.chunk_by(|one, two| one.0.string == two.0.string).collect();
        groups.len() == set.len()
            && groups.iter().all(|group| group.len() == per_string)
            && groups.windows(2).all(|two| open(two[0][0].0) < open(two[1][0].0))
    };
    let places = |list: Vec<(Place, Pitch)>| {
        list.iter().map(|(place, _)| (place.string.number(), place.fret.number())).collect()
    };
    lists.into_iter().filter(fits).map(places).collect()
}

#[test]
fn arpeggios_found_are_those_of_brute_force() {
    for tuning in ["EADGBE", "GCEA", "DADGAD", "G4 G4 D5"] {
        let neck = neck(tuning);
        let strings = neck.tuning().string_count();
        for name in ["C", "F#m", "Bdim", "E+", "Dsus4"] {
            for per_string in [PerString::Two, PerString::Three] {
                let notes = usize::from(per_string.number());
                for set in (1..=3).flat_map(|size| StringSet::neighbours(strings, size)) {
                    let query = ArpeggioQuery::new(per_string).on(set);
                    let found = query.arpeggios(&neck, triad(name));
                    let found: BTreeSet<Written> = found.iter().map(written).collect();
                    let expected = by_brute_force(&neck, triad(name), set, notes);
                    assert_eq!(found, expected, "{name} on {set} in {tuning}");
                }
            }
        }
    }
}

#[test]
fn six_notes_begin_on_every_member() {
    let neck = neck("EADGBE");
    for triad in Triad::every(TriadQuality::TERTIAN) {
        for per_string in [PerString::Two, PerString::Three] {
            let all = ArpeggioQuery::new(per_string);
            let found = all.arpeggios(&neck, triad);
            assert!(found.iter().all(|arpeggio| arpeggio.notes().len() == 6));
            for inversion in Inversion::ALL {
                let inverted = all.inverted(inversion).arpeggios(&neck, triad);
                assert!(!inverted.is_empty());
                let lowest = |a: &Arpeggio| a.notes()[0].1.pitch_class();
                let member = triad.members()[inversion as usize];
                assert!(inverted.iter().all(|arpeggio| lowest(arpeggio) == member));
            }
        }
    }
}

/// Without its wishes the list is the same list, in the same order, less what was not wanted.
#[test]
fn wishes_filter_and_nothing_else_does() {
    let neck = neck("EADGBE");
    let all = ArpeggioQuery::new(PerString::Two);
    let every = all.arpeggios(&neck, triad("G"));
    let kept = |keep: &dyn Fn(&Arpeggio) -> bool| {
        every.iter().filter(|arpeggio| keep(arpeggio)).map(written).collect::<Vec<_>>()
    };
    let found = |query: ArpeggioQuery| {
        query.arpeggios(&neck, triad("G")).iter().map(written).collect::<Vec<_>>()
    };
    let frets: FretRange = "3-12".parse().unwrap();
    let inside = |arpeggio: &Arpeggio| arpeggio.frets().all(|fret| frets.contains(fret));
    assert_eq!(found(all.within(frets)), kept(&inside));
    let fretted = |arpeggio: &Arpeggio| arpeggio.frets().all(|fret| !fret.is_open());
    assert_eq!(found(all.without_open_strings()), kept(&fretted));
    let narrow = |arpeggio: &Arpeggio| arpeggio.stretch_mm() <= 100.0;
    assert_eq!(found(all.up_to_mm(100.0)), kept(&narrow));
    assert!(found(all.on("4-2".parse().unwrap())).is_empty());
    assert!(found(all.on("7-6".parse().unwrap())).is_empty());
}

/// On one string a higher fret takes a higher finger where the hand stays; common practice, no
/// source. A small hand loses fingers, not notes.
#[test]
fn fingers_go_up_with_the_frets_of_a_string() {
    let neck = neck("EADGBE");
    let all = ArpeggioQuery::new(PerString::Two);
    let mut fingered = 0;
    for arpeggio in all.arpeggios(&neck, triad("G")) {
        let Some(fingers) = arpeggio.fingers() else {
            assert_eq!(arpeggio.ease(), Ease::Beyond);
            continue;
        };
        fingered += 1;
        assert_eq!(fingers.len(), arpeggio.notes().len());
        let stays = arpeggio.positions().len() == 1;
        for two in fingers.chunks(2) {
            assert!(!stays || two[0] < two[1], "{arpeggio:?}");
        }
    }
    assert!(fingered > 10);
    let small = all.for_hand(Hand::reaching_mm(60.0).unwrap());
    let of_small = small.arpeggios(&neck, triad("G"));
    assert_eq!(of_small.len(), all.arpeggios(&neck, triad("G")).len());
    assert!(of_small.iter().filter(|arpeggio| arpeggio.fingers().is_some()).count() < fingered);
}

/// There is one way to finger notes one after another, and arpeggios are fingered that way: nothing
/// that the player of a line would do costs less.
#[test]
fn an_arpeggio_is_fingered_as_a_line_is() {
    let neck = neck("EADGBE");
    let query = FingeringQuery::default();
    for arpeggio in ArpeggioQuery::new(PerString::Two).arpeggios(&neck, triad("Eb")) {
        let notes = arpeggio.notes().iter().enumerate();
        let line: Vec<LineNote> = notes
            .map(|(index, (place, pitch))| {
                let pin = Pin { string: Some(place.string), fret: Some(place.fret) };
                LineNote::new(index as f64 * 0.25, 0.25, *pitch).unwrap().pinned(pin)
            })
            .collect();
        let best = query.best(&neck, &line).unwrap();
        let Some(fingers) = arpeggio.fingers() else { continue };
        assert!(fingers.iter().eq(best.notes().iter().map(|note| &note.finger)));
        assert_eq!(arpeggio.position(), best.notes()[0].position);
    }
}

/// What first and fourth finger do not reach on one string is beyond the hand; five frets from the
/// first fret of a guitar are 161 mm of 648, from the twelfth 85 mm. Common practice, no source.
#[test]
fn beyond_the_hand_is_what_one_string_asks() {
    let neck = neck("EADGBE");
    let query = ArpeggioQuery::new(PerString::Two).on("6".parse().unwrap());
    let of = |name: &str, low: u8, high: u8| {
        let found = query.arpeggios(&neck, triad(name));
        found.into_iter().find(|arpeggio| written(arpeggio) == [(6, low), (6, high)]).unwrap()
    };
    let low = of("Bb", 1, 6); // F and B♭
    assert_eq!((low.fingers(), low.ease(), low.position().number()), (None, Ease::Beyond, 1));
    let high = of("A", 12, 17); // E and A
    assert!(high.fingers().is_some());
}
