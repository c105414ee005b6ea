//! On which side of its line an instrument's drone lies.

use fretloom_fretboard::{Instrument, Tuning};
use fretloom_theory::DroneSide;

/// Below the line, and above that of a bass, under which a drone would growl.
#[must_use]
pub fn drone_side(tuning: &Tuning) -> DroneSide {
    match tuning.instrument() {
        Instrument::Bass => DroneSide::Above,
        _ => DroneSide::Below,
    }
}
