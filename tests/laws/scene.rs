//! What a chord and a scale hold, in semitones above the root, read afresh from their names.

use fretloom_theory::{ChordScale, TriadPair};

use crate::arithmetic::{class_of, number_and_accidental, semitones_of, sorted};

/// The chord's side of a scene.
pub(crate) struct Tones {
    /// Each degree that the symbol names, in ASCII.
    pub(crate) degrees: Vec<String>,
    /// The bass, where there is one.
    pub(crate) bass: Option<i32>,
    /// Was it written `alt`?
    pub(crate) alt: bool,
}

/// A chord and a scale, or a scale alone.
pub(crate) struct Scene {
    root: i32,
    /// The chord, if there is one.
    pub(crate) chord: Option<Tones>,
    /// The scale's notes.
    pub(crate) scale: Vec<i32>,
    /// The letters of the scale counted from the root's (0 to 6), each with its semitones.
    letters: Vec<(usize, i32)>,
}

impl Scene {
    pub(crate) fn of(chord_scale: &ChordScale) -> Scene {
        let root_name = format!("{:#}", chord_scale.root());
        let root = class_of(&root_name);
        let above = |name: &str| (class_of(name) - root).rem_euclid(12);
        let notes: Vec<String> =
            chord_scale.scale().notes().map(|note| format!("{note:#}")).collect();
        let chord = chord_scale.chord().map(|chord| Tones {
            degrees: chord.degrees().iter().map(|degree| format!("{degree:#}")).collect(),
            bass: chord.bass().map(|bass| above(&format!("{bass:#}"))),
            alt: chord.to_string().contains("alt"),
        });
        let place = |name: &str| "CDEFGAB".find(&name[..1]).unwrap();
        let from = notes.iter().find(|name| above(name) == 0).unwrap_or(&root_name);
        let letter = |name: &String| ((place(name) + 7 - place(from)) % 7, above(name));
        Scene {
            root,
            chord,
            scale: sorted(notes.iter().map(|name| above(name))),
            letters: notes.iter().map(letter).collect(),
        }
    }

    /// A pair's two triads above the root.
    pub(crate) fn above(&self, pair: TriadPair) -> [Vec<i32>; 2] {
        let notes = |triad: fretloom_theory::Triad| {
            sorted(triad.members().map(|class| i32::from(class.number()) - self.root))
        };
        pair.triads().map(notes)
    }

    fn names(&self, degree: &str) -> bool {
        self.chord.as_ref().is_some_and(|chord| chord.degrees.iter().any(|named| named == degree))
    }

    /// What the symbol names; empty without a chord.
    pub(crate) fn tones(&self) -> Vec<i32> {
        let degrees = self.chord.iter().flat_map(|chord| &chord.degrees);
        sorted(degrees.map(|degree| semitones_of(degree)))
    }

    /// What sounds in the chord, its bass with it.
    fn sounding(&self) -> Vec<i32> {
        let bass = self.chord.as_ref().and_then(|chord| chord.bass);
        sorted(self.tones().into_iter().chain(bass))
    }

    /// Rubbing, as the program promises it: a half step above a note that sounds and is not itself
    /// sounding; over a dominant seventh b9, #9 and b13 are accepted; the b7 of a chord with a major
    /// seventh rubs too.
    pub(crate) fn rubs(&self, note: i32) -> bool {
        let sounding = self.sounding();
        let dominant = self.names("3") && self.names("b7");
        let accepted = dominant && matches!(note, 1 | 3 | 8);
        let rubbing_below = sounding.contains(&((note + 11) % 12)) && !accepted;
        let other_seventh = self.names("7") && note == 10;
        !sounding.contains(&note) && (rubbing_below || other_seventh)
    }

    fn first_named(&self, choices: &[&str]) -> Option<i32> {
        let named = choices.iter().find(|degree| self.names(degree));
        named.map(|degree| semitones_of(degree))
    }

    /// The scale's third. Over a chord that names none the ear takes the major one where it is
    /// there, whatever the letters; by itself a scale has it on its third letter.
    fn scale_third(&self) -> Option<i32> {
        match self.chord {
            Some(_) => [4, 3].into_iter().find(|third| self.scale.contains(third)),
            None => self.on_letter(2),
        }
    }

    /// The scale's seventh, the first one on its way up: minor, major, or the diminished one where
    /// the scale writes it on the seventh letter.
    fn scale_seventh(&self) -> Option<i32> {
        let heard = |(letter, up): &&(usize, i32)| match self.chord {
            Some(_) => matches!(up, 10 | 11) || (*letter, *up) == (6, 9),
            None => *letter == 6,
        };
        self.letters.iter().find(heard).map(|(_, up)| *up)
    }

    fn on_letter(&self, letter: usize) -> Option<i32> {
        self.letters.iter().find(|(at, _)| *at == letter).map(|(_, up)| *up)
    }

    /// The third, or what stands in its place, and the seventh or sixth: as the symbol names them,
    /// else the scale's.
    pub(crate) fn guide_tones(&self) -> Option<[i32; 2]> {
        let third = self.first_named(&["3", "b3", "4", "2"]).or_else(|| self.scale_third())?;
        let seventh = self.first_named(&["7", "b7", "bb7", "6"]);
        Some([third, seventh.or_else(|| self.scale_seventh())?])
    }

    /// Every triad in thirds on the root that the symbol names (without a chord: that the scale
    /// writes); none for `alt`, whose fifth is open.
    pub(crate) fn own_triads(&self) -> Vec<Vec<i32>> {
        let holds = |degree: &str| match &self.chord {
            Some(chord) => !chord.alt && self.names(degree),
            None => {
                let (number, _) = number_and_accidental(degree);
                self.letters.contains(&(number - 1, semitones_of(degree)))
            }
        };
        [["3", "5"], ["b3", "5"], ["b3", "b5"], ["3", "#5"]]
            .into_iter()
            .filter(|pair| pair.iter().all(|degree| holds(degree)))
            .map(|[third, fifth]| vec![0, semitones_of(third), semitones_of(fifth)])
            .collect()
    }
}
