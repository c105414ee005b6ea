//! The files that a line is written to.

use std::sync::Arc;

use fretloom_theory::{ClickBeats, Swing};

use super::args::LineFilesArgs;
use super::new_files::{Content, NewFile, NewFiles};
use super::page_files::PageFileKind;
use crate::answer::{Refusal, performed};
use crate::picture::page::{Pages, Paper};
use crate::score_file::{ScoreWriteError, WrittenScore};
use crate::sound::{Performance, Rounds, SoundChoices, TooLongForWav};

/// The files that a line is to be written to, which have been looked at.
pub(super) struct LineFiles {
    files: NewFiles<LineFileKind>,
    has_music: bool,
    paper: Paper,
}

/// What a file holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum LineFileKind {
    /// A Standard MIDI File.
    Midi,
    /// MusicXML.
    MusicXml,
    /// What is heard, as a WAV file.
    Wav,
    /// Pages.
    Page(PageFileKind),
}

impl LineFiles {
    /// The files that are asked for.
    ///
    /// # Errors
    ///
    /// As [`NewFiles::of`].
    pub(super) fn of(wanted: &LineFilesArgs) -> Result<LineFiles, Refusal> {
        let named = [
            (&wanted.midi, LineFileKind::Midi),
            (&wanted.musicxml, LineFileKind::MusicXml),
            (&wanted.wav, LineFileKind::Wav),
            (&wanted.pdf, LineFileKind::Page(PageFileKind::Pdf)),
            (&wanted.svg, LineFileKind::Page(PageFileKind::Svg)),
        ];
        let files = named.into_iter().filter_map(|(path, kind)| Some((path.clone()?, kind)));
        let files: Vec<_> = files.collect();
        let has_music = files.iter().any(|(_, kind)| !matches!(kind, LineFileKind::Page(_)));
        let files = NewFiles::of(files, wanted.overwrite)?;
        Ok(LineFiles { files, has_music, paper: wanted.paper })
    }

    /// Is no music to be written? Pages may be all the same.
    pub(super) fn are_without_music(&self) -> bool {
        !self.has_music
    }

    /// Writes all of them, each whole, or none; `made` is asked for the music, with how its eighths are
    /// played and what is beaten, and `pages` for what is printed, where any of that is wanted.
    ///
    /// # Errors
    ///
    /// Where a file of a kind cannot hold the music, and where the system refuses.
    pub(super) fn write(
        &self,
        sound: &SoundChoices,
        made: impl FnOnce(Swing, ClickBeats) -> Option<WrittenScore>,
        pages: &dyn Fn(Paper) -> Result<Pages, ScoreWriteError>,
    ) -> Result<(), Refusal> {
        // A track that is not wanted is silenced where the file is opened.
        let click = match sound.click {
            ClickBeats::Off => ClickBeats::TwoAndFour,
            click @ (ClickBeats::TwoAndFour | ClickBeats::Every) => click,
        };
        let written = if self.has_music { made(sound.swing, click) } else { None };
        if written.is_none() && self.has_music {
            return Ok(());
        }
        self.files.write(|file| match (file.kind(), &written) {
            (LineFileKind::Page(kind), _) => {
                let pages = pages(self.paper).map(|pages| Content::Bytes(kind.bytes(&pages)));
                pages.map_err(|error| Refusal::Unwritable { name: file.name(), error })
            }
            (kind, Some(written)) => content(file, kind, written, sound),
            (_, None) => Ok(Content::Bytes(Vec::new())),
        })
    }

    /// What was written, a line each.
    pub(super) fn told(&self) -> String {
        self.files.told()
    }
}

fn content(
    file: &NewFile<LineFileKind>,
    kind: LineFileKind,
    written: &WrittenScore,
    sound: &SoundChoices,
) -> Result<Content, Refusal> {
    let made: Result<Vec<u8>, ScoreWriteError> = match kind {
        LineFileKind::Midi => written.midi(),
        LineFileKind::Wav => return heard(file, written, sound),
        LineFileKind::MusicXml => written.music_xml(),
        LineFileKind::Page(_) => Ok(Vec::new()),
    };
    let made = made.map(Content::Bytes);
    made.map_err(|error| Refusal::Unwritable { name: file.name(), error })
}

fn heard(
    file: &NewFile<LineFileKind>,
    written: &WrittenScore,
    sound: &SoundChoices,
) -> Result<Content, Refusal> {
    let performance = performed(written, &sound.style(&written.tuning, Rounds::Once));
    match performance.wav_frames() {
        Ok(_) => Ok(Content::Sound(Box::new(performance), Arc::new(sound.mix()))),
        Err(TooLongForWav) => {
            let hours = Performance::LONGEST_WAV.duration().as_secs() / 3600;
            let reason = format!("the line lasts longer than {hours} hours");
            Err(file.refused(reason, "fewer bars, or a higher tempo"))
        }
    }
}
