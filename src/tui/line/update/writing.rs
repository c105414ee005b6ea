//! The line as a file for other programs.

use super::super::made::Made;
use super::super::state::LineScreen;
use super::super::writing::LineFileKind;
use crate::export::text::TabText;
use crate::library::{FileNotWritten, FileThere, write_file};
use crate::picture::{Tab, TabBelow, TabLook};
use crate::tui::found::{Found, LineNotWritten, WrittenLine};
use crate::tui::runtime::{Job, Subject};
use crate::tui::shared::Shared;
use crate::tui::sound::Manner;
use crate::tui::typed_path::path_of;

impl LineScreen {
    /// What is to be written.
    pub(in crate::tui) fn jobs(&mut self) -> impl Iterator<Item = Job<Found>> {
        self.writing.job.take().into_iter()
    }

    /// The tablature with all that stands around it.
    pub(in crate::tui::line) fn tab_text(&self, made: &Made) -> String {
        let look = TabLook { below: TabBelow::Degrees, triads: true, ..TabLook::default() };
        let tab = Tab { title: Some(self.title()), ..made.tab.clone() };
        TabText::new(&tab, &look).to_string()
    }

    /// Has the line written under a typed name; the field stays until that is done.
    pub(in crate::tui::line) fn write_to(&mut self, typed: &str, shared: &mut Shared) {
        let Some((kind, path)) = LineFileKind::of(typed).zip(path_of(typed)) else {
            return shared.tell(LineFileKind::EXPECTED);
        };
        let Some(made) = self.made() else { return shared.tell("there is no line to write") };
        let content = content(made, kind, &self.tab_text(made), shared.sound.manner());
        self.writing.count += 1;
        let number = self.writing.count;
        let may_replace = self.writing.there.take().is_some_and(|there| there == path);
        let there = if may_replace { FileThere::Replaced } else { FileThere::Kept };
        let work = move |_: &_| {
            let written = content().map_err(LineNotWritten::Music);
            let outcome = written.and_then(|content| {
                write_file(&path, &content, there).map_err(LineNotWritten::File)
            });
            Found::Written(Box::new(WrittenLine { number, path, outcome }))
        };
        self.writing.job = Some(Job::new(work).about(Subject::File));
    }

    /// Hears what has become of it.
    pub(in crate::tui) fn take_written(&mut self, written: WrittenLine, shared: &mut Shared) {
        if written.number != self.writing.count {
            return;
        }
        match written.outcome {
            Ok(()) => {
                self.field = None;
                shared.tell(format!("written to {}", written.path.display()));
            }
            Err(LineNotWritten::File(FileNotWritten::Exists(path))) => {
                shared.tell(format!("{} is there already: once more replaces it", path.display()));
                self.writing.there = Some(path);
            }
            Err(LineNotWritten::File(why)) => shared.tell(why.to_string()),
            Err(LineNotWritten::Music(why)) => shared.tell(why),
        }
    }
}

/// What is to be written, worked out where no key waits for it.
fn content(
    made: &Made,
    kind: LineFileKind,
    tab: &str,
    manner: Manner,
) -> impl FnOnce() -> Result<Vec<u8>, String> + Send + 'static {
    let (answer, way, tab) = (made.answer.clone(), made.way, tab.to_owned());
    move || {
        if kind == LineFileKind::Tab {
            return Ok(tab.into_bytes());
        }
        let way = answer.ways.get(way).or(answer.ways.first());
        let way = way.ok_or_else(|| "no hand plays this line".to_owned())?;
        let written = answer.written(way, manner.swing(), manner.click_of_file());
        let made = match kind {
            LineFileKind::Midi => written.midi(),
            LineFileKind::MusicXml | LineFileKind::Tab => written.music_xml(),
        };
        made.map_err(|error| error.to_string())
    }
}
