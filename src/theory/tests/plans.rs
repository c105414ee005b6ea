//! Plans are the cheapest there are: every plan of a small form is tried. `FRETLOOM_PLANS=100` tries a
//! hundred times as many forms.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "material/small_forms.rs"]
mod small_forms;

use fretloom_theory::{PairPlaces, PlanCost, PlanError, TriadPair};
use proptest::prelude::*;
use small_forms::{all_plans, cases, forms, near, query, same, thousandths};

/// Places without sense, so that no rule of the fretboard is shared: any way may cost anything.
struct Scattered;

fn scattered(from: TriadPair, at: usize, to: TriadPair, place: usize) -> u32 {
    let number =
        |pair: TriadPair, place: usize| u32::from(pair.set().bits()) * 7 + place as u32 * 131;
    number(from, at).wrapping_mul(2_654_435_761).wrapping_add(number(to, place) * 40_503) >> 7
        & 0x3ff
}

impl PairPlaces for Scattered {
    fn count(&self, _: TriadPair) -> usize {
        2
    }

    fn way(&self, (from, at): (TriadPair, usize), (to, place): (TriadPair, usize)) -> PlanCost {
        PlanCost::thousandths(scattered(from, at, to, place))
    }
}

/// How many of these pairs there are, each counted once.
fn different(pairs: &[TriadPair]) -> usize {
    let first = |(index, pair): &(usize, &TriadPair)| {
        !pairs[..*index].iter().any(|known| same(*known, **pair))
    };
    pairs.iter().enumerate().filter(first).count()
}

proptest! {
    #![proptest_config(cases(3000))]

    #[test]
    fn the_cheapest_of_all_plans_is_found(form in forms(1..=4)) {
        let plans = all_plans(&form, |_| 1, |_, _| 0.0);
        let plan = query(&form).plan().unwrap();
        prop_assert!(near(thousandths(&plan), plans[0].0), "{} {}", thousandths(&plan), plans[0].0);
    }
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn the_next_cheapest_are_all_there(form in forms(2..=3)) {
        let plans = all_plans(&form, |_| 1, |_, _| 0.0);
        let found = query(&form).plans(8).unwrap();
        prop_assert_eq!(found.len(), 8);
        for (plan, (cost, _)) in found.iter().zip(&plans) {
            prop_assert!(near(thousandths(plan), *cost), "{} {}", thousandths(plan), cost);
        }
        for (index, plan) in found.iter().enumerate() {
            prop_assert!(found[..index].iter().all(|known| plan.differences(known) > 0));
        }
    }

    #[test]
    fn the_cheapest_of_all_plans_with_few_pairs_is_found(form in forms(2..=4), most in 1..=3_usize) {
        let plans = all_plans(&form, |_| 1, |_, _| 0.0);
        let few = plans.iter().find(|(_, pairs)| different(pairs) <= most);
        match (query(&form).of_few_pairs(most).plan(), few) {
            (Ok(plan), Some((cost, _))) => {
                prop_assert!(plan.pairs().len() <= most);
                prop_assert!(near(thousandths(&plan), *cost), "{} {}", thousandths(&plan), cost);
            }
            (Err(error), None) => {
                let enough = plans.iter().map(|(_, pairs)| different(pairs)).min().unwrap();
                prop_assert_eq!(error, PlanError::TooFewPairs { most, enough });
            }
            (found, slow) => prop_assert!(false, "{:?}, {:?}", found, slow),
        }
    }

    #[test]
    fn the_cheapest_of_all_plans_with_places_is_found(form in forms(2..=3)) {
        let way = |(from, at), (to, place)| f64::from(scattered(from, at, to, place));
        let plans = all_plans(&form, |_| 2, way);
        let found = query(&form).plans_within(&Scattered, 1).unwrap();
        prop_assert!(near(thousandths(&found[0]), plans[0].0));
    }
}
