//! `changes`: from a chart to its plan.

use fretloom_fretboard::{FretRange, Neck, Region};
use fretloom_theory::{ChartChoice, ClickBeats, OptionalChords, Swing, Tempo};

use crate::answer::{
    ChangesAnswer, ChangesQuestion, ChartMoment, CompedChanges, CompingAnswer, CompingQuestion,
    LineArea, LineChords, LineQuestion, LinesAnswer, PlanWishes, Refusal, TuningAnswer,
};
use crate::cli::answered::Answered;
use crate::cli::args::{self, Changes};
use crate::cli::call::Call;
use crate::cli::complain::complain;
use crate::cli::line_files::LineFiles;
use crate::cli::text;
use crate::library::ReadChart;
use crate::score_file::WrittenScore;
use crate::sheet;
use crate::sound::{Performance, PlayStyle, Rounds};

impl Call<'_> {
    pub(super) fn changes(&self, wanted: &Changes) -> Result<Answered, Refusal> {
        let files = LineFiles::of(&wanted.files)?;
        let (neck, tuning, frets) = self.neck_within(wanted.where_to.frets.as_deref())?;
        let chart = self.chart(&wanted.file)?;
        let question = self.changes_question(wanted, chart, frets)?;
        let changes = self.planned(&neck, &question)?;
        let played = self.played(wanted, &neck, &tuning, &changes, files.are_without_music())?;
        let sound = wanted.sound.choices();
        let pages = |paper| Ok(sheet::changes(&changes, &tuning, paper));
        files.write(&sound, |swing, click| played.written(swing, click), &pages)?;
        let style = sound.style(neck.tuning(), Rounds::Once);
        let heard = wanted.play.then(|| played.performance(&style)).flatten();
        let text = match played {
            Played::Comping(comping) => {
                let answer = CompedChanges { changes, comping: *comping };
                self.printed(&answer, |answer| {
                    text::comped_changes(answer, &neck, &tuning) + &files.told()
                })
            }
            Played::Line(_) | Played::Nothing => {
                self.printed(&changes, |changes| text::changes(changes, &tuning) + &files.told())
            }
        };
        Ok(Answered::heard(text, heard.as_ref(), sound.mix()))
    }

    /// What is to be written and heard of a chart: its comping where that is asked for, else its line.
    fn played(
        &self,
        wanted: &Changes,
        neck: &Neck,
        tuning: &TuningAnswer,
        changes: &ChangesAnswer,
        is_unwritten: bool,
    ) -> Result<Played, Refusal> {
        if is_unwritten && !wanted.play && !wanted.comping.comping {
            return Ok(Played::Nothing);
        }
        let chords = LineChords::of_changes(changes, changes.best()).short_enough()?;
        let tempo = changes.chart.tempo.unwrap_or(Tempo::USUAL);
        let (hand, tuning) = (wanted.where_to.hand.hand(), tuning.clone());
        if wanted.comping.comping {
            let question = CompingQuestion {
                tempo,
                strings: changes.region.and_then(|region| region.strings()),
                frets: args::read(wanted.where_to.frets.as_deref())?,
                area: wanted.comping.area,
                open_strings: !wanted.where_to.no_open,
                top: wanted.comping.top,
                ends: wanted.wishes.once,
                hand,
                ..CompingQuestion::over(chords)
            };
            let comping = CompingAnswer::new(neck, tuning, &question)?;
            return Ok(Played::Comping(Box::new(comping)));
        }
        let whole = match wanted.where_to.no_open {
            true => Region::WHOLE_NECK.without_open_strings(),
            false => Region::WHOLE_NECK,
        };
        let region = changes.region.unwrap_or(whole);
        let area = LineArea { region, hand, ..LineArea::whole_neck() };
        let question = LineQuestion { tempo, area, ..LineQuestion::over(chords) };
        let line = LinesAnswer::in_one_key(neck, tuning, &question)?;
        Ok(Played::Line(Box::new(line)))
    }

    /// The plan of a chart. What was settled and cannot hold is said on standard error.
    pub(super) fn planned(
        &self,
        neck: &Neck,
        question: &ChangesQuestion,
    ) -> Result<ChangesAnswer, Refusal> {
        let answer = ChangesAnswer::new(neck, question)?;
        answer.passed_over.iter().for_each(|choice| complain(&passed_over(choice)));
        Ok(answer)
    }

    /// What is asked of a chart of which nothing is wished.
    pub(super) fn chart_question(&self, read: ReadChart) -> ChangesQuestion {
        ChangesQuestion {
            melody: read.melody,
            own: self.own_scales().to_vec(),
            spelling: self.spelling(),
            ..ChangesQuestion::of(read.chart)
        }
    }

    fn changes_question(
        &self,
        wanted: &Changes,
        read: ReadChart,
        frets: FretRange,
    ) -> Result<ChangesQuestion, Refusal> {
        let wishes = &wanted.wishes;
        let mut question = ChangesQuestion {
            key: args::read(wanted.key.as_deref())?,
            optional: match wishes.optional {
                true => OptionalChords::Played,
                false => OptionalChords::LeftOut,
            },
            wishes: PlanWishes {
                kinds: wishes.kinds,
                states: wishes.states(),
                most_pairs: wishes.most_pairs.map(usize::from),
                contrasts_sections: wishes.contrast,
                ends: wishes.once,
                never: Vec::new(),
            },
            region: region(wanted, frets)?,
            hand: wanted.where_to.hand.hand(),
            plans: wanted.plans.into(),
            ..self.chart_question(read)
        };
        for settled in &wishes.settle {
            question = question.settling(settled, self.own_scales())?;
        }
        for never in &wishes.never {
            question = question.never(never.parse()?)?;
        }
        Ok(question)
    }
}

/// What is written and heard of a chart.
enum Played {
    Nothing,
    Line(Box<LinesAnswer>),
    Comping(Box<CompingAnswer>),
}

impl Played {
    fn written(&self, swing: Swing, click: ClickBeats) -> Option<WrittenScore> {
        match self {
            Played::Nothing => None,
            Played::Line(line) => line.written(swing, click),
            Played::Comping(comping) => Some(comping.written(swing, click)),
        }
    }

    fn performance(&self, style: &PlayStyle) -> Option<Performance> {
        match self {
            Played::Nothing => None,
            Played::Line(line) => line.performance(style),
            Played::Comping(comping) => Some(comping.performance(style)),
        }
    }
}

/// The part of the neck to which the hand is locked, where one is named.
fn region(wanted: &Changes, frets: FretRange) -> Result<Option<Region>, Refusal> {
    let strings = args::strings(wanted.strings.as_deref())?;
    if strings.is_none() && wanted.where_to.frets.is_none() {
        return Ok(None);
    }
    let region = Region::default().within(frets);
    let region = strings.map_or(region, |strings| region.on(strings));
    Ok(Some(match wanted.where_to.no_open {
        true => region.without_open_strings(),
        false => region,
    }))
}

fn passed_over(choice: &ChartChoice) -> String {
    let moment = ChartMoment { bar: choice.bar, beat: choice.beat };
    format!(
        "what is settled at {moment} is passed over: expected a beat at which a chord of the chart \
         sounds"
    )
}
