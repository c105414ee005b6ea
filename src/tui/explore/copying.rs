//! What is copied: the neck as text, the shape in hand as a block of tablature.

use fretloom_fretboard::FretRange;

use super::Explore;
use crate::export;
use crate::glyphs::to_ascii;
use crate::picture::Tab;
use crate::tui::clipboard::Clip;
use crate::tui::runtime::Effect;

impl Explore {
    /// Copies the whole neck with what is shown on it.
    pub(super) fn copy_neck(&mut self) -> Vec<Effect> {
        let text = format!("{}{}", self.copied_title(), self.neck_as_text());
        self.copy(text, "the neck")
    }

    /// Copies the shape in hand.
    pub(super) fn copy_shape(&mut self) -> Vec<Effect> {
        let Some(shape) = self.shape_in_hand() else {
            self.notice = Some("no shape is in hand".to_owned());
            return Vec::new();
        };
        let words = self.shape_line("position").to_string();
        let title = self.copied_title();
        let tab = export::text::shape_tab(&Tab::of_shape(self.neck(), &shape));
        let text = format!("{}\n{title}{tab}", words.trim());
        self.copy(text, "the shape in hand")
    }

    fn copy(&mut self, text: String, what: &str) -> Vec<Effect> {
        let text = if self.ascii { to_ascii(&text) } else { text };
        let lines = text.lines().count();
        let Some(clip) = Clip::new(text) else {
            let longest = Clip::LONGEST;
            self.notice =
                Some(format!("{what} is longer than the {longest} bytes that are copied"));
            return Vec::new();
        };
        self.notice = Some(format!("copied {what}, {lines} lines"));
        vec![Effect::Copy(clip)]
    }

    /// `Dm7 · D Dorian · [F] & (G) · E2 A2 D3 G3 B3 E4 · capo 2, frets from the nut`
    fn copied_title(&self) -> String {
        let mut words = vec![self.chosen.chord.read.chord.to_string()];
        words.push(self.shown.pairs.harmony.scale().scale().to_string());
        words.extend(
            self.pair().map(|pair| format!("[{}] & ({})", pair.first.name, pair.second.name)),
        );
        let tuning = self.neck().tuning();
        words.push(tuning.to_string());
        let capo = tuning.capo().fret();
        if !capo.is_open() {
            words.push(format!("capo {}, frets from the nut", capo.number()));
        }
        words.join(" · ") + "\n"
    }

    fn neck_as_text(&self) -> String {
        export::text::neck(&self.picture().within(FretRange::WHOLE_NECK))
    }
}
