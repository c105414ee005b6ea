//! What a line may use of a neck, found once for all that is asked there.

use std::sync::Arc;

use fretloom_fretboard::{FingeringQuery, LineNote, Neck};
use fretloom_theory::{LineQuery, Phrase, PhraseNote, Reach, TriadPair};

use super::area::{Area, LineArea};
use super::question::LineQuestion;
use crate::answer::refusal::Refusal;
use crate::library::PhraseArea;

/// What a line may use of a neck over its chords. To look for it takes longer than to make a line
/// where a view is searched for, so whoever asks again and again keeps it.
///
/// It is [good for](LineGround::is_for) every question with the same pairs and the same areas, on the
/// same neck.
#[derive(Debug)]
pub struct LineGround {
    area: Arc<Area>,
    asked: LineArea,
    pairs: Vec<TriadPair>,
    /// One for each phrase that is asked for.
    own: Vec<Option<Own>>,
    reaches: Vec<Option<Reach>>,
}

/// The part of the neck that a phrase has to itself.
#[derive(Clone, Debug)]
struct Own {
    asked: PhraseArea,
    pairs: Vec<TriadPair>,
    area: Arc<Area>,
}

impl LineGround {
    /// What this question may use.
    ///
    /// # Errors
    ///
    /// Where the neck does not have what is asked for.
    pub fn of(neck: &Neck, question: &LineQuestion) -> Result<LineGround, Refusal> {
        LineGround::after(None, neck, question)
    }

    /// The same, where another question was asked before on the same neck: what both may use is not
    /// looked for again.
    ///
    /// # Errors
    ///
    /// Where the neck does not have what is asked for.
    pub fn after(
        before: Option<&LineGround>,
        neck: &Neck,
        question: &LineQuestion,
    ) -> Result<LineGround, Refusal> {
        let (asked, pairs) = (question.area, question.pairs());
        let before = before.filter(|before| before.asked == asked);
        let area = match before.filter(|before| before.pairs == pairs) {
            Some(before) => Arc::clone(&before.area),
            None => Arc::new(asked.on(neck, &pairs)?),
        };
        let mut own: Vec<Option<Own>> = Vec::new();
        for index in 0..question.phrases.len() {
            let known = || before.iter().flat_map(|before| &before.own).chain(&own).flatten();
            let found = Own::of(neck, question, index, known())?;
            own.push(found);
        }
        let reaches = own.iter().map(|own| Some(own.as_ref()?.area.reach())).collect();
        Ok(LineGround { area, asked, pairs, own, reaches })
    }

    /// Does it have what this question may use, on the neck that it is of?
    #[must_use]
    pub fn is_for(&self, question: &LineQuestion) -> bool {
        let is_own = |(index, own): (usize, &Option<Own>)| {
            let asked = question.own_area(index);
            own.as_ref().map(|own| (own.asked, &own.pairs))
                == asked.as_ref().map(|(area, pairs)| (*area, pairs))
        };
        self.asked == question.area
            && self.pairs == question.pairs()
            && self.own.len() == question.phrases.len()
            && self.own.iter().enumerate().all(is_own)
    }

    /// What a phrase may use: what it has to itself, or else what the line may.
    pub(super) fn of_phrase(&self, index: usize) -> &Area {
        let own = self.own.get(index).and_then(Option::as_ref);
        own.map_or(&self.area, |own| &own.area)
    }

    /// The notes of the line, of those phrases that have none to themselves.
    pub(super) fn reach(&self) -> Reach {
        self.area.reach()
    }

    /// What theory is asked for, on this ground.
    pub(super) fn query(&self, question: &LineQuestion) -> Result<LineQuery, Refusal> {
        question.query(self.of_phrase(0).middle(), &self.reaches)
    }

    /// The question for fingers.
    pub(super) fn fingering(&self) -> FingeringQuery {
        if self.own.iter().all(Option::is_none) {
            return self.area.query();
        }
        // Each note has its part of the neck, and the hand goes from one to another.
        FingeringQuery::default().for_hand(self.asked.hand)
    }

    /// A note in the part of the neck in which its phrase lies.
    pub(super) fn within(&self, line_note: LineNote, note: &PhraseNote) -> LineNote {
        line_note.within(self.of_phrase(note.phrase).of_note(note.pitch, note.role))
    }

    /// May a note of these phrases be there? What a phrase lands on may be any note of its place.
    pub(super) fn holds(&self, made_of: &[Phrase], note: &PhraseNote) -> bool {
        let area = self.of_phrase(note.phrase);
        let lands = made_of.get(note.phrase).is_some_and(|it| it.lands_at(note.onset).is_some());
        area.holds(note.pitch, note.role) || (lands && area.holds_free(note.pitch))
    }
}

impl Own {
    /// That of the phrase with this index, if it has one; one of those that are known, where that is
    /// the same.
    fn of<'a>(
        neck: &Neck,
        question: &LineQuestion,
        index: usize,
        mut known: impl Iterator<Item = &'a Own>,
    ) -> Result<Option<Own>, Refusal> {
        let Some((asked, pairs)) = question.own_area(index) else { return Ok(None) };
        if let Some(known) = known.find(|own| own.asked == asked && own.pairs == pairs) {
            return Ok(Some(known.clone()));
        }
        let area = question.area.of_phrase(&asked, neck).and_then(|area| area.on(neck, &pairs));
        let area = area.map_err(|refusal| question.in_phrase(index, refusal))?;
        Ok(Some(Own { asked, pairs, area: Arc::new(area) }))
    }
}
