//! Chains against a search that thinks of nothing.

use fretloom_theory::SpelledTriad;

use super::*;
use crate::Tuning;
use crate::view::chain::{held_mm, step_mm, unlike};

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn pair(names: [&str; 2]) -> TriadPair {
    let [first, second] = names.map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    TriadPair::in_order(first, second).unwrap()
}

fn frets(chain: &Chain) -> Vec<[u8; 3]> {
    chain.rungs().iter().map(|rung| rung.shape.frets().map(|fret| fret.number())).collect()
}

/// The costs of all chains there are, by trying every list of shapes.
fn every_cost(query: ChainQuery, neck: &Neck, pair: TriadPair) -> Vec<f64> {
    let mut lists: Vec<Vec<Rung>> = vec![Vec::new()];
    for set in query.path(neck) {
        let rungs = query.rungs_on(neck, pair, Hand::default(), set);
        let longer = |list: Vec<Rung>| {
            let fits = |rung: &&Rung| {
                list.last().is_none_or(|last| {
                    last.which != rung.which && last.shape.cmp_height(&rung.shape).is_lt()
                })
            };
            let longer = rungs.iter().filter(fits);
            longer.map(|rung| [list.as_slice(), &[*rung]].concat()).collect::<Vec<_>>()
        };
        lists = lists.into_iter().flat_map(longer).collect();
    }
    let cost = |list: &Vec<Rung>| {
        let steps = list.windows(2).map(|two| step_mm(neck, &two[0].shape, &two[1].shape));
        list.iter().map(|rung| held_mm(&rung.shape)).sum::<f64>() + steps.sum::<f64>()
    };
    let mut costs: Vec<f64> = lists.iter().map(cost).collect();
    costs.sort_by(f64::total_cmp);
    costs
}

#[test]
fn the_cheapest_chains_are_those_of_brute_force() {
    let frets = "0-12".parse().unwrap();
    for tuning in ["EADGBE", "GCEA", "EADGCF", "BEADG"] {
        let neck = neck(tuning);
        for names in [["F", "G"], ["E", "A#"], ["C+", "Eb"]] {
            for overlap in [Overlap::Shared, Overlap::Apart] {
                let query = ChainQuery::default().overlapping(overlap).within(frets);
                let chains = query.chains(&neck, pair(names), Hand::default());
                let costs = every_cost(query, &neck, pair(names));
                assert_eq!(chains.len(), costs.len().min(ChainQuery::LONGEST_LIST));
                for (chain, cost) in chains.iter().zip(costs) {
                    assert!((chain.cost_mm() - cost).abs() < 1e-6, "{names:?} in {tuning}");
                }
            }
        }
    }
}

#[test]
fn a_chain_alternates_and_climbs_over_its_path() {
    let neck = neck("EADGBE");
    for overlap in [Overlap::Shared, Overlap::Apart] {
        let query = ChainQuery::default().overlapping(overlap);
        let path = query.path(&neck);
        let written: Vec<String> = path.iter().map(ToString::to_string).collect();
        let expected: &[&str] = match overlap {
            Overlap::Shared => &["6-5-4", "5-4-3", "4-3-2", "3-2-1"],
            Overlap::Apart => &["6-5-4", "3-2-1"],
        };
        assert_eq!(written, expected);
        for chain in query.chains(&neck, pair(["F", "G"]), Hand::default()) {
            let sets: Vec<StringSet> = chain.rungs().iter().map(|r| r.shape.string_set()).collect();
            assert_eq!(sets, path);
            for two in chain.rungs().windows(2) {
                assert_ne!(two[0].which, two[1].which);
                assert!(two[0].shape.cmp_height(&two[1].shape).is_lt());
            }
        }
    }
}

/// E and A# lie a tritone apart, in the half-whole scale: where all strings are a fourth apart one
/// grip goes diagonally over all of them. Computed from open pitches, outside this code.
#[test]
fn a_symmetric_pair_repeats_its_grip_diagonally() {
    let fourths = neck("EADGCF");
    let chains = ChainQuery::default().chains(&fourths, pair(["E", "A#"]), Hand::default());
    let grips = chains[0].rungs().windows(2);
    let moved: Vec<u32> = grips.map(|two| unlike(&fourths, &two[0].shape, &two[1].shape)).collect();
    assert_eq!(moved, [0, 0, 0], "{:?}", frets(&chains[0]));
    let moves: Vec<u8> = frets(&chains[0]).windows(2).map(|two| two[1][0] - two[0][0]).collect();
    assert_eq!(moves, [1, 1, 1]);
}

#[test]
fn an_inversion_may_be_fixed_for_each_triad() {
    let neck = neck("EADGBE");
    let query = ChainQuery::default()
        .inverted(WhichTriad::First, Inversion::Root)
        .inverted(WhichTriad::Second, Inversion::Second);
    let chains = query.chains(&neck, pair(["F", "G"]), Hand::default());
    assert!(!chains.is_empty());
    for rung in chains.iter().flat_map(Chain::rungs) {
        let wanted =
            if rung.which == WhichTriad::First { Inversion::Root } else { Inversion::Second };
        assert_eq!(rung.shape.inversion(), wanted);
    }
}

/// Of all chains those that go over one shape, and none where no hand holds it.
#[test]
fn a_chain_goes_through_the_shape_that_is_wanted() {
    let (neck, pair) = (neck("EADGBE"), pair(["F", "G"]));
    let query = ShapeQuery::default().on("4-3-2".parse().unwrap());
    for shape in query.shapes(&neck, WhichTriad::First.triad_of(pair)) {
        let through = ChainQuery::default().through(shape.places());
        let chains = through.chains(&neck, pair, Hand::default());
        let goes =
            |chain: &Chain| chain.rungs().iter().any(|rung| rung.shape.places() == shape.places());
        assert!(chains.iter().all(goes), "{:?}", shape.frets());
        let cheapest = every_cost(through, &neck, pair).first().copied();
        assert_eq!(chains.first().map(|chain| chain.cost_mm().round()), cheapest.map(f64::round));
    }
}
