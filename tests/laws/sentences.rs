//! The sentence of a pair: taken apart, and each claim worked out afresh.

use std::collections::HashSet;

use fretloom::answer::{Harmony, Wishes, every_pair, pairs_over};
use fretloom_theory::{ChordScale, Families, PairSound, Scale, ScaleKind, Spelling, TriadQuality};

use crate::arithmetic::{number_and_accidental, semitones_of, sorted};
use crate::scene::Scene;
use crate::{CHORDS, ROOTS, called, grounds, scale};

/// A sentence taken apart; degrees stay as they are written.
#[derive(Default, Debug)]
struct Claims {
    triads: Vec<(&'static str, String)>,
    apart: Option<String>,
    home: Option<String>,
    every_chord_tone: bool,
    states: Vec<String>,
    colours: Vec<String>,
    leaves_out: Vec<String>,
    rubs: Vec<String>,
    no_rub: bool,
}

/// One triad and several of a quality, in words, with the semitones above its root.
const QUALITIES: [(&str, &str, [i32; 3]); 6] = [
    ("major", "majors", [0, 4, 7]),
    ("minor", "minors", [0, 3, 7]),
    ("diminished", "diminished triads", [0, 3, 6]),
    ("augmented", "augmented triads", [0, 4, 8]),
    ("sus", "sus triads", [0, 5, 7]),
    ("flat-five", "flat-five triads", [0, 4, 6]),
];

/// `majors on 1 and 9` or `major on 5 and minor on 13`.
fn read_triads(words: &str) -> Vec<(&'static str, String)> {
    let [one, other] = words.split(" and ").collect::<Vec<_>>()[..] else { panic!("{words:?}") };
    let (quality, degree) = one.split_once(" on ").unwrap();
    if let Some((name, ..)) = QUALITIES.iter().find(|(_, plural, _)| *plural == quality) {
        return vec![(*name, degree.to_owned()), (*name, other.to_owned())];
    }
    let named = |triad: &str| {
        let (quality, degree) = triad.split_once(" on ").unwrap();
        let known = QUALITIES.iter().find(|(one, ..)| *one == quality);
        (known.unwrap_or_else(|| panic!("{words:?}")).0, degree.to_owned())
    };
    vec![named(one), named(other)]
}

fn read(sentence: &str) -> Claims {
    let mut parts = sentence.split("; ");
    let mut first = parts.next().unwrap().split(", ");
    let mut claims = Claims { triads: read_triads(first.next().unwrap()), ..Claims::default() };
    for words in first {
        match (words.strip_suffix(" apart"), words.strip_prefix("one of them ")) {
            (Some(distance), _) => claims.apart = Some(distance.to_owned()),
            (_, Some(home)) => claims.home = Some(home.to_owned()),
            _ => panic!("{words:?} in {sentence:?}"),
        }
    }
    for part in parts {
        claims.read_part(part);
    }
    claims
}

impl Claims {
    fn read_part(&mut self, part: &str) {
        let list = |words: &str| words.split(' ').map(str::to_owned).collect();
        let lists = [
            ("states ", &mut self.states),
            ("colours ", &mut self.colours),
            ("leaves out ", &mut self.leaves_out),
            ("rubs ", &mut self.rubs),
        ];
        for (before, degrees) in lists {
            if let Some(words) = part.strip_prefix(before) {
                *degrees = list(words);
                return;
            }
        }
        match part {
            "no rub" => self.no_rub = true,
            "every chord tone" => self.every_chord_tone = true,
            _ => panic!("{part:?} says nothing known"),
        }
    }
}

fn up(degrees: &[String]) -> Vec<i32> {
    degrees.iter().map(|degree| semitones_of(degree)).collect()
}

/// A pair in a scene with the sentence that is to be judged.
struct Case<'a> {
    scene: &'a Scene,
    triads: [Vec<i32>; 2],
    claims: Claims,
}

impl Case<'_> {
    fn six(&self) -> Vec<i32> {
        sorted(self.triads.concat())
    }

    fn rubbing(&self) -> Vec<i32> {
        self.six().into_iter().filter(|note| self.scene.rubs(*note)).collect()
    }

    /// Both triads are named by a root and a quality that sound as they do.
    fn triads_hold(&self) -> bool {
        let notes = |(quality, degree): &(&str, String)| {
            let (_, _, shape) = QUALITIES.iter().find(|(name, ..)| name == quality).unwrap();
            sorted(shape.map(|semitones| semitones_of(degree) + semitones))
        };
        self.claims.triads.iter().map(notes).eq(self.triads.iter().cloned())
    }

    /// How far apart they are is said of two majors only.
    fn distance_holds(&self) -> bool {
        let [(one, root), (other, other_root)] = &self.claims.triads[..] else { return false };
        let words = match (semitones_of(other_root) - semitones_of(root)).rem_euclid(12) {
            1 | 11 => "a half step",
            2 | 10 => "a step",
            6 => "a tritone",
            _ => "too far for two majors",
        };
        let majors = (*one, *other) == ("major", "major");
        self.claims.apart.as_deref() == majors.then_some(words)
    }

    /// The chord itself, or the home triad of a scale alone: said where it is one of the two. A
    /// scale may write two such triads; then either may be meant.
    fn home_holds(&self) -> bool {
        let words = if self.scene.chord.is_some() { "the chord itself" } else { "the home triad" };
        let own = self.scene.own_triads();
        let present = own.iter().any(|notes| self.triads.contains(notes));
        match &self.claims.home {
            Some(said) => said == words && present,
            None => !present || own.len() > 1,
        }
    }

    fn chord_tones_hold(&self) -> bool {
        let six = self.six();
        let all = self.scene.tones().iter().all(|tone| six.contains(tone));
        self.claims.every_chord_tone == (self.scene.chord.is_some() && all)
    }

    /// Third and seventh are named where both are there and nothing more is said of the chord.
    fn states_hold(&self) -> bool {
        let six = self.six();
        let guide_tones = self.scene.guide_tones();
        let both = guide_tones.filter(|tones| tones.iter().all(|tone| six.contains(tone)));
        match (both, self.claims.every_chord_tone) {
            (Some(tones), false) => {
                let numbers =
                    self.claims.states.iter().map(|degree| number_and_accidental(degree).0);
                let [third, seventh] = numbers.collect::<Vec<_>>()[..] else { return false };
                up(&self.claims.states) == tones
                    && matches!(third, 2..=4)
                    && matches!(seventh, 6 | 7)
            }
            _ => self.claims.states.is_empty(),
        }
    }

    /// Ninths, elevenths and thirteenths of the pair, going up: three at least, and none that rubs.
    fn colours_hold(&self) -> bool {
        let (colours, six, sure) = (up(&self.claims.colours), self.six(), self.sure_colours());
        if !self.rubbing().is_empty() || colours.is_empty() {
            return colours.is_empty() && (sure.len() < 3 || !self.rubbing().is_empty());
        }
        colours.len() >= 3
            && colours.is_sorted()
            && colours.iter().all(|note| six.contains(note))
            && sure.iter().all(|note| colours.contains(note))
            && self.claims.colours.iter().all(|degree| self.may_colour(degree))
    }

    /// Over `alt` the fifths may colour too.
    fn may_colour(&self, degree: &str) -> bool {
        match number_and_accidental(degree).0 {
            9 | 11 | 13 => true,
            5 => self.scene.chord.as_ref().is_some_and(|chord| chord.alt),
            _ => false,
        }
    }

    /// A half step, a whole step and a fourth above the root of a chord colour it unless the symbol
    /// names them as a second or a fourth.
    fn sure_colours(&self) -> Vec<i32> {
        let Some(chord) = &self.scene.chord else { return Vec::new() };
        let plain = chord.degrees.iter().filter(|degree| number_and_accidental(degree).0 < 8);
        let named: Vec<i32> = plain.map(|degree| semitones_of(degree)).collect();
        let six = self.six();
        let sure = |note: &i32| six.contains(note) && !named.contains(note);
        [1, 2, 5].into_iter().filter(sure).collect()
    }

    /// The notes of the scale that are in neither triad; what rubs, or that nothing does.
    fn rest_holds(&self) -> bool {
        let six = self.six();
        let left: Vec<i32> =
            self.scene.scale.iter().copied().filter(|note| !six.contains(note)).collect();
        let rubbing = self.rubbing();
        up(&self.claims.leaves_out) == left
            && up(&self.claims.rubs) == rubbing
            && self.claims.no_rub == rubbing.is_empty()
    }

    /// Over a chord and by itself a scale has its own words for its degrees.
    fn words_hold(&self) -> bool {
        let known: &[&str] = if self.scene.chord.is_some() { &OVER_A_CHORD } else { &ALONE };
        let claims = &self.claims;
        let lists = [&claims.states, &claims.colours, &claims.leaves_out, &claims.rubs];
        let of_triads = claims.triads.iter().map(|(_, degree)| degree);
        lists.into_iter().flatten().chain(of_triads).all(|degree| known.contains(&degree.as_str()))
    }

    fn failing(&self) -> Vec<&'static str> {
        let laws = [
            ("triads", self.triads_hold()),
            ("distance", self.distance_holds()),
            ("home", self.home_holds()),
            ("chord tones", self.chord_tones_hold()),
            ("third and seventh", self.states_hold()),
            ("colours", self.colours_hold()),
            ("left out and rubs", self.rest_holds()),
            ("words", self.words_hold()),
        ];
        laws.into_iter().filter(|(_, holds)| !holds).map(|(law, _)| law).collect()
    }
}

/// The degrees that an answer over a chord may name: the documented words of the JSON.
const OVER_A_CHORD: [&str; 19] = [
    "1", "b9", "9", "#9", "b3", "3", "2", "4", "11", "#11", "b5", "5", "#5", "b13", "6", "13",
    "bb7", "b7", "7",
];

/// The degrees of a scale by itself: the documented words of the JSON.
const ALONE: [&str; 17] = [
    "1", "b2", "2", "#2", "b3", "3", "b4", "4", "#4", "b5", "5", "#5", "b6", "6", "bb7", "b7", "7",
];

/// Judges every sentence of a list; all of them differ.
fn check(chord_scale: &ChordScale) {
    let scene = Scene::of(chord_scale);
    let mut sentences = HashSet::new();
    for sound in PairSound::ranked(chord_scale, TriadQuality::TERTIAN) {
        let sentence = format!("{:#}", sound.reason(chord_scale));
        let triads = scene.above(sound.pair());
        let case = Case { scene: &scene, triads, claims: read(&sentence) };
        let failing = case.failing();
        assert!(failing.is_empty(), "{failing:?}: {sentence:?} over {}", called(chord_scale));
        assert!(sentences.insert(sentence), "said twice over {}", called(chord_scale));
    }
}

/// On C only: that other roots say the same is a law of its own.
#[test]
fn every_claim_of_every_sentence_holds_and_no_two_pairs_share_theirs() {
    grounds("C").for_each(|chord_scale| check(&chord_scale));
}

/// Scales with a parent and the symmetric ones of whole steps, on every root.
fn scales_on_every_root() -> impl Iterator<Item = Scale> {
    let roots = ROOTS.iter().filter(|root| !root.ends_with('#'));
    roots.flat_map(|root| {
        let common = |kind: &&ScaleKind| kind.parent().is_some() || kind.name().contains("whole");
        ScaleKind::all().iter().filter(common).map(move |kind| scale(root, kind))
    })
}

/// A scale may be asked for on a root that is not the chord's, and a chord may have a bass.
#[test]
fn sentences_hold_where_chord_scale_and_bass_stand_on_different_roots() {
    let chords = CHORDS.map(|chord| format!("C{chord}"));
    let slashes = ["C/E", "C7/Bb", "C/F#", "Cm7/F", "C7alt/E", "Cmaj7/G", "Csus2/D"];
    for chord in chords.iter().map(String::as_str).chain(slashes) {
        for scale in scales_on_every_root() {
            check(&ChordScale::over(chord.parse().unwrap(), scale));
        }
    }
}

#[test]
fn the_answer_carries_the_sentence_in_signs_and_in_ascii() {
    for chord in CHORDS {
        let harmony = Harmony::of_chord(&format!("F#{chord}")).unwrap();
        let families = Families::default();
        let answer = pairs_over(&harmony, &families, &Wishes::default(), Spelling::Plain);
        let sounds = PairSound::ranked(harmony.chord_scale(), families.qualities());
        for (pair, sound) in answer.pairs.iter().zip(&sounds) {
            let sentence = sound.reason(harmony.chord_scale());
            assert_eq!(pair.why.to_string(), sentence.to_string());
            assert_eq!(format!("{:#}", pair.why), format!("{sentence:#}"));
            let in_signs = pair.why.to_string().replace('♭', "b").replace('♯', "#");
            assert_eq!(format!("{:#}", pair.why), in_signs);
        }
    }
}

#[test]
fn of_every_pair_there_is_no_two_share_a_sentence() {
    let families: Families = "all".parse().unwrap();
    let pairs = every_pair(&families, Spelling::Plain).pairs;
    let sentences: HashSet<String> = pairs.iter().map(|pair| pair.sentence().to_string()).collect();
    assert_eq!(sentences.len(), pairs.len());
    for pair in &pairs {
        let [first, second] = pair.name.names();
        let [root, other] = [first, second].map(|triad| format!("{:#}", triad.root()));
        let apart = crate::arithmetic::class_of(&other) - crate::arithmetic::class_of(&root);
        let interleaving =
            if pair.pair.interleaves() { "interleaving" } else { "not interleaving" };
        let expected = format!(
            "{root} {} and {other} {}, roots {} semitones apart, {interleaving}",
            first.quality().word(),
            second.quality().word(),
            apart.rem_euclid(12),
        );
        assert_eq!(format!("{:#}", pair.sentence()), expected);
    }
}
