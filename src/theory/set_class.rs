//! Set classes: what transposition and inversion leave of a set of notes.

use std::cmp::Reverse;

use crate::{PitchClass, PitchClassSet};

/// How often each interval class, 1 to 6 semitones, occurs between the notes of a set.
///
/// ```
/// use fretloom_theory::{PitchClassSet, interval_vector};
/// assert_eq!(interval_vector(PitchClassSet::from_bits(0b1001_0001)), [0, 0, 1, 1, 1, 0]); // C E G
/// ```
#[must_use]
pub fn interval_vector(set: PitchClassSet) -> [u8; 6] {
    let mut vector = [0; 6];
    for (class, count) in (1..).zip(&mut vector) {
        let meeting = set.intersection(set.transposed(class)).len() as u8;
        // A tritone meets itself from both sides.
        *count = if class == 6 { meeting / 2 } else { meeting };
    }
    vector
}

/// The prime form as Forte chooses it: the smallest span, then packed from the left.
///
/// ```
/// use fretloom_theory::{PitchClassSet, prime_form};
/// let c_major = PitchClassSet::from_bits(0b1001_0001);
/// let d_major = PitchClassSet::from_bits(0b10_0100_0100);
/// let two_majors = c_major.union(d_major);
/// assert_eq!(prime_form(two_majors), [0, 2, 3, 5, 7, 9]);
/// ```
#[must_use]
pub fn prime_form(set: PitchClassSet) -> Vec<u8> {
    numbers(forte_form(set))
}

/// The prime form as Rahn chooses it: the smallest span, then compared from the right. It differs
/// from Forte's for 6-Z29 and 6-31.
#[must_use]
pub fn prime_form_rahn(set: PitchClassSet) -> Vec<u8> {
    // A higher note is a higher bit, so comparing numbers compares forms from the right.
    numbers(forms(set).min_by_key(|form| form.bits()).unwrap_or(PitchClassSet::EMPTY))
}

/// The Forte name of a set of three or six notes: `3-11` for a major or minor triad. `None` for
/// sets of other sizes.
#[must_use]
pub fn forte_name(set: PitchClassSet) -> Option<&'static str> {
    let form = forte_form(set);
    CLASSES.iter().find(|(_, prime)| *prime == form).map(|(name, _)| *name)
}

/// By how many semitones, 1 to 11, a set can be moved and stay itself: 4 and 8 for an augmented
/// triad, nothing for most sets.
pub fn transposition_symmetries(set: PitchClassSet) -> impl Iterator<Item = u8> {
    (1..12u8).filter(move |&by| !set.is_empty() && set.transposed(i32::from(by)) == set)
}

fn forte_form(set: PitchClassSet) -> PitchClassSet {
    let span = |bits: u16| u16::BITS - bits.leading_zeros();
    // Of equal spans the one packed to the left wins: with its bits reversed it is the greatest.
    let key = |form: &PitchClassSet| (span(form.bits()), Reverse(form.bits().reverse_bits()));
    forms(set).min_by_key(key).unwrap_or(PitchClassSet::EMPTY)
}

/// The set and its mirror image, each with every one of its notes moved to 0 in turn.
fn forms(set: PitchClassSet) -> impl Iterator<Item = PitchClassSet> {
    [set, set.inverted()]
        .into_iter()
        .flat_map(|set| set.iter().map(move |lowest| set.transposed(-i32::from(lowest.number()))))
}

fn numbers(form: PitchClassSet) -> Vec<u8> {
    form.iter().map(PitchClass::number).collect()
}

/// A prime form from its digits in base twelve (a = 10, b = 11).
const fn form(digits: &str) -> PitchClassSet {
    let mut left = digits.as_bytes();
    let mut set = PitchClassSet::EMPTY;
    while let [digit, rest @ ..] = left {
        let number = if *digit <= b'9' { *digit - b'0' } else { *digit - b'a' + 10 };
        set = set.with(PitchClass::new(number as i32));
        left = rest;
    }
    set
}

/// Forte's names with his prime forms: the 12 classes of three notes and the 50 of six.
/// Checked in the tests against a general music library's tables.
#[rustfmt::skip]
const CLASSES: &[(&str, PitchClassSet)] = &[
    ("3-1", form("012")), ("3-2", form("013")), ("3-3", form("014")), ("3-4", form("015")),
    ("3-5", form("016")), ("3-6", form("024")), ("3-7", form("025")), ("3-8", form("026")),
    ("3-9", form("027")), ("3-10", form("036")), ("3-11", form("037")), ("3-12", form("048")),
    ("6-1", form("012345")), ("6-2", form("012346")), ("6-Z3", form("012356")),
    ("6-Z4", form("012456")), ("6-5", form("012367")), ("6-Z6", form("012567")),
    ("6-7", form("012678")), ("6-8", form("023457")), ("6-9", form("012357")),
    ("6-Z10", form("013457")), ("6-Z11", form("012457")), ("6-Z12", form("012467")),
    ("6-Z13", form("013467")), ("6-14", form("013458")), ("6-15", form("012458")),
    ("6-16", form("014568")), ("6-Z17", form("012478")), ("6-18", form("012578")),
    ("6-Z19", form("013478")), ("6-20", form("014589")), ("6-21", form("023468")),
    ("6-22", form("012468")), ("6-Z23", form("023568")), ("6-Z24", form("013468")),
    ("6-Z25", form("013568")), ("6-Z26", form("013578")), ("6-27", form("013469")),
    ("6-Z28", form("013569")), ("6-Z29", form("013689")), ("6-30", form("013679")),
    ("6-31", form("013589")), ("6-32", form("024579")), ("6-33", form("023579")),
    ("6-34", form("013579")), ("6-35", form("02468a")), ("6-Z36", form("012347")),
    ("6-Z37", form("012348")), ("6-Z38", form("012378")), ("6-Z39", form("023458")),
    ("6-Z40", form("012358")), ("6-Z41", form("012368")), ("6-Z42", form("012369")),
    ("6-Z43", form("012568")), ("6-Z44", form("012569")), ("6-Z45", form("023469")),
    ("6-Z46", form("012469")), ("6-Z47", form("012479")), ("6-Z48", form("012579")),
    ("6-Z49", form("013479")), ("6-Z50", form("014679")),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// `tests/reference/set_classes.tsv` says where its rows come from.
    #[test]
    fn names_forms_and_vectors_agree_with_published_tables() {
        let numbers = |text: &str| -> Vec<u8> {
            text.split(' ').map(|number| number.parse().unwrap()).collect()
        };
        let table = include_str!("../../tests/reference/set_classes.tsv");
        let rows: Vec<&str> = table.lines().filter(|line| !line.starts_with('#')).collect();
        assert_eq!(rows.len(), 62);
        for row in rows {
            let [name, forte, rahn, vector] = row.split('\t').collect::<Vec<_>>()[..] else {
                panic!("{row}")
            };
            let bits = numbers(forte).iter().fold(0, |bits, class| bits | 1 << class);
            for by in 0..12 {
                let set = PitchClassSet::from_bits(bits).transposed(by);
                for set in [set, set.inverted()] {
                    assert_eq!(forte_name(set), Some(name));
                    assert_eq!(prime_form(set), numbers(forte), "{name}");
                    assert_eq!(prime_form_rahn(set), numbers(rahn), "{name}");
                    assert_eq!(interval_vector(set).to_vec(), numbers(vector), "{name}");
                }
            }
        }
    }

    #[test]
    fn every_set_of_three_or_six_notes_has_a_name_and_no_other() {
        for set in (0..=0xFFF).map(PitchClassSet::from_bits) {
            assert_eq!(forte_name(set).is_some(), matches!(set.len(), 3 | 6), "{set:?}");
        }
    }

    #[test]
    fn an_augmented_triad_repeats_every_major_third() {
        let augmented = PitchClassSet::from_bits(0b1_0001_0001);
        assert_eq!(transposition_symmetries(augmented).collect::<Vec<_>>(), [4, 8]);
    }
}
