//! `sheet`: one idea for a music stand, for one reader or for several.

use std::path::{Path, PathBuf};

use fretloom_fretboard::{FretRange, Neck, Region, ShapeQuery};
use fretloom_theory::{LineStyle, Meter, Rhythm};

use super::line::{bars, tempo};
use super::two_triads::two_triads;
use crate::answer::{
    self, AskedChords, Harmony, InKey, LadderAnswer, LineArea, LineChords, LineQuestion,
    LinesAnswer, NeckAnswer, PairAnswer, Refusal, TuningAnswer, Wishes,
};
use crate::cli::args;
use crate::cli::call::{Call, neck_within};
use crate::cli::files;
use crate::cli::new_files::{Content, NewFiles};
use crate::cli::page_files::PageFileKind;
use crate::cli::text;
use crate::engraving::Answers;
use crate::library::{Reader, readers_of_text};
use crate::picture::page::Pages;
use crate::picture::{Handed, NeckPicture};
use crate::sheet::{self, Heading, Idea, IdeaLook, LineLook};

/// What stands for the reader in the names of files.
const READER: &str = "{reader}";

impl Call<'_> {
    pub(super) fn sheet(&self, wanted: &args::Sheet) -> Result<String, Refusal> {
        let readers = readers(wanted)?;
        let named = files_of(wanted, &readers)?;
        let files = NewFiles::of(named, wanted.files.overwrite)?;
        let first = self.idea(wanted, &self.tuning()?)?;
        let mut ideas: Vec<(Idea, IdeaLook)> = Vec::new();
        for reader in &readers {
            let idea = self.idea_for(wanted, &first, reader)?;
            ideas.push((idea, self.look(wanted, Some(reader))));
        }
        if ideas.is_empty() {
            ideas.push((first, self.look(wanted, None)));
        }
        if files.is_empty() {
            let told: Vec<String> =
                ideas.iter().map(|(idea, look)| text::sheet(idea, look)).collect();
            return Ok(self.as_text(&told.join("\n\n")));
        }
        let pages: Vec<Pages> = ideas
            .iter()
            .map(|(idea, look)| sheet::idea(idea, look))
            .collect::<Result<_, _>>()
            .map_err(|error| Refusal::Unwritable { name: "the sheet".to_owned(), error })?;
        files.write(|file| {
            let (kind, index) = file.kind();
            let bytes = pages.get(index).map(|pages| kind.bytes(pages));
            Ok(Content::Bytes(bytes.unwrap_or_default()))
        })?;
        Ok(self.as_text(&files.told()))
    }

    fn look(&self, wanted: &args::Sheet, reader: Option<&Reader>) -> IdeaLook {
        let left = reader.and_then(|reader| reader.left).unwrap_or(wanted.left_handed);
        let answers = reader.and_then(|reader| reader.answers).unwrap_or(!wanted.no_answers);
        IdeaLook {
            handed: if left { Handed::Left } else { Handed::Right },
            line: LineLook {
                answers: if answers { Answers::Shown } else { Answers::Blank },
                fingers: reader.and_then(|reader| reader.fingers).unwrap_or(!wanted.no_fingers),
                sentences: wanted.sentences,
            },
            reader: reader.cloned(),
            spelling: self.spelling(),
            paper: wanted.files.paper,
        }
    }

    /// The idea on the instrument of a reader: the same notes where it has them.
    fn idea_for(
        &self,
        wanted: &args::Sheet,
        first: &Idea,
        reader: &Reader,
    ) -> Result<Idea, Refusal> {
        let Some(tuning) = &reader.tuning else { return Ok(first.clone()) };
        let found = answer::find_tuning(self.tunings(), tuning)?;
        let tuning = answer::put_capo(found, self.cli.common.capo()?)?;
        let (neck, frets) = neck_within(&tuning, wanted.frets.as_deref())?;
        let line = first.line.lines.first().map(|key| key.answer.on_instrument(&neck, &tuning));
        let Some((line, how)) = line.transpose()? else { return Ok(first.clone()) };
        let line = LinesAnswer::of_one(line);
        self.idea_on(wanted, neck, tuning, frets, line, how)
    }

    fn idea(&self, wanted: &args::Sheet, tuning: &TuningAnswer) -> Result<Idea, Refusal> {
        let (neck, frets) = neck_within(tuning, wanted.frets.as_deref())?;
        let question = self.sheet_question(wanted, frets)?;
        let line = LinesAnswer::in_one_key(&neck, tuning.clone(), &question)?;
        self.idea_on(wanted, neck, tuning.clone(), frets, line, InKey::Here)
    }

    fn idea_on(
        &self,
        wanted: &args::Sheet,
        neck: Neck,
        tuning: TuningAnswer,
        frets: FretRange,
        line: LinesAnswer,
        how: InKey,
    ) -> Result<Idea, Refusal> {
        if !is_one_chord(&wanted.chords) {
            let heading = sheet::line_heading(&line);
            return Ok(Idea { heading, neck, picture: None, ladder: None, line, how });
        }
        let (harmony, pair) = self.chord_and_pair(wanted)?;
        let heading = Heading::of_pair(&harmony, &pair, &tuning);
        let answer = NeckAnswer::new(&neck, tuning.clone(), &pair, frets);
        let marks = answer::marks(&answer.places, wanted.labels);
        let picture = NeckPicture::new(&neck, marks).within(frets);
        let query = ShapeQuery::default().in_region(Region::default().within(frets));
        let strings = wanted.strings.parse()?;
        let ladder = LadderAnswer::new(&neck, tuning, pair.name(), strings, &query)?;
        Ok(Idea { heading, neck, picture: Some(picture), ladder: Some(ladder), line, how })
    }

    fn chord_and_pair(&self, wanted: &args::Sheet) -> Result<(Harmony, PairAnswer), Refusal> {
        let harmony = self.harmony(Some(&wanted.chords), wanted.scale.as_deref())?;
        let text = wanted.pair.as_deref().unwrap_or("1").trim();
        if let Some(triads) = two_triads(text) {
            let pair = answer::pair_over(&harmony, triads?, self.spelling())?;
            return Ok((harmony, pair));
        }
        let families = fretloom_theory::Families::default();
        let pairs = answer::pairs_over(&harmony, &families, &Wishes::default(), self.spelling());
        let index = text.parse().ok().and_then(|rank: usize| rank.checked_sub(1));
        let pair = index.and_then(|index| pairs.pairs.get(index).cloned());
        let count = pairs.pairs.len();
        match pair {
            Some(pair) => Ok((harmony, pair)),
            None => Err(Refusal::UnknownPair { text: text.to_owned(), count }),
        }
    }

    fn sheet_question(
        &self,
        wanted: &args::Sheet,
        frets: FretRange,
    ) -> Result<LineQuestion, Refusal> {
        let one = is_one_chord(&wanted.chords);
        let pair = match one {
            true => Some(format!("{:#}", self.chord_and_pair(wanted)?.1.name())),
            false => wanted.pair.clone(),
        };
        let asked = AskedChords {
            text: &wanted.chords,
            meter: wanted.meter.parse::<Meter>()?,
            bars: match &wanted.bars {
                Some(text) => Some(bars(text)?),
                None if one => Some(2),
                None => None,
            },
            scales: wanted.scale.as_deref(),
            pairs: pair.as_deref(),
            spelling: self.spelling(),
            own: self.own_scales(),
        };
        let region = Region::default().within(frets);
        Ok(LineQuestion {
            style: if one { LineStyle::Exercise } else { LineStyle::Music },
            tempo: tempo(&wanted.tempo)?,
            pattern: wanted.pattern.as_deref().map(|text| self.pattern(text)).transpose()?,
            rhythm: args::read::<Rhythm>(wanted.rhythm.as_deref())?,
            area: LineArea { region, ..LineArea::whole_neck() },
            ..LineQuestion::over(LineChords::read(&asked)?)
        })
    }
}

/// A chord by itself, and not bars of chords.
fn is_one_chord(chords: &str) -> bool {
    !chords.trim().contains(['|', ' '])
}

/// Those that are typed, then those of the file.
fn readers(wanted: &args::Sheet) -> Result<Vec<Reader>, Refusal> {
    let mut readers = wanted.reader.clone();
    if let Some(file) = &wanted.readers {
        let text = files::list(file)?;
        let read = readers_of_text(&file.display().to_string(), &text);
        readers.extend(read.map_err(|problems| Refusal::Readers { problems })?);
    }
    for (index, reader) in readers.iter().enumerate() {
        let name = reader.in_file_name();
        if readers.iter().take(index).any(|other| other.in_file_name() == name) {
            return Err(Refusal::ReaderTwice { name: reader.name.clone() });
        }
    }
    Ok(readers)
}

type Named = Vec<(PathBuf, (PageFileKind, usize))>;

/// The files for each reader.
fn files_of(wanted: &args::Sheet, readers: &[Reader]) -> Result<Named, Refusal> {
    let asked = [(&wanted.files.pdf, PageFileKind::Pdf), (&wanted.files.svg, PageFileKind::Svg)];
    let mut named = Vec::new();
    for (path, kind) in asked.into_iter().filter_map(|(path, kind)| Some((path.as_ref()?, kind))) {
        let has_reader = path.to_string_lossy().contains(READER);
        if readers.len() > 1 && !has_reader {
            return Err(Refusal::OneFile { name: path.display().to_string() });
        }
        match readers {
            [] => named.push((path.clone(), (kind, 0))),
            readers => named.extend(
                readers
                    .iter()
                    .enumerate()
                    .map(|(index, reader)| (path_for(path, reader), (kind, index))),
            ),
        }
    }
    Ok(named)
}

fn path_for(path: &Path, reader: &Reader) -> PathBuf {
    match path.to_str() {
        Some(text) => PathBuf::from(text.replace(READER, &reader.in_file_name())),
        None => path.to_owned(),
    }
}
