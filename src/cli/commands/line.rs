//! `line`: from chords to a line that is played.

use std::path::Path;

use fretloom_fretboard::{FretRange, Neck};
use fretloom_theory::{AtChange, LineStyle, Meter, Pattern, ReadError, Rhythm, Tempo, Travel};

use crate::answer::{
    AskedChords, KeyFingering, LineArea, LineChords, LineQuestion, LineTarget, LinesAnswer,
    Refusal, Slurring, ViewQuestion, line_start,
};
use crate::cli::answered::Answered;
use crate::cli::args;
use crate::cli::call::Call;
use crate::cli::files;
use crate::cli::line_files::LineFiles;
use crate::cli::queries::{line_region, view_of};
use crate::cli::text;
use crate::library::{AskedPhrase, phrases_of_text};
use crate::picture::TabLook;
use crate::sheet::{self, LineLook};
use crate::sound::Rounds;
use crate::words::nearest;

impl Call<'_> {
    pub(super) fn line(&self, wanted: &args::Line) -> Result<Answered, Refusal> {
        let files = LineFiles::of(&wanted.files)?;
        let (neck, tuning, frets) = self.neck_within(wanted.frets.as_deref())?;
        let question = self.line_question(wanted, &neck, frets)?;
        let answer = match &wanted.keys {
            None => LinesAnswer::in_one_key(&neck, tuning, &question)?,
            Some(cycle) => {
                let fingering = if wanted.grip { KeyFingering::Grip } else { KeyFingering::Anew };
                LinesAnswer::in_keys(&neck, tuning, &question, cycle.parse()?, fingering)?
            }
        };
        let sound = wanted.sound.choices();
        let look = LineLook { sentences: wanted.sentences, ..LineLook::WHOLE };
        let pages = |paper| sheet::line(&answer, look, self.spelling(), paper);
        files.write(&sound, |swing, click| answer.written(swing, click), &pages)?;
        let look =
            TabLook { below: wanted.below.into(), triads: wanted.triads, ..TabLook::default() };
        let text = self
            .printed(&answer, |answer| text::line(answer, &look, self.spelling()) + &files.told());
        let style = sound.style(neck.tuning(), Rounds::Once);
        let heard = wanted.play.then(|| answer.performance(&style)).flatten();
        Ok(Answered::heard(text, heard.as_ref(), sound.mix()))
    }

    fn line_question(
        &self,
        wanted: &args::Line,
        neck: &Neck,
        frets: FretRange,
    ) -> Result<LineQuestion, Refusal> {
        let (chords, tempo) = self.line_chords(wanted, neck)?;
        let read_start = |text: &String| line_start(text);
        let targets = wanted.target.iter().map(|text| text.parse::<LineTarget>());
        let question = LineQuestion {
            style: if wanted.exercise { LineStyle::Exercise } else { LineStyle::Music },
            tempo,
            pattern: self.pattern_of(&wanted.made_of)?,
            rhythm: args::read::<Rhythm>(wanted.made_of.rhythm.as_deref())?,
            travel: travel(wanted),
            start: wanted.start.as_ref().map(read_start).transpose()?,
            at_change: wanted.at_change.map_or(AtChange::RunsOn, AtChange::from),
            targets: targets.collect::<Result<_, _>>()?,
            area: area(wanted, neck, frets)?,
            picking: wanted.picking.into(),
            slurring: if wanted.slurs { Slurring::IntoTheBeat } else { Slurring::Nothing },
            ways: wanted.ways.into(),
            ..LineQuestion::over(chords)
        };
        match &wanted.phrases {
            Some(file) => question.with_phrases(&self.phrases(file)?),
            None => Ok(question),
        }
    }

    /// The chords that are typed, or those of a chart, and how fast they go by.
    fn line_chords(
        &self,
        wanted: &args::Line,
        neck: &Neck,
    ) -> Result<(LineChords, Tempo), Refusal> {
        let typed = wanted.tempo.as_deref().map(tempo).transpose()?;
        if let Some(file) = &wanted.chart {
            let changes = self.planned(neck, &self.chart_question(self.chart(file)?))?;
            let chords = LineChords::of_changes(&changes, changes.best()).short_enough()?;
            let tempo = typed.or(changes.chart.tempo).unwrap_or(Tempo::USUAL);
            return Ok((chords, tempo));
        }
        let asked = AskedChords {
            text: wanted.chords.as_deref().unwrap_or_default(),
            meter: wanted.made_of.meter.parse::<Meter>()?,
            bars: wanted.bars.as_deref().map(bars).transpose()?,
            scales: wanted.made_of.scale.as_deref(),
            pairs: wanted.made_of.pair.as_deref(),
            spelling: self.spelling(),
            own: self.own_scales(),
        };
        Ok((LineChords::read(&asked)?, typed.unwrap_or(Tempo::USUAL)))
    }

    /// The phrases of a file.
    fn phrases(&self, file: &Path) -> Result<Vec<AskedPhrase>, Refusal> {
        let text = files::list(file)?;
        let read = phrases_of_text(&file.display().to_string(), &text, self.patterns());
        read.map_err(|problems| Refusal::Phrases { problems })
    }

    /// The pattern that is asked for, if one is.
    pub(super) fn pattern_of(
        &self,
        made_of: &args::MadeOfArgs,
    ) -> Result<Option<Pattern>, Refusal> {
        made_of.pattern.as_deref().map(|text| self.pattern(text)).transpose()
    }

    /// A pattern by its name, or by its figures.
    fn pattern(&self, text: &str) -> Result<Pattern, Refusal> {
        let patterns = self.patterns();
        if let Some(known) = patterns.by_id_or_name(text) {
            return Ok(known.figures.clone());
        }
        let read = text.parse::<Pattern>().map_err(|error| {
            let ids = patterns.patterns().iter().map(|pattern| pattern.id.as_str());
            match nearest(text, ids).filter(|_| error.hint().is_none()) {
                Some(id) => error.with_hint(format!("or a pattern's name: the nearest is {id}")),
                None => error,
            }
        });
        Ok(read?)
    }
}

/// Where on the neck, by view or by strings and frets.
fn area(wanted: &args::Line, neck: &Neck, frets: FretRange) -> Result<LineArea, Refusal> {
    let hand = wanted.view.hand.hand();
    let strings = args::strings(wanted.strings.as_deref())?;
    let view = view_of(&wanted.view, strings, neck, frets)?;
    let choice = wanted.view.choice.unwrap_or(1);
    Ok(LineArea {
        region: line_region(wanted, strings, frets),
        view: view.map(|view| ViewQuestion::new(view, hand, frets, choice)),
        hand,
    })
}

fn travel(wanted: &args::Line) -> Option<Travel> {
    let linked = wanted.link.map(|_| args::TravelArg::Linked);
    wanted.travel.or(linked).map(|travel| travel.travel(wanted.link))
}

pub(super) fn bars(text: &str) -> Result<u32, ReadError> {
    let read = text.trim().parse().ok();
    let read = read.filter(|bars| (1..=LineChords::MOST_BARS).contains(bars));
    let expected = format!("a number from 1 to {}", LineChords::MOST_BARS);
    read.ok_or_else(|| ReadError::whole("number of bars", text, expected))
}

pub(super) fn tempo(text: &str) -> Result<Tempo, ReadError> {
    let read = text.trim().parse().ok().filter(|a_minute| Tempo::ASKED.contains(a_minute));
    let (low, high) = Tempo::ASKED.into_inner();
    let expected = format!("quarter notes a minute, {low} to {high}, as in 120");
    read.and_then(Tempo::nearest).ok_or_else(|| ReadError::whole("tempo", text, expected))
}
