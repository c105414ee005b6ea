//! A chart from a file that is named on the command line.

use std::path::Path;

use crate::answer::{self, Refusal};
use crate::cli::call::{Call, say_all};
use crate::cli::complain::complain;
use crate::cli::files;
use crate::library::ReadChart;

impl Call<'_> {
    /// The chart in a file, on standard input, or of the library where no file has that name. What could not be used of it is said on standard error.
    pub(super) fn chart(&self, file: &Path) -> Result<ReadChart, Refusal> {
        let name = file.display().to_string();
        let own = self.own_scales();
        let read = match file == Path::new("-") || file.exists() {
            true => answer::read_chart(&name, &files::bytes(file)?, own)?,
            false => answer::chart_of_id(&name, &self.library.charts, own)?.read,
        };
        read.remarks.iter().for_each(complain);
        say_all(&read.problems);
        Ok(read)
    }
}
