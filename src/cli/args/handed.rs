//! For which hand necks are drawn.

use clap::{ArgAction, Args};

use crate::picture::Handed;

/// For which hand necks are drawn.
#[derive(Args, Debug)]
pub struct HandedArgs {
    /// The mirror image, with the nut at the right, and boxes with the thick strings there
    #[arg(long, value_name = "true|false", num_args = 0..=1, require_equals = true,
          action = ArgAction::Set, default_value = "false", default_missing_value = "true",
          hide_possible_values = true)]
    pub left_handed: bool,
}

impl HandedArgs {
    /// The hand that frets.
    pub const fn handed(&self) -> Handed {
        if self.left_handed { Handed::Left } else { Handed::Right }
    }
}
