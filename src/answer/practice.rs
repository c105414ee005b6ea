//! The list of a day, with what is called by name there.

use fretloom_theory::{Chord, NoteName, PitchClass, Scale};
use jiff::civil::Date;

use crate::practice::{PracticeRules, Today, Turn};
use crate::store::{Keeper, KeptThing, PracticeRecord};

/// The answer of `practice`.
#[derive(Clone, PartialEq, Debug)]
pub struct PracticeAnswer {
    /// The day.
    pub day: Date,
    /// The turns, one after another.
    pub turns: Vec<TurnAnswer>,
    /// The numbers by which they were chosen.
    pub rules: PracticeRules,
}

/// A turn with its keeper.
#[derive(Clone, PartialEq, Debug)]
pub struct TurnAnswer {
    /// The turn.
    pub turn: Turn,
    /// What is practised.
    pub keeper: Keeper,
    /// The key by its root; `None` for a plan, which has one of its own, and where neither chord nor
    /// scale says a root.
    pub key: Option<NoteName>,
}

impl PracticeAnswer {
    /// What is to be practised on a day.
    #[must_use]
    pub fn new(keepers: &[Keeper], rules: &PracticeRules, day: Date) -> PracticeAnswer {
        PracticeAnswer::of(Today::of(keepers, rules, day), keepers, rules)
    }

    /// A list of turns with what is called by name there.
    #[must_use]
    pub fn of(today: Today, keepers: &[Keeper], rules: &PracticeRules) -> PracticeAnswer {
        let Today { day, turns } = today;
        let named = |turn: Turn| {
            let keeper = keepers.iter().find(|keeper| keeper.id == turn.keeper)?.clone();
            let key = key_of(&keeper, turn.unit.key.semitones());
            Some(TurnAnswer { turn, keeper, key })
        };
        PracticeAnswer { day, turns: turns.into_iter().filter_map(named).collect(), rules: *rules }
    }
}

/// The root on which a keeper stands so many semitones up: as it is written where it was kept, else under
/// its everyday name.
///
/// # Example
///
/// ```
/// use fretloom::answer::key_of;
/// use fretloom::store::{Keeper, KeeperId, Kept, NewKeeper};
/// let kept = Kept { chord: Some("F#m7".to_owned()), ..Kept::default() };
/// let new = NewKeeper { kept, ..NewKeeper::default() };
/// let keeper = Keeper::new(KeeperId::new(1).unwrap(), new);
/// assert_eq!(key_of(&keeper, 0).unwrap().to_string(), "F♯");
/// assert_eq!(key_of(&keeper, 4).unwrap().to_string(), "B♭");
/// ```
#[must_use]
pub fn key_of(keeper: &Keeper, semitones: u8) -> Option<NoteName> {
    if matches!(keeper.kept.what, KeptThing::Plan(_)) {
        return None;
    }
    let here = root_of(keeper)?;
    if semitones == 0 {
        return Some(here);
    }
    let class: PitchClass = here.pitch_class().up(semitones.into());
    NoteName::everyday(class).next()
}

fn root_of(keeper: &Keeper) -> Option<NoteName> {
    let kept = &keeper.kept;
    // Of several chords the last is where it leads.
    let chords = kept.chord.as_deref().unwrap_or_default();
    let symbols = chords.rsplit(|sign: char| sign.is_whitespace() || sign == '|');
    let chord = symbols.filter_map(|symbol| symbol.parse::<Chord>().ok()).next();
    let scale = || Some(kept.scale.as_ref()?.parse::<Scale>().ok()?.root());
    chord.map(|chord| chord.root()).or_else(scale)
}

/// The fastest tempo of each of the last days on which it was got, at most so many, as heights between
/// the slowest and the fastest of them.
///
/// # Example
///
/// ```
/// use fretloom::answer::tempo_curve;
/// use fretloom::store::{Beats, PracticeRecord, Try, Unit, Verdict};
/// use jiff::civil::date;
/// let got = |day, tempo| Try {
///     on: date(2026, 5, day),
///     unit: Unit::default(),
///     tempo: Beats::new(tempo),
///     verdict: Verdict::Got,
///     next: None,
/// };
/// let tries = vec![got(4, 60), got(5, 68), got(6, 74)];
/// let record = PracticeRecord { tries, ..PracticeRecord::default() };
/// assert_eq!(tempo_curve(&record, 8), "▁▅█");
/// assert_eq!(tempo_curve(&record, 2), "▁█");
/// ```
#[must_use]
pub fn tempo_curve(practice: &PracticeRecord, most: usize) -> String {
    let days: Vec<(Date, u16)> = practice.curve();
    let shown = days.get(days.len().saturating_sub(most)..).unwrap_or_default();
    let tempos = || shown.iter().map(|(_, tempo)| *tempo);
    let (Some(low), Some(high)) = (tempos().min(), tempos().max()) else { return String::new() };
    let height = |tempo: u16| match high - low {
        0 => 3,
        range => usize::from((tempo - low) * 7 / range),
    };
    tempos().map(|tempo| HEIGHTS.get(height(tempo)).copied().unwrap_or(' ')).collect()
}

const HEIGHTS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
