//! The instrument: its tuning with its capo, and the neck that follows from them.

use fretloom_fretboard::{Capo, Fret, Neck, Tuning};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::setup::Setup;
use super::state::Shared;
use crate::answer::{Refusal, TuningAnswer};
use crate::words::spaced;

/// No player puts a capo above the octave, where another one would make a new instrument.
const HIGHEST_CAPO: u8 = 12;

impl Shared {
    /// The neck of the instrument.
    pub(in crate::tui) fn neck(&self) -> &Neck {
        &self.neck
    }

    /// The tuning of the instrument, and where it comes from.
    pub(in crate::tui) fn tuning(&self) -> &TuningAnswer {
        &self.tuning
    }

    /// Sets everything up as it was once.
    pub(in crate::tui) fn restore(&mut self, setup: Setup) {
        let tuning = setup.tuning.clone();
        self.setup = setup;
        self.string(tuning);
    }

    /// Takes another tuning. The capo stays where it is, if it goes on the new instrument.
    pub(in crate::tui) fn take_tuning(&mut self, tuning: Tuning) {
        if !self.is_known(&tuning) {
            self.typed = Some(tuning.clone());
        }
        let capo = self.setup.tuning.capo();
        self.string(tuning.clone().with_capo(capo).unwrap_or(tuning));
    }

    /// Puts a capo on the instrument, or takes it off.
    ///
    /// # Errors
    ///
    /// Where the capo lies above the last fret, or on strings that are not there.
    pub(in crate::tui) fn put_capo(&mut self, capo: Capo) -> Result<(), Refusal> {
        let tuning = self.setup.tuning.clone().with_capo(capo).map_err(Refusal::Capo)?;
        self.setup.capo_strings = capo.strings();
        self.string(tuning);
        Ok(())
    }

    /// Moves the capo by some frets, off the nut or back onto it; a partial one stays partial.
    ///
    /// # Errors
    ///
    /// Where a pitch above all that there are forbids it.
    pub(in crate::tui) fn move_capo(&mut self, by: i8) -> Result<(), Refusal> {
        let tuning = &self.setup.tuning;
        let highest = HIGHEST_CAPO.min(tuning.last_fret().number());
        let fret = tuning.capo().fret().number().saturating_add_signed(by).min(highest);
        let Some(fret) = Fret::new(fret) else { return Ok(()) };
        let kept = self.setup.capo_strings;
        let strings = kept.filter(|set| set.is_on(tuning.string_count()));
        let moved = self.put_capo(match strings {
            Some(strings) => Capo::partial(fret, strings),
            None => Capo::full(fret),
        });
        self.setup.capo_strings = kept;
        moved
    }

    fn string(&mut self, tuning: Tuning) {
        if self.neck.tuning() != &tuning {
            self.neck = Neck::new(tuning.clone());
            self.tuning = TuningAnswer::of(&self.library.tunings, tuning.clone());
        }
        self.setup.tuning = tuning;
    }

    /// The tunings to choose from: the library's, and the one that was typed.
    pub(in crate::tui) fn tunings(&self) -> impl Iterator<Item = &Tuning> {
        let library = self.library.tunings.iter().map(|(tuning, _)| tuning);
        library.chain(&self.typed)
    }

    /// What the instrument is called and tuned to, as much of it as there are columns for.
    fn instrument_in_words(&self, room: u16) -> Option<String> {
        let tuning = self.neck.tuning();
        let notes = tuning.strings().map(|(_, string)| string.note().name());
        let short = format!("{} ", spaced(notes));
        // Where octaves were guessed, a typed tuning is told with them.
        let long = match (self.is_known(tuning), tuning.octaves_inferred()) {
            (true, _) => format!("{}  {short}", tuning.name()),
            (false, true) => format!("{tuning} (octaves inferred) "),
            (false, false) => format!("as typed  {short}"),
        };
        let fits = |text: &String| text.chars().count() <= usize::from(room);
        [long, short].into_iter().find(fits)
    }

    /// Draws the instrument at the right end of a row of which so many columns are used, as much of it
    /// as there is room for.
    pub(in crate::tui) fn draw_instrument(&self, area: Rect, used: u16, buffer: &mut Buffer) {
        let room = area.width.saturating_sub(used + 2);
        let Some(text) = self.instrument_in_words(room) else { return };
        let x = area.right().saturating_sub(text.chars().count() as u16);
        buffer.set_stringn(x, area.y, text, usize::from(room), self.theme.muted);
    }

    /// Is it one of the library's, and not a typed one?
    pub(in crate::tui) fn is_known(&self, tuning: &Tuning) -> bool {
        self.library.tunings.get(tuning.id()).is_some()
    }
}
