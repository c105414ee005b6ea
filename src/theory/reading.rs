//! What a chord does where it stands: where a dominant goes, whose ii a minor seventh is.
//!
//! A symbol by itself leaves its scale open; its neighbours settle much of it. A [`Reading`] names
//! the function that a player would pencil over the chord and orders the scales by it. It is one
//! reading, the usual one: all other scales that fit follow, and a player may overrule it.

mod agreeing;
mod degree;
mod dominant;
mod home;
mod homes;
mod kind;
mod minor;
mod motion;
mod place;
mod progression;
mod scales;

use std::fmt;

use crate::{Chord, Degree, Function, Key, PitchClassSet, Scale, ScaleChoice, ScaleKind, fits};
use progression::Progression;

/// A chord among its neighbours, read.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Chord, Reading};
/// let chords: Vec<Chord> =
///     ["Em7b5", "A7", "Dm"].iter().map(|symbol| symbol.parse().unwrap()).collect();
/// let reading = Reading::at(&chords, 1, None).unwrap();
/// assert_eq!(reading.to_string(), "V of D minor, which follows");
/// assert_eq!(reading.scales()[0].scale().to_string(), "A altered");
/// assert!(Reading::at(&chords, 3, None).is_none());
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Reading {
    chord: Chord,
    function: Function,
}

impl Reading {
    /// Reads the chord at `index` among its neighbours; `key` is the key of the tune, where it is
    /// known. A chord that is repeated counts once. `None` where there is no such
    /// chord.
    #[must_use]
    pub fn at(chords: &[Chord], index: usize, key: Option<Key>) -> Option<Reading> {
        let function = Progression::of(chords, key).function_at(index)?;
        Some(Reading { chord: chords.get(index)?.clone(), function })
    }

    /// Reads every chord of a tune as [`at`](Self::at) does, in time linear in their number.
    ///
    /// ```
    /// use fretloom_theory::{Chord, Reading};
    /// let chords: Vec<Chord> =
    ///     ["Dm7", "G7", "Cmaj7"].iter().map(|symbol| symbol.parse().unwrap()).collect();
    /// let said: Vec<String> =
    ///     Reading::tune(&chords, None).iter().map(|reading| reading.to_string()).collect();
    /// assert_eq!(said, ["ii of C", "V of C, which follows", "I of C"]);
    /// ```
    #[must_use]
    pub fn tune(chords: &[Chord], key: Option<Key>) -> Vec<Reading> {
        let progression = Progression::of(chords, key);
        let read = |(index, chord): (usize, &Chord)| {
            let function = progression.function_at(index)?;
            Some(Reading { chord: chord.clone(), function })
        };
        chords.iter().enumerate().filter_map(read).collect()
    }

    /// The same for a chord that stands for so many bars among the chords around it: for eight bars,
    /// or for four as a minor seventh, or as what has no key, with no dominant near, it is a mode by
    /// itself, unless it is a tonic or bound for one. A suspended dominant stands among modes as well, and
    /// is none here.
    pub(crate) fn standing(self, bars: f64, around: &[&Chord]) -> Reading {
        let pulls = |chord: &&Chord| chord.is_dominant() || chord.is_half_diminished();
        let may_be_mode = self.function == Function::Alone
            || self.chord.is_minor() && self.chord.names(Degree::MINOR_SEVENTH);
        let is_long = bars >= 8.0 || bars >= 4.0 && may_be_mode && !around.iter().any(pulls);
        match is_long && self.function.may_stand() {
            true => Reading { function: Function::Standing, ..self },
            false => self,
        }
    }

    /// The chord.
    #[must_use]
    pub fn chord(&self) -> &Chord {
        &self.chord
    }

    /// Is it a tonic, on which a line rests?
    #[must_use]
    pub fn is_home(&self) -> bool {
        self.function.is_home()
    }

    /// The scales of a plan, the usual one first: those that agree with what the chord does and that
    /// hold what the symbol writes and what the melody holds. Where none holds all that, the others
    /// that its function asks for, then the usual choices for the symbol; where none of them holds
    /// the melody, the first of these that hold the symbol.
    pub(crate) fn planned_scales(&self, melody: PitchClassSet) -> Vec<Scale> {
        let asked = self.function.scales(&self.chord).iter();
        let asked = asked.map(|(kind, _)| Scale::new(self.chord.root(), kind.clone()));
        let asked = asked.filter(|scale| fits(&self.chord, scale.set())).collect();
        let mut lists = vec![self.function.agreeing(&self.chord), asked];
        lists.extend(self.usual_scales());
        lists.retain(|scales| !scales.is_empty());
        let holds = |scale: &&Scale| melody.is_subset(scale.set());
        let under =
            |scales: &Vec<Scale>| -> Vec<Scale> { scales.iter().filter(holds).cloned().collect() };
        let found = lists.iter().map(under).find(|scales| !scales.is_empty());
        found.or_else(|| lists.into_iter().next()).unwrap_or_default()
    }

    /// The usual choices for the symbol, then all that fit it. Of a mode that stands by itself the
    /// first one comes first, alone.
    fn usual_scales(&self) -> Vec<Vec<Scale>> {
        let all = ScaleChoice::for_chord(&self.chord);
        let scale = |choice: &ScaleChoice| choice.scale().clone();
        let usual: Vec<Scale> = all.iter().filter(|it| it.is_usual()).map(scale).collect();
        let stands = self.function == Function::Standing;
        let mode = usual.iter().take(usize::from(stands)).cloned().collect();
        vec![mode, usual, all.iter().map(scale).collect()]
    }

    /// The key in which chords come home: the one that the last of them speak for. `None` where none
    /// does, or several do alike, as one chord by itself.
    ///
    /// ```
    /// use fretloom_theory::{Chord, Key, Reading};
    /// let chords: Vec<Chord> =
    ///     ["Em7b5", "A7alt", "Dm6"].iter().map(|symbol| symbol.parse().unwrap()).collect();
    /// assert_eq!(Reading::home(&chords), Some(Key::minor("D".parse().unwrap())));
    /// assert_eq!(Reading::home(&chords[2..]), None);
    /// ```
    #[must_use]
    pub fn home(chords: &[Chord]) -> Option<Key> {
        Progression::of(chords, None).last_home()
    }

    /// The scales that fit the chord, those that its function asks for first.
    ///
    /// Among these a few do not hold all that the symbol writes: melodic minor over a tonic minor
    /// seventh, whose ♭7 becomes a major seventh, and the blues scales over a dominant that is the
    /// tonic of a blues or does not fall a fifth.
    #[must_use]
    pub fn scales(&self) -> Vec<ScaleChoice> {
        self.scales_with(&[])
    }

    /// The same with scales of one's own.
    #[must_use]
    pub fn scales_with(&self, own: &[ScaleKind]) -> Vec<ScaleChoice> {
        let usual = ScaleChoice::for_chord_with(&self.chord, own);
        let mut ordered: Vec<ScaleChoice> = Vec::new();
        for (kind, why) in self.function.scales(&self.chord) {
            let fitting = usual.iter().find(|choice| choice.scale().kind() == kind);
            let choice = match fitting {
                Some(choice) => choice.because(why),
                None if self.function.reads_otherwise(kind, &self.chord) => {
                    ScaleChoice::reading(Scale::new(self.chord.root(), kind.clone()), why)
                }
                None => continue,
            };
            ordered.push(choice);
        }
        for choice in usual {
            if ordered.iter().all(|known| known.scale() != choice.scale()) {
                ordered.push(choice);
            }
        }
        // A reading that lacks a written note may stand near the front, never first.
        if let Some(first) =
            ordered.iter().position(|choice| fits(&self.chord, choice.scale().set()))
        {
            ordered[..=first].rotate_right(1);
        }
        ordered
    }
}

impl fmt::Display for Reading {
    /// The reading as a player says it, `{:#}` in ASCII.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.function.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chords(symbols: &str) -> Vec<Chord> {
        symbols.split_whitespace().map(|symbol| symbol.parse().unwrap()).collect()
    }

    /// The reading and the first scale of the chord marked with `*`.
    fn read(symbols: &str) -> (String, String) {
        let index = symbols.split_whitespace().position(|symbol| symbol.starts_with('*')).unwrap();
        let chords = chords(&symbols.replace('*', ""));
        let reading = Reading::at(&chords, index, None).unwrap();
        (reading.to_string(), reading.scales()[0].scale().to_string())
    }

    /// common practice, no source
    #[test]
    fn chords_are_read_as_players_pencil_them() {
        for (symbols, says, scale) in [
            ("Dm7 *G7 Cmaj7", "V of C, which follows", "G Mixolydian"),
            ("*Dm7 G7 Cmaj7", "ii of C", "D Dorian"),
            ("Dm7b5 *G7 Cm6", "V of C minor, which follows", "G altered"),
            ("*Dm7b5 G7 Cm6", "ii of C minor, which follows", "D Locrian"),
            (
                "*Em7b5 A7 Cm7",
                "ii of D minor, though D minor does not follow",
                "E Locrian natural 2",
            ),
            ("Em7b5 *A7 Cm7", "V of D minor, though D minor does not follow", "A altered"),
            (
                "Dm7 *Db7 Cmaj7",
                "tritone substitute of G7, a half step above C",
                "D♭ Lydian dominant",
            ),
            ("Cmaj7 *Bb7 Cmaj7", "back-door dominant of C, which follows", "B♭ Lydian dominant"),
            (
                "Ebmaj7 *Ab7 Bbmaj7 Em7b5 A7 Dm7",
                "back-door dominant of B♭, which follows",
                "A♭ Lydian dominant",
            ),
            ("Fm7 Bb7 *Ebmaj7 Ab7 Bbmaj7", "I of E♭", "E♭ Lydian"),
            ("Ebmaj7 Ab7 *Bbmaj7 Em7b5 A7 Dm7", "I of B♭", "B♭ Lydian"),
            ("Cmaj7 *D7 Dm7 G7", "does not fall a fifth", "D Lydian dominant"),
            ("*E7 A7 D7 Gmaj7", "V of A7, a chain of dominants", "E Mixolydian"),
            ("Cm7 *F7 Fm7", "V of B♭, though B♭ does not follow", "F Mixolydian"),
            ("G7 *Cm6 Cm6", "tonic minor", "C melodic minor"),
            ("G7b9 *Cm7", "tonic minor", "C Dorian"),
            ("Cmaj7 *Am7 Dm7 G7", "vi of C", "A Aeolian"),
            ("Cmaj7 *Em7 Am7 Dm7 G7", "iii of C", "E Phrygian"),
            ("Cmaj7 *F#m7b5 Fm7 Em7", "♯iv of C", "F♯ Locrian"),
            ("G7 *Bm7b5 Cmaj7", "vii of C", "B Locrian"),
            ("Cmaj7 *C#dim7 Dm7", "passing up to Dm7", "C♯ whole-half diminished"),
            ("Em7 *Ebdim7 Dm7", "passing down to Dm7", "E♭ whole-half diminished"),
            ("Cmaj7 *Cdim7 Cmaj7", "holds the root of Cmaj7", "C whole-half diminished"),
            ("G7 *Cmaj7 Dm7", "I of C", "C Lydian"),
            ("Cmaj7 *Fmaj7 Dm7 G7", "IV of C", "F Lydian"),
            ("F7 *C7 G7", "tonic of a blues", "C Mixolydian"),
            ("G7 *C7 C7", "tonic of a blues", "C Mixolydian"),
            ("*Gm7", "by itself", "G Dorian"),
            ("*G7sus4 Cmaj7", "V of C, which follows", "G Mixolydian"),
            // A minor triad is what its neighbours make of it.
            ("*Dm G7 Cmaj7", "ii of C", "D Dorian"),
            ("A7 *Dm G7 Cmaj7", "ii of C", "D Dorian"),
            ("C *Am Dm G7", "vi of C", "A Aeolian"),
            ("C Am *Dm G7", "ii of C", "D Dorian"),
            ("C *Em F G7", "iii of C", "E Phrygian"),
            ("G7 *Cm Fm G7", "tonic minor", "C melodic minor"),
            ("*Cm6", "tonic minor", "C melodic minor"),
            ("*Cm", "by itself", "C Dorian"),
            ("Cmaj7 *Fm6 Cmaj7", "iv of C, borrowed from minor", "F melodic minor"),
            ("Cmaj7 *Fm Cmaj7", "iv of C, borrowed from minor", "F melodic minor"),
            ("*Fm7 Cmaj7", "iv of C, borrowed from minor", "F Dorian"),
            // A dominant with its ii may come from elsewhere.
            (
                "Abm7 *Db7 Cmaj7",
                "tritone substitute of G7, a half step above C",
                "D♭ Lydian dominant",
            ),
            ("Fm7 *Bb7 Cmaj7", "back-door dominant of C, which follows", "B♭ Lydian dominant"),
            ("*Fm7 Bb7 Cmaj7", "iv of C, borrowed from minor", "F Dorian"),
            ("Fm7 *Bb7 Am7", "tritone substitute of E7, a half step above A", "B♭ Lydian dominant"),
            (
                "Dm7b5 *G7b9 F#m7b5 B7alt",
                "V of C minor, though C minor does not follow",
                "G altered",
            ),
            (
                "Cmaj7 Fm7 *Bb7 Dm7 G7 Cmaj7",
                "back-door dominant of C, though C does not follow",
                "B♭ Lydian dominant",
            ),
            ("Cmaj7 *Em7 A7 Dm7 G7 Cmaj7", "iii of C", "E Phrygian"),
            ("Cmaj7 *Em7 A7 D7 G7 Cmaj7", "ii of D", "E Dorian"),
            ("Cmaj7 *Am7 D7 Gm7 C7 Fmaj7", "iii of F", "A Phrygian"),
            (
                "Gm7b5 *C7alt F#m7b5 B7alt",
                "V of F minor, though F minor does not follow",
                "C altered",
            ),
            // A suspension is its own dominant.
            ("*G7sus4 G7 Cmaj7", "V of C, which follows", "G Mixolydian"),
            ("G7sus4 *G7 Cmaj7", "V of C, which follows", "G Mixolydian"),
            ("*Dm7b5 G7sus4 G7 Cm6", "ii of C minor, which follows", "D Locrian"),
            ("Dm7b5 G7sus4 *G7 Bb", "V of C minor, though C minor does not follow", "G altered"),
        ] {
            let (said, first) = read(symbols);
            assert_eq!((said.as_str(), first.as_str()), (says, scale), "{symbols}");
        }
    }

    /// Eight bars that every jazz player reads alike; readings and scales as players give them:
    /// common practice, no source. The last bar goes back to the first.
    #[test]
    fn a_worked_fragment_is_read_bar_by_bar() {
        let chords = chords("Em7b5 A7 Cm7 F7 Fm7 Bb7 Ebmaj7 Ab7 Em7b5");
        let scales = [
            "E Locrian natural 2",
            "A altered",
            "C Dorian",
            "F Mixolydian",
            "F Dorian",
            "B♭ Mixolydian",
            "E♭ Lydian",
            "A♭ Lydian dominant",
        ];
        for (index, scale) in scales.into_iter().enumerate() {
            let reading = Reading::at(&chords, index, None).unwrap();
            assert_eq!(reading.scales()[0].scale().to_string(), scale, "bar {}", index + 1);
        }
    }

    /// common practice, no source
    #[test]
    fn the_key_of_the_tune_settles_what_neighbours_leave_open() {
        for (symbol, key, says) in [
            ("Cm", "C minor", "tonic minor"),
            ("Cm7", "C minor", "tonic minor"),
            ("Fm", "C minor", "iv of C minor"),
            ("Fm7", "C", "iv of C, borrowed from minor"),
            ("Am", "C", "vi of C"),
            ("Cm", "C", "by itself"),
        ] {
            let key = Some(key.parse().unwrap());
            let reading = Reading::at(&chords(symbol), 0, key).unwrap();
            assert_eq!(reading.to_string(), says, "{symbol}");
        }
    }

    #[test]
    fn a_tune_is_read_as_its_chords_are_one_by_one() {
        let roots = ["C", "D", "E", "F", "G", "A", "Bb"];
        let kinds = ["maj7", "m7", "7", "7sus4", "m7b5", "dim7", "m", "m6", ""];
        // Two steps that share no factor with the lists lead through all the couples there are.
        let symbol = |n: usize| format!("{}{}", roots[n * n % 7], kinds[(n * 5 + n / 9) % 9]);
        let chords: Vec<Chord> = (0..400).map(|n| symbol(n).parse().unwrap()).collect();
        let readings = Reading::tune(&chords, None);
        assert_eq!(readings.len(), chords.len());
        for (index, reading) in readings.iter().enumerate() {
            assert_eq!(Reading::at(&chords, index, None).as_ref(), Some(reading));
        }
    }

    #[test]
    fn every_reading_offers_all_that_fits() {
        let chords = chords("Dm7b5 G7 Cm7 F7 Bbmaj7 Ebmaj7 Am7b5 D7alt Gm6 C#dim7 G7sus4");
        for (index, chord) in chords.iter().enumerate() {
            let offered = Reading::at(&chords, index, None).unwrap().scales();
            for choice in ScaleChoice::for_chord(chord) {
                assert!(offered.iter().any(|known| known.scale() == choice.scale()));
            }
        }
    }
}
