//! A question by ear with its answer.

use fretloom_theory::{Families, ScaleKind, Spelling, TriadPair};

use super::choice::{EarChoice, EarName, MOST, choices};
use crate::answer::harmony::Harmony;
use crate::answer::keepers::kept_pair;
use crate::answer::pairs::{LeftOut, PairAnswer, pair_over, pairs_over};
use crate::answer::wishes::Wishes;
use crate::practice::{Asking, Chance};
use crate::store::{Asked, Keeper, KeeperId, KeptThing, KeyAway, Verdict};

/// A pair that sounds over its chord, and what may be said of it.
#[derive(Clone, PartialEq, Debug)]
pub struct EarQuestion {
    /// The keeper of which it is asked.
    pub keeper: KeeperId,
    /// What is to be named.
    pub asked: Asked,
    /// The chord with its scale, or the scale by itself, in the key in which it is heard.
    pub harmony: Harmony,
    /// What may be answered, at least two things, of which no two sound the same.
    choices: Vec<EarChoice>,
    /// The place of the right one.
    right: usize,
}

/// A wrong answer beside what sounded.
#[derive(Clone, PartialEq, Debug)]
pub struct Mistaken<'a> {
    /// What was answered.
    pub said: &'a EarChoice,
    /// The notes that sounded, and that what was answered leaves out.
    pub heard_only: Vec<LeftOut>,
    /// The notes of what was answered that did not sound.
    pub said_only: Vec<LeftOut>,
}

impl EarQuestion {
    /// The question that is asked of a keeper. `None` where there is nothing to choose from: of a plan, of
    /// what has neither chord nor scale, and of a scale that holds one pair alone; nor is it asked what is
    /// left out where that is more than two notes.
    ///
    /// What sounds is the pair that was kept, or, twice as often, another one of the same chord. `own` are
    /// the player's kinds of scale.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::EarQuestion;
    /// use fretloom::practice::{Asking, Why};
    /// use fretloom::store::{Asked, Keeper, KeeperId, Kept, KeyAway, NewKeeper};
    ///
    /// let kept = Kept { chord: Some("Dm7".to_owned()), ..Kept::default() };
    /// let id = KeeperId::new(1).unwrap();
    /// let keeper = Keeper::new(id, NewKeeper { kept, ..NewKeeper::default() });
    /// let asking = Asking {
    ///     keeper: id,
    ///     key: KeyAway::HERE,
    ///     asked: Asked::LeftOut,
    ///     why: Why::New,
    ///     seed: 1,
    ///     is_done: false,
    /// };
    /// let question = EarQuestion::of(&keeper, &asking, &[]).unwrap();
    /// let choices: Vec<String> =
    ///     question.choices().iter().map(|choice| choice.says.to_string()).collect();
    /// assert_eq!(choices, ["D 1", "E 9", "F ♭3", "G 11", "A 5", "B 13", "C ♭7"]);
    /// ```
    #[must_use]
    pub fn of(keeper: &Keeper, asking: &Asking, own: &[ScaleKind]) -> Option<EarQuestion> {
        let ground = EarGround::of(keeper, asking.key, asking.asked, own)?;
        let heard = ground.heard(&mut Chance::new(asking.seed))?;
        let choices = choices(asking.asked, heard, &ground.pairs, &ground.harmony);
        let says = EarName::of(asking.asked, heard);
        let right = choices.iter().position(|choice| choice.says.sounds_like(&says))?;
        (choices.len() > 1).then_some(EarQuestion {
            keeper: keeper.id,
            asked: asking.asked,
            harmony: ground.harmony,
            choices,
            right,
        })
    }

    /// May this be asked of a keeper at all?
    #[must_use]
    pub fn is_there(keeper: &Keeper, asked: Asked, own: &[ScaleKind]) -> bool {
        EarGround::of(keeper, KeyAway::HERE, asked, own).is_some_and(|ground| {
            let Some(heard) = ground.pairs.first() else { return false };
            choices(asked, heard, &ground.pairs, &ground.harmony).len() > 1
        })
    }

    /// What may be answered, in an order that depends on the chord alone.
    #[must_use]
    pub fn choices(&self) -> &[EarChoice] {
        &self.choices
    }

    /// The place of the right answer among the choices.
    #[must_use]
    pub fn right(&self) -> usize {
        self.right
    }

    /// The pair that sounds.
    #[must_use]
    pub fn heard(&self) -> Option<&PairAnswer> {
        self.choices.get(self.right).map(|choice| &choice.pair)
    }

    /// Was this choice right?
    #[must_use]
    pub fn verdict(&self, choice: usize) -> Verdict {
        if choice == self.right { Verdict::Got } else { Verdict::Again }
    }

    /// What a wrong choice was taken for; `None` for the right one, and beyond the last.
    #[must_use]
    pub fn mistaken(&self, choice: usize) -> Option<Mistaken<'_>> {
        let said = self.choices.get(choice).filter(|_| choice != self.right)?;
        let heard = self.heard()?;
        let speller = self.harmony.speller(Spelling::default());
        let over = speller.chord_scale();
        let only = |one: TriadPair, other: TriadPair| {
            let notes = one.set().difference(other.set());
            let up = notes.going_up_from(over.root().pitch_class());
            up.map(|class| LeftOut { note: speller.note(class), degree: over.degree(class) })
                .collect()
        };
        let (heard, named) = (heard.pair(), said.pair.pair());
        Some(Mistaken { said, heard_only: only(heard, named), said_only: only(named, heard) })
    }
}

/// What questions of a keeper are made of.
struct EarGround {
    harmony: Harmony,
    /// What may sound: the kept pair first, then those of the scale in their order.
    pairs: Vec<PairAnswer>,
    /// Is the first of them the one that was kept?
    has_kept: bool,
}

impl EarGround {
    fn of(keeper: &Keeper, key: KeyAway, asked: Asked, own: &[ScaleKind]) -> Option<EarGround> {
        let here = harmony_of(keeper, own)?;
        let harmony = here.up(key.semitones(), own);
        let kept = kept_pair(keeper).and_then(|kept| {
            let pair = kept.pair().up(key.semitones().into());
            let names = harmony.speller(Spelling::default()).pair(pair);
            pair_over(&harmony, names, Spelling::default()).ok()
        });
        let listed =
            pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::default());
        let kept = kept.filter(|kept| may_sound(asked, kept));
        let has_kept = kept.is_some();
        let is_kept = |pair: &&PairAnswer| {
            kept.as_ref().is_some_and(|kept| kept.pair().is_same_couple(pair.pair()))
        };
        let listed = listed.pairs.iter().filter(|pair| may_sound(asked, pair));
        let others = listed.filter(|pair| !is_kept(pair)).take(MOST);
        let mut pairs: Vec<PairAnswer> = others.cloned().collect();
        pairs.splice(0..0, kept);
        pairs.truncate(MOST);
        Some(EarGround { harmony, pairs, has_kept })
    }

    /// The pair that was kept one time of three, so that it is heard often and cannot be guessed; else
    /// any of the others.
    fn heard(&self, chance: &mut Chance) -> Option<&PairAnswer> {
        let others = self.pairs.get(usize::from(self.has_kept)..).unwrap_or_default();
        let is_kept = self.has_kept && (others.is_empty() || chance.below(3) == 0);
        if is_kept { self.pairs.first() } else { others.get(chance.below(others.len())) }
    }
}

/// Whoever is asked what is left out can say two notes, not the six of a chromatic scale.
fn may_sound(asked: Asked, pair: &PairAnswer) -> bool {
    asked != Asked::LeftOut || pair.left_out.len() <= 2
}

/// The chord of a keeper with its scale, as it was kept; of several chords the last, with its usual scale.
fn harmony_of(keeper: &Keeper, own: &[ScaleKind]) -> Option<Harmony> {
    let kept = &keeper.kept;
    if matches!(kept.what, KeptThing::Plan(_)) {
        return None;
    }
    let scales = || [&kept.scale, &kept.scale_notes].into_iter().flatten();
    let Some(chord) = kept.chord.as_deref().map(str::trim) else {
        return scales().find_map(|scale| Harmony::of_scale_with(scale, own).ok());
    };
    let with = |scale: &String| Harmony::of_chord_in(chord, scale, own).ok();
    let usual = |symbol: &str| Harmony::of_chord_with(symbol, own).ok();
    let last = || {
        let symbols = chord.rsplit(|sign: char| sign.is_whitespace() || sign == '|');
        symbols.filter(|symbol| !symbol.is_empty()).find_map(usual)
    };
    scales().find_map(with).or_else(|| usual(chord)).or_else(last)
}
