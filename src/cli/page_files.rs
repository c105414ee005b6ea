//! The files of pages that a command writes.

use super::args::PageFilesArgs;
use super::new_files::{Content, NewFiles};
use crate::answer::Refusal;
use crate::export::{pdf, svg};
use crate::picture::page::{Pages, Paper};

/// The files of pages, which have been looked at.
pub(super) struct PageFiles {
    files: NewFiles<PageFileKind>,
    paper: Paper,
}

/// What a file of pages is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum PageFileKind {
    /// A PDF.
    Pdf,
    /// An SVG file.
    Svg,
}

impl PageFileKind {
    /// The bytes of a file of this kind.
    pub(super) fn bytes(self, pages: &Pages) -> Vec<u8> {
        match self {
            PageFileKind::Pdf => pdf::pages(pages),
            PageFileKind::Svg => svg::pages(pages).into_bytes(),
        }
    }
}

impl PageFiles {
    /// The files that are asked for.
    ///
    /// # Errors
    ///
    /// As [`NewFiles::of`].
    pub(super) fn of(wanted: &PageFilesArgs) -> Result<PageFiles, Refusal> {
        let named = [(&wanted.pdf, PageFileKind::Pdf), (&wanted.svg, PageFileKind::Svg)];
        let files = named.into_iter().filter_map(|(path, kind)| Some((path.clone()?, kind)));
        Ok(PageFiles { files: NewFiles::of(files, wanted.overwrite)?, paper: wanted.paper })
    }

    /// Writes the pages that `make` sets on the paper, where any file is asked for.
    ///
    /// # Errors
    ///
    /// Where the system refuses.
    pub(super) fn write(&self, make: impl FnOnce(Paper) -> Pages) -> Result<(), Refusal> {
        if self.files.is_empty() {
            return Ok(());
        }
        let pages = make(self.paper);
        self.files.write(|file| Ok(Content::Bytes(file.kind().bytes(&pages))))
    }

    /// What was written, a line each.
    pub(super) fn told(&self) -> String {
        self.files.told()
    }
}
