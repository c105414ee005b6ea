//! A chart from a file that is named on the command line.

use std::path::Path;

use crate::answer::{self, Refusal};
use crate::cli::call::{Call, say_all};
use crate::cli::complain::complain;
use crate::cli::files;
use crate::library::ReadChart;

impl Call<'_> {
    /// The chart in a file, or on standard input. What could not be used of it is said on standard error.
    pub(super) fn chart(&self, file: &Path) -> Result<ReadChart, Refusal> {
        let name = file.display().to_string();
        let read = answer::read_chart(&name, &files::bytes(file)?, self.own_scales())?;
        read.remarks.iter().for_each(complain);
        say_all(&read.problems);
        Ok(read)
    }
}
