//! The stabs of the tune as a file for other programs.

use super::super::comping::{Comping, HelpfulKeys};
use super::super::field::Typed;
use super::super::state::ChangesScreen;
use crate::tui::found::{Found, WrittenMusic};
use crate::tui::music_file::MusicFileKind;
use crate::tui::shared::Shared;
use crate::tui::typed_path::path_of;

impl ChangesScreen {
    /// Asks for the name of a file.
    pub(super) fn ask_where_to_comp(&mut self, shared: &mut Shared) {
        match self.chosen.chart {
            Some(_) => self.edit(Typed::Comping),
            None => Self::tell_no_bars(shared),
        }
    }

    /// Has the stabs written under a typed name; the field stays until that is done.
    pub(super) fn write_comping(&mut self, typed: &str, shared: &mut Shared) -> bool {
        match (MusicFileKind::of(typed).zip(path_of(typed)), self.to_comp(shared)) {
            (None, _) => shared.tell(MusicFileKind::EXPECTED),
            (_, None) => shared.tell("there is no plan to write yet"),
            (Some((kind, path)), Some(comped)) => {
                let (comping, manner) = (Comping::of(comped), shared.sound.manner());
                let keys = HelpfulKeys::of(shared);
                let content = move || comping.file(kind, manner, &keys);
                self.music_files.write(path, content, Found::CompingWritten);
            }
        }
        false
    }

    /// Hears what has become of it.
    pub(in crate::tui) fn take_written(&mut self, written: WrittenMusic, shared: &mut Shared) {
        if self.music_files.hear(written, shared) {
            self.field = None;
        }
    }
}
