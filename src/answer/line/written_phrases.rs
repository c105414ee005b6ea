//! The phrases of a line as a player writes them, laid over its chords.

use fretloom_theory::{
    AskedTarget, AtChange, Begin, FreeNotes, NotesFrom, Quarters, ReadError, Timing, WrittenPhrase,
};

use super::bar_beat::BarBeat;
use super::phrase_question::PhraseQuestion;
use super::question::LineQuestion;
use super::start::line_start;
use super::target::LineTarget;
use super::through::through;
use crate::answer::phrase_refusal::PhraseRefusal;
use crate::answer::refusal::Refusal;
use crate::library::AskedPhrase;

/// A note to arrive at, and how it is typed.
#[derive(Clone)]
struct Aim {
    typed: String,
    target: AskedTarget,
}

/// A phrase where it lies in a line.
#[derive(Clone)]
struct Laid {
    name: String,
    /// When the whole of it begins, of which this may be a part.
    begins: Quarters,
    /// Its target as it is typed.
    target: String,
    phrase: PhraseQuestion,
    /// What it does where the chord changes, if it goes on through changes.
    at_change: Option<AtChange>,
}

impl Laid {
    /// The same as a part of the phrase with this index.
    fn of(self, asked: usize) -> Laid {
        Laid { phrase: PhraseQuestion { asked, ..self.phrase }, ..self }
    }
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
            let parts = self.laid(&full).map_err(|refusal| in_phrase(&phrase.name, refusal))?;
            laid.extend(parts.into_iter().map(|part| part.of(index)));
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

    /// A phrase as often as it comes, each time in a part for each of its targets.
    fn laid(&self, asked: &AskedPhrase) -> Result<Vec<Laid>, Refusal> {
        let targets = self.aims(asked)?;
        match asked.section() {
            Some(name) => {
                let at_change = Some(asked.at_change.unwrap_or(AtChange::RunsOn));
                let comings = self.section(name, asked, &targets)?.into_iter();
                let laid = comings.map(|(from, until)| {
                    let lies_here = |aim: &&Aim| from < aim.target.at && aim.target.at <= until;
                    let targets: Vec<Aim> = targets.iter().filter(lies_here).cloned().collect();
                    self.aiming(asked, (from, Some(until)), &targets, at_change)
                });
                Ok(laid.collect::<Result<Vec<_>, _>>()?.concat())
            }
            None => {
                let from = self.moment_of(&asked.from)?;
                let to = asked.to.as_deref().map(|to| self.moment_of(to)).transpose()?;
                if let Some(to) = to.filter(|to| *to <= from) {
                    return Err(PhraseRefusal::EmptyPhrase { from, to }.into());
                }
                self.aiming(asked, (from, to), &targets, asked.at_change)
            }
        }
    }

    /// What a phrase aims at, in order of time.
    fn aims(&self, asked: &AskedPhrase) -> Result<Vec<Aim>, Refusal> {
        let words = asked.target.as_deref().unwrap_or_default().split_whitespace();
        let aim = |word: &str| {
            let target = self.asked(&word.parse::<LineTarget>()?)?;
            Ok(Aim { typed: word.to_owned(), target })
        };
        let mut aims: Vec<Aim> = words.map(aim).collect::<Result<_, Refusal>>()?;
        aims.sort_by_key(|aim| aim.target.at);
        // Notes that are entered lead where they lead, and come once.
        let passed = if asked.notes.is_some() { aims.len().saturating_sub(1) } else { 0 };
        Ok(aims.split_off(passed))
    }

    /// A phrase that goes through what it aims at: a part up to each, which sounds for one value of the
    /// rhythm, then the pattern begins again. The last one ends it.
    fn aiming(
        &self,
        asked: &AskedPhrase,
        (from, to): (Quarters, Option<Quarters>),
        aims: &[Aim],
        at_change: Option<AtChange>,
    ) -> Result<Vec<Laid>, Refusal> {
        let mut parts = vec![laid(asked, (from, to), at_change)?];
        for (index, aim) in aims.iter().enumerate() {
            if index > 0 {
                let went_on =
                    self.goes_on(asked, aims.get(index - 1)).filter(|at| *at < aim.target.at);
                let too_soon = || PhraseRefusal::TargetTooSoon { target: aim.typed.clone() };
                let went_on = went_on.ok_or_else(too_soon)?;
                let before = parts.last_mut().map(|part| &mut part.phrase.written);
                before.into_iter().for_each(|before| before.to = Some(went_on));
                let part = laid(asked, (went_on, to), at_change)?;
                let mut part = Laid { begins: from, ..part };
                (part.phrase.written.begin, part.phrase.written.start) = (Begin::Again, None);
                parts.push(part);
            }
            if let Some(part) = parts.last_mut() {
                (part.target, part.phrase.written.target) = (aim.typed.clone(), Some(aim.target));
            }
        }
        Ok(parts)
    }

    /// When a phrase goes on after what it aims at.
    fn goes_on(&self, asked: &AskedPhrase, aim: Option<&Aim>) -> Option<Quarters> {
        let rhythm = asked.rhythm.as_ref().or(self.rhythm.as_ref());
        let value = rhythm.and_then(|rhythm| rhythm.values().next());
        let AskedTarget { at, timing, .. } = aim?.target;
        let late = match timing {
            Timing::Late(by) => by,
            Timing::OnTime | Timing::Early(_) => Quarters::ZERO,
        };
        at.checked_add(late)?.checked_add(value.map_or(Quarters::EIGHTH, |value| value.length))
    }

    /// When a section comes, each time until it ends.
    fn section(
        &self,
        name: &str,
        asked: &AskedPhrase,
        aims: &[Aim],
    ) -> Result<Vec<(Quarters, Quarters)>, Refusal> {
        if asked.to.is_some() {
            return Err(PhraseRefusal::SectionEnds { section: name.to_owned() }.into());
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
            return Err(PhraseRefusal::NoSection { section: name.to_owned(), known }.into());
        }
        let lies_in = |at: Quarters| spans.iter().any(|(from, until)| *from < at && at <= *until);
        match aims.iter().find(|aim| !lies_in(aim.target.at)) {
            Some(aim) => Err(PhraseRefusal::TargetBesideSection {
                target: aim.typed.clone(),
                section: name.to_owned(),
            }
            .into()),
            None => Ok(spans),
        }
    }

    fn moment_of(&self, text: &str) -> Result<Quarters, Refusal> {
        let typed = text.parse::<BarBeat>()?;
        let outside = || PhraseRefusal::MomentOutside {
            moment: typed.to_string(),
            bars: self.chords.bar_count(),
        };
        Ok(self.chords.moment(typed).ok_or_else(outside)?)
    }

    /// Does a phrase land before the next one begins? What begins ends all that sounds.
    fn check_next(&self, laid: &Laid, all: &[Laid]) -> Result<(), Refusal> {
        let WrittenPhrase { target, .. } = laid.phrase.written;
        let others = all.iter().filter(|other| other.phrase.asked != laid.phrase.asked);
        let later = others.map(|other| other.begins).filter(|other| *other > laid.begins);
        let covered = later.min().filter(|next| target.is_some_and(|it| it.at >= *next));
        let Some(next) = covered else { return Ok(()) };
        let next = self.chords.bar_beat(next).map(|next| next.to_string()).unwrap_or_default();
        Err(PhraseRefusal::TargetTooLate { target: laid.target.clone(), next }.into())
    }
}

fn in_phrase(name: &str, refusal: Refusal) -> Refusal {
    Refusal::InPhrase { phrase: name.to_owned(), refusal: Box::new(refusal) }
}

/// A phrase over a stretch of time, which aims at nothing yet.
fn laid(
    asked: &AskedPhrase,
    (from, to): (Quarters, Option<Quarters>),
    at_change: Option<AtChange>,
) -> Result<Laid, Refusal> {
    let (name, written) = (asked.name.clone(), written(asked, from, to)?);
    let phrase = PhraseQuestion { name: name.clone(), asked: 0, written, area: asked.area };
    Ok(Laid { name, begins: from, target: String::new(), phrase, at_change })
}

/// What a phrase plays over a stretch of time.
fn written(
    phrase: &AskedPhrase,
    from: Quarters,
    to: Option<Quarters>,
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
        target: None,
        ending: None,
        notes: notes.map_or(NotesFrom::Pair, NotesFrom::Entered),
        reach: None,
    })
}
