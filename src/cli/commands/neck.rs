//! `neck`: where a pair lies, drawn.

use fretloom_fretboard::{FretRange, Neck};

use super::two_triads::two_triads;
use crate::answer::{self, Harmony, NeckAnswer, PairAnswer, Refusal, ViewQuestion};
use crate::cli::args::{self, Wanted};
use crate::cli::call::Call;
use crate::cli::page_files::PageFiles;
use crate::cli::queries::view_of;
use crate::cli::text;
use crate::picture::{NeckPicture, Top};
use crate::sheet::{self, Heading};

impl Call<'_> {
    pub(super) fn neck(&self, wanted: &args::Neck) -> Result<String, Refusal> {
        let files = PageFiles::of(&wanted.files)?;
        let harmony = self.harmony(wanted.chord.as_deref(), wanted.scale.as_deref())?;
        let pair = self.chosen_pair(&harmony, &wanted.pair, &wanted.wanted)?;
        let (neck, tuning, frets) = self.neck_within(wanted.frets.as_deref())?;
        let strings = args::strings(wanted.strings.as_deref())?;
        if let Some(view) = view_of(&wanted.view, strings, &neck, frets)? {
            let (hand, choice) = (wanted.view.hand.hand(), wanted.view.choice.unwrap_or(1));
            let asked = ViewQuestion::new(view, hand, frets, choice).ask(&neck, &pair)?;
            let answer = NeckAnswer::in_view(&neck, tuning, &pair, &asked);
            let picture = wanted.frets.is_some().then_some(frets);
            let turn = &|picture| turned(picture, wanted);
            let view = text::View {
                neck: &neck,
                harmony: &harmony,
                pair: &pair,
                asked: &asked,
                frets: picture,
                turn,
            };
            let shapes = asked.shapes(&neck, &pair);
            let heading = Heading::of_pair(&harmony, &pair, &answer.tuning);
            files.write(|paper| {
                let picture = text::view_picture(&answer, &view, wanted.labels);
                sheet::neck(&heading, &neck, &picture, wanted.labels, &shapes, paper)
            })?;
            return Ok(self.printed(&answer, |answer| {
                text::view(answer, &view, wanted.labels) + &files.told()
            }));
        }
        let answer = NeckAnswer::new(&neck, tuning, &pair, frets);
        let picture = picture(&neck, &answer, frets, wanted);
        let heading = Heading::of_pair(&harmony, &pair, &answer.tuning);
        files.write(|paper| sheet::neck(&heading, &neck, &picture, wanted.labels, &[], paper))?;
        Ok(self.printed(&answer, |answer| {
            text::neck(answer, &harmony, &pair, &picture) + &files.told()
        }))
    }

    /// The pair that is meant by its number in the list or by its two triads.
    pub(in crate::cli) fn chosen_pair(
        &self,
        harmony: &Harmony,
        pair: &str,
        wanted: &Wanted,
    ) -> Result<PairAnswer, Refusal> {
        let text = pair.trim();
        if let Some(triads) = two_triads(text) {
            return answer::pair_over(harmony, triads?, self.spelling());
        }
        let pairs = self.wanted_pairs(harmony, wanted)?.pairs;
        let count = pairs.len();
        let index = text.parse().ok().and_then(|rank: usize| rank.checked_sub(1));
        match index.and_then(|index| pairs.get(index)) {
            Some(pair) => Ok(pair.clone()),
            None if count == 0 => Err(Refusal::NothingToChoose { text: text.to_owned() }),
            None => Err(Refusal::UnknownPair { text: text.to_owned(), count }),
        }
    }
}

/// The neck as it is to be drawn.
fn picture(neck: &Neck, answer: &NeckAnswer, frets: FretRange, wanted: &args::Neck) -> NeckPicture {
    let picture = NeckPicture::new(neck, answer::marks(&answer.places, wanted.labels));
    turned(picture.within(frets), wanted)
}

/// The same picture for the player's hand and stringing.
fn turned(picture: NeckPicture, wanted: &args::Neck) -> NeckPicture {
    let top = if wanted.upside_down { Top::Last } else { Top::First };
    picture.with_fret_widths(wanted.fret_widths).for_hand(wanted.hand.handed()).with_top(top)
}
