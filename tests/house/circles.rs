//! Circles: sets of files that all lead to one another.

use std::collections::{BTreeMap, BTreeSet};

use crate::arrows::Arrows;
use crate::source::FileName;

/// Every set of two or more files in which each leads to each.
pub(crate) fn circles(arrows: &Arrows) -> Vec<BTreeSet<FileName>> {
    let reached: BTreeMap<&str, BTreeSet<&str>> =
        arrows.keys().map(|file| (file.as_str(), reached(arrows, file))).collect();
    let mut circles: Vec<BTreeSet<FileName>> = Vec::new();
    for file in arrows.keys() {
        if circles.iter().any(|circle| circle.contains(file)) {
            continue;
        }
        let both = reached[file.as_str()]
            .iter()
            .filter(|other| reached[**other].contains(file.as_str()))
            .map(|other| (*other).to_owned());
        let circle: BTreeSet<FileName> = both.collect();
        if circle.len() > 1 {
            circles.push(circle);
        }
    }
    circles
}

/// The files to which arrows lead from this one, however far.
fn reached<'a>(arrows: &'a Arrows, from: &str) -> BTreeSet<&'a str> {
    let mut reached = BTreeSet::new();
    let mut open: Vec<&str> = arrows[from].iter().map(String::as_str).collect();
    while let Some(file) = open.pop() {
        if reached.insert(file) {
            open.extend(arrows[file].iter().map(String::as_str));
        }
    }
    reached
}

/// The shortest way from a file back to itself.
pub(crate) fn way(arrows: &Arrows, file: &str) -> Vec<FileName> {
    let mut ways: Vec<Vec<&str>> = vec![vec![file]];
    let mut seen = BTreeSet::new();
    while !ways.is_empty() {
        let mut longer = Vec::new();
        for way in &ways {
            for next in way.last().into_iter().flat_map(|last| &arrows[*last]) {
                let on: Vec<&str> = way.iter().copied().chain([next.as_str()]).collect();
                if next == file {
                    return on.into_iter().map(str::to_owned).collect();
                }
                if seen.insert(next) {
                    longer.push(on);
                }
            }
        }
        ways = longer;
    }
    Vec::new()
}
