//! What six notes are as a set, whatever they sound over.

use fretloom_theory::{
    PitchClassSet, forte_name, interval_vector, prime_form, prime_form_rahn,
    transposition_symmetries,
};

/// The six notes of a pair as a set.
#[derive(Clone, PartialEq, Debug)]
pub struct SixNotes {
    /// Semitones by which they can be moved and stay themselves.
    pub symmetry: Vec<u8>,
    /// Their Forte name.
    pub forte: Option<&'static str>,
    /// Their prime form after Forte.
    pub prime_form: Vec<u8>,
    /// Their prime form after Rahn.
    pub prime_form_rahn: Vec<u8>,
    /// Their interval-class vector.
    pub interval_vector: [u8; 6],
}

impl SixNotes {
    pub(super) fn of(set: PitchClassSet) -> SixNotes {
        SixNotes {
            symmetry: transposition_symmetries(set).collect(),
            forte: forte_name(set),
            prime_form: prime_form(set),
            prime_form_rahn: prime_form_rahn(set),
            interval_vector: interval_vector(set),
        }
    }
}
