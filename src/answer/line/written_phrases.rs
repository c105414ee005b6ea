//! The phrases of a line as a player writes them, laid over its chords.

use fretloom_theory::{
    AskedTarget, AtChange, Begin, FreeNotes, NotesFrom, Quarters, ReadError, WrittenPhrase,
};

use super::bar_beat::BarBeat;
use super::phrase_question::PhraseQuestion;
use super::question::LineQuestion;
use super::start::line_start;
use super::target::LineTarget;
use super::through::through;
use crate::answer::refusal::Refusal;
use crate::library::AskedPhrase;

/// A phrase where it lies in a line.
struct Laid {
    name: String,
    /// Its target as it is typed.
    target: String,
    phrase: PhraseQuestion,
    /// What it does where the chord changes, if it goes on through changes.
    at_change: Option<AtChange>,
}

impl LineQuestion {
    /// The same line with these phrases instead of its own. One that is for a section comes with each
    /// of these; one that goes on through changes of chords comes in a part for each chord.
    ///
    /// # Errors
    ///
    /// Where a phrase says something that does not fit the line: its name and what it is.
    pub fn with_phrases(self, phrases: &[AskedPhrase]) -> Result<LineQuestion, Refusal> {
        let mut laid: Vec<Laid> = Vec::new();
        for (index, phrase) in phrases.iter().enumerate() {
            let full = phrase.in_full(phrases.get(..index).unwrap_or_default());
            laid.extend(self.laid(&full).map_err(|refusal| in_phrase(&phrase.name, refusal))?);
        }
        for one in &laid {
            self.check_next(one, &laid).map_err(|refusal| in_phrase(&one.name, refusal))?;
        }
        laid.sort_by_key(|one| one.phrase.written.from);
        let begins: Vec<Quarters> = laid.iter().map(|one| one.phrase.written.from).collect();
        let ends = begins.iter().skip(1).copied().chain([self.chords.end()]);
        let parts = laid.into_iter().zip(ends).flat_map(|(one, next)| self.in_parts(one, next));
        Ok(LineQuestion { phrases: parts.collect(), ..self })
    }

    /// A phrase in its parts, if it goes on through changes; the next one begins then.
    fn in_parts(&self, laid: Laid, next: Quarters) -> Vec<PhraseQuestion> {
        let Laid { phrase, at_change, .. } = laid;
        let Some(at_change) = at_change else { return vec![phrase] };
        let end = phrase.written.to.unwrap_or(next);
        let parts = through(&self.chords, &phrase.written, end, at_change);
        parts.into_iter().map(|written| PhraseQuestion { written, ..phrase.clone() }).collect()
    }

    /// A phrase as often as it comes.
    fn laid(&self, asked: &AskedPhrase) -> Result<Vec<Laid>, Refusal> {
        let target = asked.target.as_deref().map(str::parse::<LineTarget>).transpose()?;
        let target = target.map(|target| self.asked(&target)).transpose()?;
        let laid = |(from, to): (Quarters, Option<Quarters>), target, at_change| {
            let written = written(asked, from, to, target)?;
            let (name, area) = (asked.name.clone(), asked.area);
            let phrase = PhraseQuestion { name: name.clone(), written, area };
            let target = asked.target.clone().unwrap_or_default();
            Ok(Laid { name, target, phrase, at_change })
        };
        match asked.section() {
            Some(name) => {
                let at_change = asked.at_change.unwrap_or(AtChange::RunsOn);
                let spans = self.section(name, asked, target)?;
                let with_target = spans.into_iter().map(|(from, until)| {
                    let target = target.filter(|target| from < target.at && target.at <= until);
                    laid((from, Some(until)), target, Some(at_change))
                });
                with_target.collect()
            }
            None => {
                let from = self.moment_of(&asked.from)?;
                let to = asked.to.as_deref().map(|to| self.moment_of(to)).transpose()?;
                if let Some(to) = to.filter(|to| *to <= from) {
                    return Err(Refusal::EmptyPhrase { from, to });
                }
                Ok(vec![laid((from, to), target, asked.at_change)?])
            }
        }
    }

    /// When a section comes, each time until it ends.
    fn section(
        &self,
        name: &str,
        asked: &AskedPhrase,
        target: Option<AskedTarget>,
    ) -> Result<Vec<(Quarters, Quarters)>, Refusal> {
        if asked.to.is_some() {
            return Err(Refusal::SectionEnds { section: name.to_owned() });
        }
        let sections = self.chords.sections();
        let of_name = sections.iter().filter(|section| &*section.name == name);
        let spans: Vec<(Quarters, Quarters)> =
            of_name.map(|section| (section.from, section.until)).collect();
        if spans.is_empty() {
            let mut known: Vec<String> = Vec::new();
            for section in sections.iter().map(|section| section.name.to_string()) {
                if !known.contains(&section) {
                    known.push(section);
                }
            }
            return Err(Refusal::NoSection { section: name.to_owned(), known });
        }
        let lies_in = |at: Quarters| spans.iter().any(|(from, until)| *from < at && at <= *until);
        match target.filter(|target| !lies_in(target.at)) {
            Some(_) => Err(Refusal::TargetBesideSection {
                target: asked.target.clone().unwrap_or_default(),
                section: name.to_owned(),
            }),
            None => Ok(spans),
        }
    }

    fn moment_of(&self, text: &str) -> Result<Quarters, Refusal> {
        let typed = text.parse::<BarBeat>()?;
        let outside =
            || Refusal::MomentOutside { moment: typed.to_string(), bars: self.chords.bar_count() };
        self.chords.moment(typed).ok_or_else(outside)
    }

    /// Does a phrase land before the next one begins? What begins ends all that sounds.
    fn check_next(&self, laid: &Laid, all: &[Laid]) -> Result<(), Refusal> {
        let WrittenPhrase { from, target, .. } = laid.phrase.written;
        let later = all.iter().map(|other| other.phrase.written.from).filter(|other| *other > from);
        let covered = later.min().filter(|next| target.is_some_and(|it| it.at >= *next));
        let Some(next) = covered else { return Ok(()) };
        let next = self.chords.bar_beat(next).map(|next| next.to_string()).unwrap_or_default();
        Err(Refusal::TargetTooLate { target: laid.target.clone(), next })
    }
}

fn in_phrase(name: &str, refusal: Refusal) -> Refusal {
    Refusal::InPhrase { phrase: name.to_owned(), refusal: Box::new(refusal) }
}

/// What a phrase plays over a stretch of time.
fn written(
    phrase: &AskedPhrase,
    from: Quarters,
    to: Option<Quarters>,
    target: Option<AskedTarget>,
) -> Result<WrittenPhrase, ReadError> {
    let notes = phrase.notes.as_deref().map(str::parse::<FreeNotes>).transpose()?;
    Ok(WrittenPhrase {
        from,
        to,
        begin: if phrase.runs_on { Begin::RunsOn } else { Begin::Again },
        pair: phrase.pair,
        pattern: phrase.pattern.clone(),
        is_wide: phrase.is_wide,
        rhythm: phrase.rhythm.clone(),
        travel: phrase.travel,
        start: phrase.start.as_deref().map(line_start).transpose()?,
        target,
        ending: None,
        notes: notes.map_or(NotesFrom::Pair, NotesFrom::Entered),
        reach: None,
    })
}
