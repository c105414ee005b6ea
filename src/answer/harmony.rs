//! What pairs are asked of: a chord with the scale chosen for it, or a scale by itself.

use fretloom_theory::{
    Chord, ChordScale, Interval, NoteName, ReadChord, Scale, ScaleChoice, ScaleKind, Speller,
    Spelling,
};

use super::chord::TypedChord;
use super::refusal::Refusal;
use super::scales::{ChosenScale, ScaleReason};

/// A chord with the scale chosen for it; or a scale by itself.
#[derive(Clone, PartialEq, Debug)]
pub struct Harmony {
    chord: Option<TypedChord>,
    scale: ChosenScale,
}

impl Harmony {
    /// A chord with its usual scale.
    ///
    /// # Errors
    ///
    /// Where the symbol cannot be read.
    pub fn of_chord(symbol: &str) -> Result<Harmony, Refusal> {
        Harmony::of_chord_with(symbol, &[])
    }

    /// A chord with its usual scale, which is one of the player's `own` kinds where none is usual.
    ///
    /// # Errors
    ///
    /// Where the symbol cannot be read.
    pub fn of_chord_with(symbol: &str, own: &[ScaleKind]) -> Result<Harmony, Refusal> {
        let read: ReadChord = symbol.parse()?;
        Ok(match ScaleChoice::for_chord_with(&read.chord, own).into_iter().next() {
            Some(choice) => Harmony::with_choice(symbol, read, &choice),
            // The chromatic scale fits every chord, so there is always a first choice.
            None => {
                let chromatic = Scale::new(read.chord.root(), ScaleKind::CHROMATIC);
                Harmony::over(TypedChord::new(symbol, read), chromatic, ScaleReason::ByHand)
            }
        })
    }

    /// A chord with the scale that the player wants: a scale with its root, or a kind alone, which is
    /// then built on the chord's root. The player's `own` kinds are known by name too.
    ///
    /// # Errors
    ///
    /// Where the symbol or the scale cannot be read.
    pub fn of_chord_in(symbol: &str, scale: &str, own: &[ScaleKind]) -> Result<Harmony, Refusal> {
        let read: ReadChord = symbol.parse()?;
        let of_own = own.iter().find(|kind| kind.is_called(scale));
        let scale = match of_own.or_else(|| ScaleKind::named(scale)) {
            Some(kind) => Scale::new(read.chord.root(), kind.clone()),
            None => Scale::read_with(scale, own)?,
        };
        let usual = ScaleChoice::for_chord_with(&read.chord, own);
        let known = usual.into_iter().find(|choice| *choice.scale() == scale);
        let why = known.map_or(ScaleReason::ByHand, ScaleReason::Fits);
        Ok(Harmony::over(TypedChord::new(symbol, read), scale, why))
    }

    /// A chord with one of the scales that fit it.
    #[must_use]
    pub fn with_choice(symbol: &str, read: ReadChord, choice: &ScaleChoice) -> Harmony {
        let why = ScaleReason::Fits(choice.clone());
        Harmony::over(TypedChord::new(symbol, read), choice.scale().clone(), why)
    }

    /// A scale by itself.
    ///
    /// # Errors
    ///
    /// Where the scale cannot be read.
    pub fn of_scale(scale: &str) -> Result<Harmony, Refusal> {
        Harmony::of_scale_with(scale, &[])
    }

    /// A scale by itself, which may be of one of the player's `own` kinds.
    ///
    /// # Errors
    ///
    /// Where the scale cannot be read.
    pub fn of_scale_with(scale: &str, own: &[ScaleKind]) -> Result<Harmony, Refusal> {
        let scale = ChosenScale::alone(Scale::read_with(scale, own)?);
        Ok(Harmony { chord: None, scale })
    }

    /// The same so many semitones higher, its root under its everyday name. The player's `own` kinds of
    /// scale are known.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::Harmony;
    /// let harmony = Harmony::of_chord_in("Dm7/C", "D Dorian", &[]).unwrap().up(3, &[]);
    /// assert_eq!(harmony.chord().unwrap().symbol, "Fm7/Eb");
    /// assert_eq!(harmony.scale().scale().to_string(), "F Dorian");
    /// ```
    #[must_use]
    pub fn up(&self, semitones: u8, own: &[ScaleKind]) -> Harmony {
        if semitones.is_multiple_of(12) {
            return self.clone();
        }
        let higher = |name: NoteName| {
            let class = name.pitch_class().up(semitones.into());
            NoteName::everyday(class).next().unwrap_or(name)
        };
        let scale = self.scale.scale();
        let moved = Scale::new(higher(scale.root()), scale.kind().clone());
        let chord = self.chord.as_ref().and_then(|typed| {
            let chord = &typed.read.chord;
            let ways = (0..7).map(|steps| Interval::new(steps, (semitones % 12) as i8));
            let up = |way| chord.up(way).filter(|up| up.root() == higher(chord.root()));
            ways.filter_map(up).next()
        });
        let over = |chord: Chord| {
            Harmony::of_chord_in(&format!("{chord:#}"), &format!("{moved:#}"), own).ok()
        };
        let alone = || Harmony { chord: None, scale: ChosenScale::alone(moved.clone()) };
        chord.and_then(over).unwrap_or_else(alone)
    }

    fn over(chord: TypedChord, scale: Scale, why: ScaleReason) -> Harmony {
        let heard = ChordScale::over(chord.read.chord.clone(), scale);
        Harmony { chord: Some(chord), scale: ChosenScale::new(heard, why) }
    }

    /// The chord as it was typed and read; `None` for a scale by itself.
    #[must_use]
    pub fn chord(&self) -> Option<&TypedChord> {
        self.chord.as_ref()
    }

    /// The scale, with the reason why it was chosen.
    #[must_use]
    pub fn scale(&self) -> &ChosenScale {
        &self.scale
    }

    /// The scale as it is heard over the chord.
    #[must_use]
    pub fn chord_scale(&self) -> &ChordScale {
        self.scale.chord_scale()
    }

    /// Names notes and triads over this chord and scale.
    #[must_use]
    pub fn speller(&self, spelling: Spelling) -> Speller {
        Speller::new(self.chord_scale().clone(), spelling)
    }
}
