//! The line as a file for other programs.

use super::super::made::Made;
use super::super::state::LineScreen;
use crate::export::text::TabText;
use crate::picture::{Tab, TabBelow, TabLook};
use crate::tui::found::{Found, WrittenMusic};
use crate::tui::music_file::MusicFileKind;
use crate::tui::runtime::Job;
use crate::tui::shared::Shared;
use crate::tui::sound::Manner;
use crate::tui::typed_path::path_of;

impl LineScreen {
    /// What is to be written.
    pub(in crate::tui) fn jobs(&mut self) -> impl Iterator<Item = Job<Found>> {
        self.music_files.take_job().into_iter()
    }

    /// The tablature with all that stands around it.
    pub(in crate::tui::line) fn tab_text(&self, made: &Made) -> String {
        let look = TabLook { below: TabBelow::Degrees, triads: true, ..TabLook::default() };
        let tab = Tab { title: Some(self.title()), ..made.tab.clone() };
        TabText::new(&tab, &look).to_string()
    }

    /// Has the line written under a typed name; the field stays until that is done.
    pub(in crate::tui::line) fn write_to(&mut self, typed: &str, shared: &mut Shared) {
        let Some((kind, path)) = MusicFileKind::of(typed).zip(path_of(typed)) else {
            return shared.tell(MusicFileKind::EXPECTED);
        };
        let Some(made) = self.made() else { return shared.tell("there is no line to write") };
        let content = content(made, kind, &self.tab_text(made), shared.sound.manner());
        self.music_files.write(path, content, Found::LineWritten);
    }

    /// Hears what has become of it.
    pub(in crate::tui) fn take_written(&mut self, written: WrittenMusic, shared: &mut Shared) {
        if self.music_files.hear(written, shared) {
            self.field = None;
        }
    }
}

/// What is to be written, worked out where no key waits for it.
fn content(
    made: &Made,
    kind: MusicFileKind,
    tab: &str,
    manner: Manner,
) -> impl FnOnce() -> Result<Vec<u8>, String> + Send + 'static {
    let (answer, way, tab) = (made.answer.clone(), made.way, tab.to_owned());
    move || {
        if kind == MusicFileKind::Tab {
            return Ok(tab.into_bytes());
        }
        let way = answer.ways.get(way).or(answer.ways.first());
        let way = way.ok_or_else(|| "no hand plays this line".to_owned())?;
        let written = answer.written(way, manner.swing(), manner.click_of_file());
        let made = match kind {
            MusicFileKind::Midi => written.midi(),
            MusicFileKind::MusicXml | MusicFileKind::Tab => written.music_xml(),
        };
        made.map_err(|error| error.to_string())
    }
}
