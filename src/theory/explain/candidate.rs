//! The pairs that may explain a stretch of a line.

use super::cost;
use super::field::Field;
use super::ground::Ground;
use super::sounded::{Sounded, classes};
use crate::{PitchClass, PitchClassSet, Triad, TriadPair, TriadQuality, WhichTriad};

/// A pair that may explain a span.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    /// In one order for all spans, whatever the chord.
    pub(super) pair: TriadPair,
    /// What it costs to bring it in.
    pub(super) cost: u32,
    /// Does a scale hold it that players reach for over the chord? Without a chord every pair is as
    /// usual as another.
    pub(super) is_usual: bool,
    /// By pitch class: the triad that has it, and which of its members it is, as a bit.
    members: [Option<(WhichTriad, u8)>; 12],
}

/// How many pairs are looked at in a span. Eight eighths hold three or four; a bar that holds more
/// than this many is no line of pairs.
const MOST: usize = 24;
/// Free notes in a row that a group may hold.
pub(super) const FREE_IN_A_ROW: usize = 2;

impl Candidate {
    pub(super) fn new(pair: TriadPair, ground: Option<&Ground>) -> Candidate {
        let place = match ground {
            Some(ground) => {
                let held = ground.holding(pair.set()).map(|(place, _)| place);
                held.filter(|place| *place < ground.usual)
            }
            None => Some(0),
        };
        let mut members = [None; 12];
        for which in WhichTriad::BOTH {
            for (at, class) in which.triad_of(pair).members().into_iter().enumerate() {
                members[usize::from(class.number())] = Some((which, 1 << at));
            }
        }
        Candidate { pair, cost: cost::pair(place), is_usual: place.is_some(), members }
    }

    /// The triad that has a note, and a bit for which of its members it is.
    pub(super) fn member(&self, class: PitchClass) -> Option<(WhichTriad, u8)> {
        self.members[usize::from(class.number())]
    }

    /// Those of each span: both triads sound whole in or near it, or one does and the other in the
    /// span before or after.
    pub(super) fn all(
        fields: &[Field],
        notes: &[Sounded],
        grounds: &[Ground],
    ) -> Vec<Vec<Candidate>> {
        let triads = triads(notes);
        let whole: Vec<u64> = fields.iter().map(|field| field.whole(&triads, notes)).collect();
        let near = |at: usize| {
            let before = at.checked_sub(1).and_then(|at| whole.get(at)).copied();
            whole[at] | before.unwrap_or(0) | whole.get(at + 1).copied().unwrap_or(0)
        };
        let of_field = |(at, field): (usize, &Field)| {
            let ground = field.chord.and_then(|chord| grounds.get(chord));
            let own = field.own_notes(notes);
            let both = couples(&triads, whole[at], whole[at]);
            let mut pairs = couples(&triads, whole[at], near(at));
            pairs.retain(|pair| could_explain(*pair, own));
            let mut candidates: Vec<Candidate> =
                pairs.into_iter().map(|pair| Candidate::new(pair, ground)).collect();
            candidates.retain(|candidate| candidate.is_usual || both.contains(&candidate.pair));
            if candidates.len() > MOST {
                candidates.sort_by_key(|candidate| (outside(candidate.pair, own), candidate.cost));
                candidates.truncate(MOST);
            }
            candidates
        };
        fields.iter().enumerate().map(of_field).collect()
    }
}

/// The tertian triads, going up from the first note of a line, so that it is read alike in every
/// key. An augmented triad stands under the first of its roots.
fn triads(notes: &[Sounded]) -> Vec<Triad> {
    let first = notes.first().map_or(0, |note| note.pitch.pitch_class().number());
    Triad::every(TriadQuality::TERTIAN).map(|triad| triad.up(i32::from(first))).collect()
}

/// The pairs of a triad of the first list and one of the second; the lists are bits.
fn couples(triads: &[Triad], first: u64, second: u64) -> Vec<TriadPair> {
    let listed = |bits: u64, at: usize| bits >> at & 1 == 1;
    let mut pairs = Vec::new();
    for (a, lower) in triads.iter().enumerate().filter(|(a, _)| listed(first | second, *a)) {
        for (b, upper) in triads.iter().enumerate().skip(a + 1) {
            if listed(first, a) && listed(second, b) || listed(first, b) && listed(second, a) {
                pairs.extend(TriadPair::in_order(*lower, *upper));
            }
        }
    }
    pairs
}

/// Are at most half of the notes outside? More than a quarter may be another chord's that comes
/// early or hangs over.
fn could_explain(pair: TriadPair, notes: &[Sounded]) -> bool {
    2 * outside(pair, notes) <= notes.len()
}

fn outside(pair: TriadPair, notes: &[Sounded]) -> usize {
    let set = pair.set();
    notes.iter().filter(|note| !set.contains(note.pitch.pitch_class())).count()
}

impl Field {
    /// Which of the triads sound whole in a run of their notes in or near the span, as bits. At most
    /// [`FREE_IN_A_ROW`] other notes stand between two of a run.
    fn whole(&self, triads: &[Triad], notes: &[Sounded]) -> u64 {
        let near = self.near_notes(notes);
        let sounded = classes(near);
        let whole =
            |triad: &Triad| triad.set().is_subset(sounded) && sounds_whole(triad.set(), near);
        let bit = |(at, triad): (usize, &Triad)| u64::from(whole(triad)) << at;
        triads.iter().enumerate().map(bit).fold(0, |bits, bit| bits | bit)
    }
}

fn sounds_whole(triad: PitchClassSet, notes: &[Sounded]) -> bool {
    let mut sounded = PitchClassSet::EMPTY;
    let mut others = 0;
    for class in notes.iter().map(|note| note.pitch.pitch_class()) {
        if triad.contains(class) {
            sounded = sounded.with(class);
            others = 0;
        } else {
            others += 1;
        }
        if others > FREE_IN_A_ROW {
            sounded = PitchClassSet::EMPTY;
        }
        if sounded == triad {
            return true;
        }
    }
    false
}
