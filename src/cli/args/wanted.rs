//! Which pairs to choose from.

use clap::Args;
use fretloom_theory::Families;

use super::value;
use crate::answer::{Refusal, Wishes};

/// Which pairs are wanted.
#[derive(Args, Debug)]
pub struct Wanted {
    /// Which triads take part: tertian (major, minor, diminished, augmented, each also by itself),
    /// sus, flat-five or all; several with commas
    #[arg(long, value_parser = value::families, value_name = "FAMILIES", default_value = "tertian")]
    pub families: Families,
    /// Only pairs that hold these degrees: 7,#11
    #[arg(long, value_name = "DEGREES", default_value = "", hide_default_value = true)]
    pub with: String,
    /// Only pairs without these degrees: 11
    #[arg(long, value_name = "DEGREES", default_value = "", hide_default_value = true)]
    pub without: String,
}

impl Wanted {
    /// The degrees that are wanted and those that are not.
    ///
    /// # Errors
    ///
    /// Where one of them cannot be read.
    pub fn wishes(&self) -> Result<Wishes, Refusal> {
        Wishes::read(&self.with, &self.without)
    }
}
