//! Spelling: which names the notes of a pair are given.
//!
//! There are two ways. *Plain* writes each triad in thirds, on the root that players would name;
//! *strict* keeps the letters of the scale. The degrees count from the chord either way, so A♭m over
//! G7alt is A♭ C♭ E♭, and C♭ is its 3. The triads of a pair are named together
//! (`spelling/pair_names.rs`), so that neighbours look like neighbours.

mod pair_names;

use crate::{ChordScale, Interval, NoteName, PitchClass, SpelledTriad, Triad, TriadQuality};

/// How triads are written.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Spelling {
    /// In thirds, on everyday roots.
    #[default]
    Plain,
    /// By the letters of the scale.
    Strict,
}

/// Names notes and triads over a chord and its scale, by one policy.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, PitchClass, Speller, Spelling, Triad, TriadQuality};
/// let chord_scale = ChordScale::over("A7alt".parse().unwrap(), "A altered".parse().unwrap());
/// let augmented = Triad::new(PitchClass::new(1), TriadQuality::Augmented);
/// let name = |policy| Speller::new(chord_scale.clone(), policy).triad(augmented).to_string();
/// assert_eq!(name(Spelling::Plain), "C♯+"); // the third of A7
/// assert_eq!(name(Spelling::Strict), "D♭+"); // the fourth letter of the scale
/// ```
#[derive(Clone, Debug)]
pub struct Speller {
    chord_scale: ChordScale,
    policy: Spelling,
    /// By pitch class: named once, since every pair asks again.
    names: [NoteName; 12],
}

impl Speller {
    /// Names by `policy` what sounds over `chord_scale`.
    #[must_use]
    pub fn new(chord_scale: ChordScale, policy: Spelling) -> Speller {
        let names = [chord_scale.root(); 12];
        let mut speller = Speller { chord_scale, policy, names };
        for class in PitchClass::all() {
            speller.names[usize::from(class.number())] = speller.name(class);
        }
        speller
    }

    /// What it names over.
    #[must_use]
    pub fn chord_scale(&self) -> &ChordScale {
        &self.chord_scale
    }

    /// The name of a single note.
    #[must_use]
    pub fn note(&self, class: PitchClass) -> NoteName {
        self.names[usize::from(class.number())]
    }

    /// The name on which players would build a chord here.
    pub(crate) fn everyday_name(&self, class: PitchClass) -> NoteName {
        let name = match self.policy {
            Spelling::Plain => self.given_name(class).next(),
            Spelling::Strict => Some(self.note(class)),
        };
        name.filter(|name| name.is_everyday())
            .or_else(|| self.everyday_names(class).into_iter().next())
            .unwrap_or(self.chord_scale.root())
    }

    fn name(&self, class: PitchClass) -> NoteName {
        let name = match self.policy {
            Spelling::Plain => {
                let everyday = || self.everyday_names(class).into_iter().next();
                self.written_names(class).next().or_else(everyday)
            }
            Spelling::Strict => self.strict_name(class),
        };
        name.unwrap_or(self.chord_scale.root())
    }

    /// A triad with the names of its members.
    #[must_use]
    pub fn triad(&self, triad: Triad) -> SpelledTriad {
        match self.policy {
            Spelling::Plain => self.stacked(self.plain_root(triad), triad.quality()),
            Spelling::Strict => self.strict_triad(triad),
        }
    }

    /// The triad on `root` in stacked letters. Its augmented fifth may be E♯ or B♯ where the scale
    /// writes it so.
    fn stacked(&self, root: NoteName, quality: TriadQuality) -> SpelledTriad {
        let scale = self.chord_scale.scale();
        let written = |name: &NoteName| {
            name.accidental().abs() <= 1 && scale.notes().any(|note| note == *name)
        };
        let [second, third] = quality.intervals().map(|up| root.up(up).filter(written));
        match (written(&root), second, third) {
            (true, Some(second), Some(third)) => {
                SpelledTriad::from_notes(quality, [root, second, third])
            }
            _ => SpelledTriad::stacked(root, quality),
        }
    }

    /// The chord's name for its root, where this is its own triad and its third can be written; an
    /// altered fifth that would need a double accidental takes its everyday name.
    fn own_root(&self, triad: Triad) -> Option<NoteName> {
        let root = self.chord_scale.root();
        let own =
            self.chord_scale.own_triad() == Some(triad.set()) && triad.root() == root.pitch_class();
        let [second, third] = triad.quality().intervals();
        let fits = root.accidental().abs() <= 1
            && has_single_accidental(root, second)
            && (third != Interval::PERFECT_FIFTH || has_single_accidental(root, third));
        (own && fits).then_some(root)
    }

    /// The chord's name for its own root, else the first name on which the triad needs no double
    /// accidental.
    fn plain_root(&self, triad: Triad) -> NoteName {
        if let Some(root) = self.own_root(triad) {
            return root;
        }
        let welcome =
            self.given_name(triad.root()).find(|root| stacks_well(*root, triad.quality()));
        let accidentals = |root: &NoteName| {
            let notes = SpelledTriad::stacked(*root, triad.quality()).notes();
            let count: i8 = notes.iter().map(|note| note.accidental().abs()).sum();
            let [second, _] = triad.quality().intervals();
            let third_fits = has_single_accidental(*root, second);
            (!third_fits, !stacks_well(*root, triad.quality()), count)
        };
        welcome
            .or_else(|| self.everyday_names(triad.root()).into_iter().min_by_key(accidentals))
            .unwrap_or(self.chord_scale.root())
    }

    /// The names that chord and scale give to a note: the symbol's own for a chord tone, then the
    /// scale's where it has seven notes, since only then each has a letter of its own.
    fn given_name(&self, class: PitchClass) -> impl Iterator<Item = NoteName> {
        let chord = self.chord_scale.chord();
        let tone = chord.and_then(|chord| {
            let name = chord.name_of(class)?;
            let degree = chord.degree_of(class);
            let welcome = match degree.map(|degree| (degree.number(), degree.alteration())) {
                // `alt` asks for a sound and leaves the letters open.
                Some((9, _) | (5, -1 | 1)) if chord.is_alt() => false,
                Some((9 | 11 | 13, _)) => name.is_everyday(),
                _ => name.accidental().abs() <= 1,
            };
            welcome.then_some(name)
        });
        let scale = self.chord_scale.scale();
        let lettered = scale.kind().has_a_letter_for_each_degree();
        let in_scale = scale.name_of(class).filter(|name| lettered && name.is_everyday());
        tone.into_iter().chain(in_scale)
    }

    /// The names under which a note stands in the lines of scale and chord, the one to be read first:
    /// that of the scale, but the third is the chord's, which the altered scale writes as a fourth.
    fn written_names(&self, class: PitchClass) -> impl Iterator<Item = NoteName> {
        let in_scale = self.chord_scale.scale().name_of(class);
        let in_chord = self.chord_scale.chord().and_then(|chord| chord.name_of(class));
        let names = match self.chord_scale.degree(class).number() {
            1 | 3 => [in_chord, in_scale],
            _ => [in_scale, in_chord],
        };
        names.into_iter().flatten().filter(|name| name.accidental().abs() <= 1)
    }

    /// The everyday names of a note: the flat first, unless the root is a sharp.
    fn everyday_names(&self, class: PitchClass) -> Vec<NoteName> {
        let mut names: Vec<NoteName> = NoteName::everyday(class).collect();
        if self.chord_scale.root().accidental() > 0 {
            names.reverse();
        }
        names
    }

    fn strict_name(&self, class: PitchClass) -> Option<NoteName> {
        let in_scale = self.chord_scale.scale().name_of(class);
        let in_chord = || self.chord_scale.chord().and_then(|chord| chord.name_of(class));
        let by_degree = || self.chord_scale.root().up(self.chord_scale.degree(class).interval());
        in_scale.or_else(in_chord).or_else(by_degree).or_else(|| NoteName::everyday(class).next())
    }

    /// The scale's own letters where it holds all three members, else stacked letters.
    fn strict_triad(&self, triad: Triad) -> SpelledTriad {
        let scale = self.chord_scale.scale();
        let root = self.note(triad.root());
        if triad.set().is_subset(scale.set()) {
            return SpelledTriad::from_notes(
                triad.quality(),
                triad.members().map(|class| scale.name_of(class).unwrap_or(root)),
            );
        }
        let [second, third] = triad.quality().intervals();
        match (root.up(second), root.up(third)) {
            (Some(second), Some(third)) => {
                SpelledTriad::from_notes(triad.quality(), [root, second, third])
            }
            _ => SpelledTriad::stacked(root, triad.quality()),
        }
    }
}

/// Can the triad on `root` be written in thirds without double accidentals? The fifth of an augmented
/// triad takes its everyday name anyway and does not count.
fn stacks_well(root: NoteName, quality: TriadQuality) -> bool {
    let [second, third] = quality.intervals();
    has_single_accidental(root, second)
        && (third == Interval::AUGMENTED_FIFTH || has_single_accidental(root, third))
}

/// Needs the note an interval above `root` one accidental at most?
fn has_single_accidental(root: NoteName, interval: Interval) -> bool {
    root.up(interval).is_some_and(|name| name.accidental().abs() <= 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(chord: &str, scale: &str, policy: Spelling) -> String {
        let chord_scale = ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap());
        let speller = Speller::new(chord_scale.clone(), policy);
        let triads = chord_scale.scale().triads(TriadQuality::TERTIAN);
        let names: Vec<String> =
            triads.into_iter().map(|triad| format!("{:#}", speller.triad(triad))).collect();
        names.join(" ")
    }

    /// The triads of the common chords as players name them: common practice, no source.
    #[test]
    fn plain_names_are_those_that_players_use() {
        for (chord, scale, expected) in [
            ("C7alt", "C altered", "Cdim Dbm Ebm E+ Gb Ab Bbdim"),
            ("A7alt", "A altered", "Adim Bbm Cm C#+ Eb F Gdim"),
            ("G7alt", "G altered", "Gdim Abm Bbm B+ Db Eb Fdim"),
            ("F#maj7#11", "F# Lydian", "F# G# A#m Cdim C#  D#m E#m"),
            (
                "C7b9",
                "C half-whole",
                "C Cm Cdim C#dim Eb Ebm D#dim Edim Gb F#m F#dim Gdim A Am Adim Bbdim",
            ),
        ] {
            let expected = expected.split_whitespace().collect::<Vec<_>>().join(" ");
            assert_eq!(names(chord, scale, Spelling::Plain), expected, "{chord}");
        }
    }

    #[test]
    fn strict_names_keep_the_letters_of_the_scale() {
        assert_eq!(names("A7alt", "A altered", Spelling::Strict), "Adim Bbm Cm Db+ Eb F Gdim");
        assert_eq!(
            names("Db7alt", "Db altered", Spelling::Strict),
            "Dbdim Ebbm Fbm Gbb+ Abb Bbb Cbdim"
        );
    }

    #[test]
    fn the_degree_carries_the_chords_view_whatever_the_letter() {
        let chord_scale = ChordScale::over("G7alt".parse().unwrap(), "G altered".parse().unwrap());
        let triad = Triad::new(PitchClass::new(8), TriadQuality::Minor);
        let spelled = Speller::new(chord_scale.clone(), Spelling::Plain).triad(triad);
        assert_eq!(spelled.notes().map(|note| note.to_string()), ["A♭", "C♭", "E♭"]);
        assert_eq!(chord_scale.degree(PitchClass::new(11)).to_string(), "3");
    }

    /// Every triad of every named scale on every everyday root.
    #[test]
    fn plain_triads_stand_on_three_alternate_letters_or_everyday_names() {
        for class in PitchClass::all() {
            for root in NoteName::everyday(class) {
                for kind in crate::ScaleKind::all() {
                    let chord_scale = ChordScale::alone(crate::Scale::new(root, kind.clone()));
                    let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
                    for triad in chord_scale.scale().triads(TriadQuality::TERTIAN) {
                        let spelled = speller.triad(triad);
                        let sounds = spelled.notes().map(NoteName::pitch_class);
                        assert_eq!(sounds, triad.members(), "{spelled} in {}", chord_scale.scale());
                        assert!(spelled.notes().iter().all(|n| n.accidental().abs() <= 1));
                    }
                }
            }
        }
    }
}
