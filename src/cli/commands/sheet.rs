//! `sheet`: one idea for a music stand, for one reader or for several.

use std::path::{Path, PathBuf};

use fretloom_fretboard::{FretRange, Neck, Region};
use fretloom_theory::{LineStyle, Meter, Rhythm};

use super::line::{bars, tempo};
use super::two_triads::two_triads;
use crate::answer::{
    self, AskedChords, InKey, LineArea, LineChords, LineQuestion, LinesAnswer, OpenedKeeper,
    Opening, PairOver, Refusal, TuningAnswer, Wishes,
};
use crate::cli::args;
use crate::cli::call::{Call, neck_within};
use crate::cli::files;
use crate::cli::new_files::{Content, NewFiles};
use crate::cli::page_files::PageFileKind;
use crate::cli::text;
use crate::engraving::Answers;
use crate::library::{Reader, readers_of_text};
use crate::picture::Handed;
use crate::picture::page::Pages;
use crate::sheet::{self, Idea, IdeaLook, IdeaShapes, LineLook, OnSheet, PairPlacing};
use crate::store::Keeper;

/// What stands for the reader and for the keeper in the names of files.
const READER: &str = "{reader}";
const KEEPER: &str = "{keeper}";

/// What one reader is given: a sheet, or one for each keeper.
struct HandOut {
    sheets: Vec<OnSheet>,
    look: IdeaLook,
}

/// A file of sheets: of which reader, and of which keeper where it holds those of one alone.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct SheetFile {
    kind: PageFileKind,
    reader: usize,
    sheet: Option<usize>,
}

impl Call<'_> {
    pub(super) fn sheet(&self, wanted: &args::Sheet) -> Result<String, Refusal> {
        let readers = readers(wanted)?;
        let files = NewFiles::of(files_of(wanted, &readers)?, wanted.files.overwrite)?;
        let hand_outs = match wanted.keeper.as_slice() {
            [] => self.of_chords(wanted, &readers)?,
            ids => self.of_keepers(wanted, &self.kept(ids)?, &readers)?,
        };
        if files.is_empty() {
            let told = hand_outs.iter().flat_map(|HandOut { sheets, look }| {
                sheets.iter().map(move |sheet| text::sheet(sheet, look))
            });
            return Ok(self.as_text(&told.collect::<Vec<_>>().join("\n\n")));
        }
        let pages: Vec<Vec<Pages>> = hand_outs
            .iter()
            .map(|HandOut { sheets, look }| sheets.iter().map(|sheet| sheet.pages(look)).collect())
            .collect::<Result<_, _>>()
            .map_err(|error| Refusal::Unwritable { name: "the sheet".to_owned(), error })?;
        files.write(|file| {
            let SheetFile { kind, reader, sheet } = file.kind();
            let of_reader = pages.get(reader).map(Vec::as_slice).unwrap_or_default();
            let wanted =
                of_reader.iter().zip(0..).filter(|(_, at)| sheet.is_none_or(|it| it == *at));
            let joined = Pages::joined(wanted.map(|(pages, _)| pages.clone()));
            Ok(Content::Bytes(joined.map(|pages| kind.bytes(&pages)).unwrap_or_default()))
        })?;
        Ok(self.as_text(&files.told()))
    }

    fn of_chords(&self, wanted: &args::Sheet, readers: &[Reader]) -> Result<Vec<HandOut>, Refusal> {
        let chords = wanted.chords.as_deref().unwrap_or_default();
        let first = self.idea(wanted, chords, &self.tuning()?)?;
        let hand_out = |idea: Idea, reader: Option<&Reader>| HandOut {
            sheets: vec![OnSheet::Idea(Box::new(idea))],
            look: self.look(wanted, reader),
        };
        if readers.is_empty() {
            return Ok(vec![hand_out(first, None)]);
        }
        let given = readers.iter().map(|reader| {
            Ok(hand_out(self.idea_for(wanted, chords, &first, reader)?, Some(reader)))
        });
        given.collect()
    }

    /// The keepers with these numbers, in this order.
    fn kept(&self, ids: &[String]) -> Result<Vec<Keeper>, Refusal> {
        let kept = self.keepers()?;
        let found = ids.iter().map(|id| {
            let number = id.trim().parse().ok();
            let keeper = kept.iter().find(|keeper| Some(keeper.id.number()) == number);
            keeper.cloned().ok_or_else(|| Refusal::NoKeeper { text: id.clone() })
        });
        found.collect()
    }

    fn of_keepers(
        &self,
        wanted: &args::Sheet,
        keepers: &[Keeper],
        readers: &[Reader],
    ) -> Result<Vec<HandOut>, Refusal> {
        let unsaid = self.tuning()?;
        let is_typed = self.cli.typed.tuning || self.cli.common.capo.is_some();
        let own = is_typed.then(|| unsaid.clone());
        let hand_out = |reader: Option<&Reader>| {
            let on = match reader.and_then(|reader| reader.tuning.as_deref()) {
                Some(tuning) => Some(self.tuning_of_reader(tuning)?),
                None => own.clone(),
            };
            let opening = Opening {
                on: on.as_ref(),
                unsaid: &unsaid,
                tunings: self.tunings(),
                own: self.own_scales(),
                spelling: self.spelling(),
            };
            let sheet = |keeper: &Keeper| {
                let opened = OpenedKeeper::open(keeper, &opening)?;
                OnSheet::of_keeper(keeper, opened, wanted.labels, self.spelling())
            };
            let sheets = keepers.iter().map(sheet).collect::<Result<_, Refusal>>()?;
            Ok(HandOut { sheets, look: self.look(wanted, reader) })
        };
        match readers {
            [] => Ok(vec![hand_out(None)?]),
            readers => readers.iter().map(|reader| hand_out(Some(reader))).collect(),
        }
    }

    fn look(&self, wanted: &args::Sheet, reader: Option<&Reader>) -> IdeaLook {
        let left = reader.and_then(|reader| reader.left).unwrap_or(wanted.hand.left_handed);
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

    fn tuning_of_reader(&self, tuning: &str) -> Result<TuningAnswer, Refusal> {
        let found = answer::find_tuning(self.tunings(), tuning)?;
        answer::put_capo(found, self.cli.common.capo()?)
    }

    /// The idea on the instrument of a reader: the same notes where it has them.
    fn idea_for(
        &self,
        wanted: &args::Sheet,
        chords: &str,
        first: &Idea,
        reader: &Reader,
    ) -> Result<Idea, Refusal> {
        let Some(tuning) = &reader.tuning else { return Ok(first.clone()) };
        let tuning = self.tuning_of_reader(tuning)?;
        let (neck, frets) = neck_within(&tuning, wanted.frets.as_deref())?;
        let line = first.line.as_ref().and_then(|line| line.lines.first());
        let line = line.map(|key| key.answer.on_instrument(&neck, &tuning));
        let Some((line, how)) = line.transpose()? else { return Ok(first.clone()) };
        let line = LinesAnswer::of_one(line);
        let placing = self.placing(wanted, tuning, frets)?;
        Ok(Idea { how, ..self.idea_on(wanted, chords, neck, &placing, line)? })
    }

    fn idea(
        &self,
        wanted: &args::Sheet,
        chords: &str,
        tuning: &TuningAnswer,
    ) -> Result<Idea, Refusal> {
        let (neck, frets) = neck_within(tuning, wanted.frets.as_deref())?;
        let placing = self.placing(wanted, tuning.clone(), frets)?;
        let unless_on = placing.strings.map(|strings| Region::default().on(strings).check(&neck));
        unless_on.transpose()?;
        let question = self.sheet_question(wanted, chords, frets)?;
        let line = LinesAnswer::in_one_key(&neck, tuning.clone(), &question)?;
        self.idea_on(wanted, chords, neck, &placing, line)
    }

    fn placing(
        &self,
        wanted: &args::Sheet,
        tuning: TuningAnswer,
        frets: FretRange,
    ) -> Result<PairPlacing, Refusal> {
        let strings = Some(wanted.strings.parse()?);
        let (view, labels, spelling) = (None, wanted.labels, self.spelling());
        Ok(PairPlacing { tuning, frets, strings, view, labels, spelling })
    }

    fn idea_on(
        &self,
        wanted: &args::Sheet,
        chords: &str,
        neck: Neck,
        at: &PairPlacing,
        line: LinesAnswer,
    ) -> Result<Idea, Refusal> {
        if is_one_chord(chords) {
            return Idea::of_pair(neck, &self.pair_over_chord(wanted, chords)?, at, Some(line));
        }
        Ok(Idea {
            heading: sheet::line_heading(&line),
            notes: Vec::new(),
            neck,
            picture: None,
            position: None,
            shapes: IdeaShapes::Nothing,
            line: Some(line),
            keys: None,
            how: InKey::Here,
        })
    }

    fn pair_over_chord(&self, wanted: &args::Sheet, chord: &str) -> Result<PairOver, Refusal> {
        let harmony = self.harmony(Some(chord), wanted.made_of.scale.as_deref())?;
        let text = wanted.made_of.pair.as_deref().unwrap_or("1").trim();
        if let Some(triads) = two_triads(text) {
            let pair = answer::pair_over(&harmony, triads?, self.spelling())?;
            return Ok(PairOver { harmony, pair });
        }
        let families = fretloom_theory::Families::default();
        let pairs = answer::pairs_over(&harmony, &families, &Wishes::default(), self.spelling());
        let index = text.parse().ok().and_then(|rank: usize| rank.checked_sub(1));
        let pair = index.and_then(|index| pairs.pairs.get(index).cloned());
        let count = pairs.pairs.len();
        match pair {
            Some(pair) => Ok(PairOver { harmony, pair }),
            None => Err(Refusal::UnknownPair { text: text.to_owned(), count }),
        }
    }

    fn sheet_question(
        &self,
        wanted: &args::Sheet,
        chords: &str,
        frets: FretRange,
    ) -> Result<LineQuestion, Refusal> {
        let one = is_one_chord(chords);
        let pair = match one {
            true => Some(format!("{:#}", self.pair_over_chord(wanted, chords)?.pair.name())),
            false => wanted.made_of.pair.clone(),
        };
        let asked = AskedChords {
            text: chords,
            meter: wanted.made_of.meter.parse::<Meter>()?,
            bars: match &wanted.bars {
                Some(text) => Some(bars(text)?),
                None if one => Some(2),
                None => None,
            },
            scales: wanted.made_of.scale.as_deref(),
            pairs: pair.as_deref(),
            spelling: self.spelling(),
            own: self.own_scales(),
        };
        let region = Region::default().within(frets);
        Ok(LineQuestion {
            style: if one { LineStyle::Exercise } else { LineStyle::Music },
            tempo: tempo(&wanted.tempo)?,
            pattern: self.pattern_of(&wanted.made_of)?,
            rhythm: args::read::<Rhythm>(wanted.made_of.rhythm.as_deref())?,
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

/// The files for each reader: one, or one for each keeper.
fn files_of(
    wanted: &args::Sheet,
    readers: &[Reader],
) -> Result<Vec<(PathBuf, SheetFile)>, Refusal> {
    let asked = [(&wanted.files.pdf, PageFileKind::Pdf), (&wanted.files.svg, PageFileKind::Svg)];
    let mut named = Vec::new();
    for (path, kind) in asked.into_iter().filter_map(|(path, kind)| Some((path.as_ref()?, kind))) {
        let name = path.to_string_lossy();
        if readers.len() > 1 && !name.contains(READER) {
            return Err(Refusal::OneFile { name: name.into_owned() });
        }
        let is_of_each = name.contains(KEEPER) && !wanted.keeper.is_empty();
        if wanted.keeper.len() > 1 && kind == PageFileKind::Svg && !is_of_each {
            return Err(Refusal::OneSvg { name: name.into_owned() });
        }
        for reader in 0..readers.len().max(1) {
            let path = path_for(path, READER, readers.get(reader).map(Reader::in_file_name));
            if is_of_each {
                named.extend(wanted.keeper.iter().zip(0..).map(|(id, sheet)| {
                    let path = path_for(&path, KEEPER, Some(id.trim().to_owned()));
                    (path, SheetFile { kind, reader, sheet: Some(sheet) })
                }));
            } else {
                named.push((path, SheetFile { kind, reader, sheet: None }));
            }
        }
    }
    Ok(named)
}

fn path_for(path: &Path, word: &str, name: Option<String>) -> PathBuf {
    match (path.to_str(), name) {
        (Some(text), Some(name)) => PathBuf::from(text.replace(word, &name)),
        _ => path.to_owned(),
    }
}
