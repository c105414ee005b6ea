//! Scales: a root and a kind, spelled one letter to a degree.
//!
//! Any scale of three to twelve notes can be typed, as its name, its notes or as degrees over a root
//! (`scale/read.rs`).

mod read;

use std::fmt;

use crate::{Degree, NoteName, PitchClass, PitchClassSet, ScaleKind, Triad, TriadQuality};

/// A scale: a root and a kind.
///
/// # Example
///
/// ```
/// use fretloom_theory::Scale;
/// let scale: Scale = "G Lydian".parse().unwrap();
/// let notes: Vec<String> = scale.notes().map(|note| note.to_string()).collect();
/// assert_eq!(notes.join(" "), "G A B C♯ D E F♯");
/// assert_eq!(scale.parent().unwrap().to_string(), "D major");
/// assert_eq!("D E F G A B C".parse::<Scale>().unwrap().to_string(), "D Dorian");
/// assert!("G Lidian".parse::<Scale>().is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Scale {
    root: NoteName,
    kind: ScaleKind,
    respelled_from: Option<NoteName>,
    set: PitchClassSet,
    /// By pitch class; none outside the scale.
    names: [Option<NoteName>; 12],
}

impl Scale {
    /// The scale of `kind` on `root`.
    ///
    /// Where the spelling would need a triple accidental, the enharmonic root is used instead, and
    /// [`respelled_from`](Self::respelled_from) tells the root that was asked for. Where that would not
    /// do either, as in `C♭: 1 ♭♭3 ♯♯5`, the notes in question take their everyday names.
    #[must_use]
    pub fn new(root: NoteName, kind: ScaleKind) -> Scale {
        let writable = |root: &NoteName| {
            kind.degrees().iter().all(|degree| root.up(degree.interval()).is_some())
        };
        let mut others = NoteName::everyday(root.pitch_class()).filter(writable);
        match others.next() {
            Some(other) if !writable(&root) => Scale::written(other, kind, Some(root)),
            _ => Scale::written(root, kind, None),
        }
    }

    /// The scale with its notes named: once, since every pair asks for them.
    fn written(root: NoteName, kind: ScaleKind, respelled_from: Option<NoteName>) -> Scale {
        let set = kind.set_over(root.pitch_class());
        let mut names = [None; 12];
        for degree in kind.degrees() {
            let class = degree.over(root.pitch_class());
            let everyday = || NoteName::everyday(class).next();
            names[usize::from(class.number())] = root.up(degree.interval()).or_else(everyday);
        }
        Scale { root, kind, respelled_from, set, names }
    }

    /// Its root.
    #[must_use]
    pub fn root(&self) -> NoteName {
        self.root
    }

    /// Its kind.
    #[must_use]
    pub fn kind(&self) -> &ScaleKind {
        &self.kind
    }

    /// The root that was asked for, where it had to be respelled.
    #[must_use]
    pub fn respelled_from(&self) -> Option<NoteName> {
        self.respelled_from
    }

    /// Its notes, the root first, each on the letter of its degree where it can be written there.
    pub fn notes(&self) -> impl Iterator<Item = NoteName> {
        let root = self.root.pitch_class();
        self.kind.degrees().iter().filter_map(move |degree| self.name_of(degree.over(root)))
    }

    /// Its notes as a set.
    #[must_use]
    pub fn set(&self) -> PitchClassSet {
        self.set
    }

    /// The degree that the scale itself gives to a note; `None` outside the scale.
    pub(crate) fn degree_of(&self, class: PitchClass) -> Option<Degree> {
        let semitones = self.root.pitch_class().semitones_up_to(class);
        self.kind.degrees().iter().copied().find(|degree| degree.semitones() == semitones)
    }

    /// The name that the scale itself gives to a note; `None` outside the scale.
    #[must_use]
    pub fn name_of(&self, class: PitchClass) -> Option<NoteName> {
        self.names[usize::from(class.number())]
    }

    /// The scale that this one is a mode of (itself, where it is mode 1).
    #[must_use]
    pub fn parent(&self) -> Option<ParentScale> {
        let (name, mode) = self.kind.parent()?;
        // Dorian is mode 2, so its parent stands on its seventh degree.
        let on = self.kind.degrees().get((8 - usize::from(mode)) % 7)?;
        Some(ParentScale { root: self.root.up(on.interval())?, name, mode })
    }

    /// Does the scale spell this triad in thirds (a sus in a fourth and a fifth), letter by letter?
    ///
    /// An augmented triad is asked about the root it is given.
    #[must_use]
    pub fn spells(&self, triad: Triad) -> bool {
        let [second, third] = triad.quality().intervals();
        self.name_of(triad.root()).is_some_and(|root| {
            [second, third].into_iter().all(|interval| {
                let class = triad.root().up(i32::from(interval.semitones()));
                self.name_of(class).is_some_and(|name| root.interval_up_to(name) == interval)
            })
        })
    }

    /// Every triad of these qualities that lies in the scale, each sound once, by the order of the
    /// roots in the scale. An augmented triad stands under the root on which the scale spells it,
    /// else under the first of its roots going up the scale.
    #[must_use]
    pub fn triads(&self, qualities: &[TriadQuality]) -> Vec<Triad> {
        let root = self.root.pitch_class();
        let mut triads: Vec<Triad> = Triad::every(qualities)
            .filter(|triad| triad.set().is_subset(self.set()))
            .map(|triad| self.with_root_in_scale(triad))
            .collect();
        triads.sort_by_key(|triad| root.semitones_up_to(triad.root()));
        triads
    }

    /// The same sound under the root that the scale gives it; only augmented triads have a choice.
    fn with_root_in_scale(&self, triad: Triad) -> Triad {
        if triad.quality() != TriadQuality::Augmented {
            return triad;
        }
        let named = |root| Triad::new(root, TriadQuality::Augmented);
        let roots = || triad.set().going_up_from(self.root.pitch_class()).map(named);
        roots().find(|triad| self.spells(*triad)).or_else(|| roots().next()).unwrap_or(triad)
    }
}

/// The scale that another is a mode of; prints as `D major`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ParentScale {
    /// The parent's root.
    pub root: NoteName,
    /// The parent's name as players say it: `major`, `melodic minor` …
    pub name: &'static str,
    /// Which mode of it, 1 for the parent itself.
    pub mode: u8,
}

impl ParentScale {
    /// The same scale on the root that players name it by: A melodic minor, not B♭♭.
    ///
    /// ```
    /// use fretloom_theory::Scale;
    /// let altered: Scale = "Ab altered".parse().unwrap();
    /// let parent = altered.parent().unwrap();
    /// assert_eq!(parent.to_string(), "B♭♭ melodic minor");
    /// assert_eq!(parent.on_everyday_root().to_string(), "A melodic minor");
    /// ```
    #[must_use]
    pub fn on_everyday_root(self) -> ParentScale {
        let everyday = || NoteName::everyday(self.root.pitch_class()).next();
        let root = if self.root.is_everyday() { None } else { everyday() };
        ParentScale { root: root.unwrap_or(self.root), ..self }
    }
}

impl fmt::Display for ParentScale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.root.fmt(f)?;
        write!(f, " {}", self.name)
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.root.fmt(f)?;
        if self.kind.name().is_empty() {
            f.write_str(":")?;
            return self.kind.degrees().iter().try_for_each(|degree| {
                f.write_str(" ")?;
                degree.fmt(f)
            });
        }
        f.write_str(" ")?;
        if f.alternate() {
            return f.write_str(self.kind.name());
        }
        f.write_str(&crate::text::with_signs(self.kind.name()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Letter;

    /// Every root and every couple of degrees over it: a note that cannot stand on its letter is
    /// written otherwise, never left out.
    #[test]
    fn no_scale_loses_a_note() {
        let degrees: Vec<Degree> = (1..=7)
            .chain([9, 11, 13])
            .flat_map(|number| (-2..=2).filter_map(move |sharps| Degree::new(number, sharps)))
            .collect();
        let roots = Letter::ALL
            .into_iter()
            .flat_map(|letter| (-2..=2).filter_map(move |sharps| NoteName::new(letter, sharps)));
        for root in roots {
            for second in &degrees {
                for third in &degrees {
                    let three = [Degree::ROOT, *second, *third];
                    let Some(kind) = ScaleKind::own("", &three) else { continue };
                    let scale = Scale::new(root, kind);
                    let sounds: Vec<PitchClass> =
                        scale.notes().map(NoteName::pitch_class).collect();
                    let wanted = three.map(|degree| degree.over(root.pitch_class()));
                    assert_eq!(sounds, wanted, "{root}: {three:?}");
                    assert_ne!(scale.respelled_from(), Some(scale.root()));
                }
            }
        }
    }
}
