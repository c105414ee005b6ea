//! The files that a line is written to.

use std::sync::Arc;

use fretloom_theory::{ClickBeats, Swing};

use super::args::LineFilesArgs;
use super::new_files::{Content, NewFile, NewFiles};
use crate::answer::{Refusal, performed};
use crate::score_file::{ScoreWriteError, WrittenScore};
use crate::sound::{Performance, Rounds, SoundChoices, TooLongForWav};

/// The files that a line is to be written to, which have been looked at.
pub(super) struct LineFiles {
    files: NewFiles<LineFileKind>,
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
        ];
        let files = named.into_iter().filter_map(|(path, kind)| Some((path.clone()?, kind)));
        Ok(LineFiles { files: NewFiles::of(files, wanted.overwrite)? })
    }

    /// Is nothing to be written?
    pub(super) fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// Writes all of them, each whole, or none; `made` is asked for the music, with how its eighths are
    /// played and what is beaten, where there are any.
    ///
    /// # Errors
    ///
    /// Where a file of a kind cannot hold the music, and where the system refuses.
    pub(super) fn write(
        &self,
        sound: &SoundChoices,
        made: impl FnOnce(Swing, ClickBeats) -> Option<WrittenScore>,
    ) -> Result<(), Refusal> {
        if self.files.is_empty() {
            return Ok(());
        }
        // A track that is not wanted is silenced where the file is opened.
        let click = match sound.click {
            ClickBeats::Off => ClickBeats::TwoAndFour,
            click @ (ClickBeats::TwoAndFour | ClickBeats::Every) => click,
        };
        match made(sound.swing, click) {
            Some(written) => self.files.write(|file| content(file, &written, sound)),
            None => Ok(()),
        }
    }

    /// What was written, a line each.
    pub(super) fn told(&self) -> String {
        self.files.told()
    }
}

fn content(
    file: &NewFile<LineFileKind>,
    written: &WrittenScore,
    sound: &SoundChoices,
) -> Result<Content, Refusal> {
    let made: Result<Vec<u8>, ScoreWriteError> = match file.kind() {
        LineFileKind::Midi => written.midi(),
        LineFileKind::Wav => return heard(file, written, sound),
        LineFileKind::MusicXml => written.music_xml(),
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
