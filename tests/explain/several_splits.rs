//! Six notes that split into pairs in several ways: the order in which they come tells which pair
//! it is, or leaves it open.

use std::collections::BTreeMap;

use fretloom_theory::{
    NamedPitch, Note, Part, Pitch, PitchClass, PitchClassSet, Quarters, Score, TriadPair,
    TriadQuality, WhichTriad,
};

use crate::count::is_same;
use crate::explained;

const ORDERS: [[usize; 3]; 6] = [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];

/// The sets of six notes that are pairs in several ways; 76 of 282.
fn sets() -> Vec<Vec<TriadPair>> {
    let all = PitchClassSet::CHROMATIC;
    let mut sets: BTreeMap<u16, Vec<TriadPair>> = BTreeMap::new();
    for pair in TriadPair::within(all, TriadQuality::TERTIAN, PitchClass::C) {
        sets.entry(pair.set().bits()).or_default().push(pair);
    }
    sets.into_values().filter(|pairs| pairs.len() > 1).collect()
}

/// A triad, the other one, and the beginning of the first again, in every order of their notes.
fn lines(pair: TriadPair) -> Vec<Vec<PitchClass>> {
    let [first, second] = pair.triads().map(|triad| triad.members());
    let orders = ORDERS.iter().flat_map(|one| ORDERS.iter().map(move |other| (one, other)));
    let line = orders.map(|(one, other)| {
        let again = one.iter().take(2);
        let first_and_second =
            one.map(|at| first[at]).into_iter().chain(other.map(|at| second[at]));
        first_and_second.chain(again.map(|at| first[*at])).collect()
    });
    line.collect()
}

/// How many groups a pair of these notes cuts a line into; `None` where one of its triads is not
/// whole within a group.
fn groups(pair: TriadPair, line: &[PitchClass]) -> Option<usize> {
    let mut groups: Vec<(WhichTriad, PitchClassSet)> = Vec::new();
    for note in line {
        let which = WhichTriad::with(pair, *note)?;
        match groups.last_mut() {
            Some(last) if last.0 == which => last.1 = last.1.with(*note),
            _ => groups.push((which, PitchClassSet::default().with(*note))),
        }
    }
    let whole = |which: &WhichTriad| groups.iter().any(|(of, set)| of == which && set.len() == 3);
    WhichTriad::BOTH.iter().all(whole).then_some(groups.len())
}

/// As eighths of a bar, without a chord.
fn score(line: &[PitchClass]) -> Score {
    let notes = line.iter().zip(0..).map(|(class, index)| {
        let pitch = NamedPitch::everyday(Pitch::from_midi(60 + class.number()).unwrap());
        Note::new(Quarters::EIGHTH.times(index).unwrap(), Quarters::EIGHTH, pitch).unwrap()
    });
    Score { parts: vec![Part::new(notes)], ..Score::default() }
}

/// A chord in thirds is no pair, but its triads are named.
#[test]
fn the_shortest_reading_is_told_and_those_as_short_are_named() {
    let (mut alone, mut together, mut arpeggios) = (0, 0, 0);
    let sets = sets();
    assert_eq!(sets.len(), 76);
    for pairs in sets {
        for line in pairs.iter().flat_map(|pair| lines(*pair)) {
            let shortest = shortest(&pairs, &line);
            let bar = &explained(&score(&line)).bars[0];
            let is_among = |pair: &TriadPair| shortest.iter().any(|other| is_same(*other, *pair));
            assert!(bar.pair.as_ref().is_none_or(is_among), "{line:?}: {bar:?}");
            let named: Vec<&TriadPair> = bar.pair.iter().chain(&bar.readings).collect();
            let is_named = |pair: &TriadPair| named.iter().any(|other| is_same(**other, *pair));
            assert!(shortest.iter().all(is_named), "{line:?}: {bar:?}");
            alone += usize::from(shortest.len() == 1);
            together += usize::from(shortest.len() > 1);
            arpeggios += usize::from(bar.pair.is_none());
        }
    }
    assert_eq!((alone, together), (4_992, 768));
    assert!(arpeggios <= 100, "{arpeggios}");
}

/// The pairs that cut a line into the fewest groups.
fn shortest(pairs: &[TriadPair], line: &[PitchClass]) -> Vec<TriadPair> {
    let cut: Vec<(usize, TriadPair)> =
        pairs.iter().filter_map(|pair| Some((groups(*pair, line)?, *pair))).collect();
    let least = cut.iter().map(|(groups, _)| *groups).min();
    cut.into_iter().filter(|(groups, _)| Some(*groups) == least).map(|(_, pair)| pair).collect()
}
