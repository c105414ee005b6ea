//! A line, note by note, over the chords that it was kept over.

use fretloom_fretboard::Neck;
use fretloom_theory::{LineStyle, Meter, Quarters, Tempo};

use super::Opened;
use super::opening::Opening;
use crate::answer::line::{
    AskedChords, InKey, KeyCycle, LineAnswer, LineArea, LineChords, LineQuestion,
};
use crate::answer::refusal::Refusal;
use crate::store::{KeptNote, LineSession};

impl Opened<'_> {
    /// The line, on its own neck as it was kept, on another one fingered anew.
    pub(super) fn line(
        &self,
        notes: &[KeptNote],
        opening: &Opening<'_>,
    ) -> Result<(LineAnswer, InKey), Refusal> {
        let session = self.session.line.clone().unwrap_or_default();
        let tempo = session.tempo.and_then(|tempo| Tempo::new(u64::from(tempo), 1));
        let question = LineQuestion {
            style: LineStyle::Exercise,
            tempo: tempo.unwrap_or(Tempo::USUAL),
            area: LineArea::whole_neck(),
            ..LineQuestion::over(self.chords(&session, notes, opening)?)
        };
        let home = Neck::new(self.home.tuning.clone());
        let line = LineAnswer::of_kept(&home, self.home.clone(), &question, notes)?;
        match opening.on {
            None => Ok((line, InKey::Here)),
            Some(tuning) => line.moved_to(&self.neck, tuning).ok_or(Refusal::LineDoesNotFit),
        }
    }

    /// The chords below the line: what the screen had chosen for each, in the key in which it stood; where
    /// it was kept without a screen, or that means nothing any more, those that are told beside it.
    fn chords(
        &self,
        session: &LineSession,
        notes: &[KeptNote],
        opening: &Opening<'_>,
    ) -> Result<LineChords, Refusal> {
        let end = notes.iter().filter_map(|note| note.onset.checked_add(note.length)).max();
        let under = Under { session, end: end.unwrap_or_default(), opening };
        let of_each = |part: usize| {
            let each = session.each.iter();
            let parts = each.map(|words| words.split(';').nth(part).unwrap_or("").trim());
            (!session.each.is_empty()).then(|| parts.collect::<Vec<_>>().join(", "))
        };
        let (scales, pairs) = (of_each(1), of_each(2));
        if let Some(text) = &session.chords
            && let Ok(chords) = under.read(text, scales.as_deref(), pairs.as_deref())
        {
            let cycle = KeyCycle::Fourths.semitones_up();
            let key = session.key.and_then(|key| usize::try_from(key).ok()).unwrap_or_default();
            let up = cycle.get(key).copied().unwrap_or_default();
            return Ok(if up == 0 { chords } else { chords.up(up) });
        }
        let text = self.kept.chord.as_deref().unwrap_or_default();
        let (scale, pair) = (self.kept.scale.as_deref(), self.kept.pair.as_deref());
        under.read(text, scale, pair).or_else(|refused| {
            let less = under.read(text, None, pair).or_else(|_| under.read(text, None, None));
            less.map_err(|_| refused)
        })
    }
}

/// Chords that are to last as long as a line.
struct Under<'a> {
    session: &'a LineSession,
    /// When the line ends.
    end: Quarters,
    opening: &'a Opening<'a>,
}

impl Under<'_> {
    /// As many bars as are written, and as many as the line takes.
    fn read(
        &self,
        text: &str,
        scales: Option<&str>,
        pairs: Option<&str>,
    ) -> Result<LineChords, Refusal> {
        let meter = self.session.meter.as_ref().and_then(|meter| meter.parse().ok());
        let meter = meter.unwrap_or(Meter::COMMON);
        let (spelling, own) = (self.opening.spelling, self.opening.own);
        let read = |bars: Option<u32>| {
            LineChords::read(&AskedChords { text, meter, bars, scales, pairs, spelling, own })
        };
        let is_one = !text.trim().contains(['|', ' ']);
        let laid = read(self.session.bars.or(is_one.then_some(1)))?;
        let at = laid.bars().at(self.end);
        let needed = at.map_or(1, |at| at.index + u64::from(at.bar.from < self.end));
        let written = laid.bars().at(laid.end()).map_or(0, |at| at.index);
        if needed <= written {
            return Ok(laid);
        }
        read(Some(u32::try_from(needed).unwrap_or(LineChords::MOST_BARS)))
    }
}
