//! What the search knows when it has read a note.

use super::super::cost;

/// All that the rest of a line needs to know of what was read so far.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct State {
    pub(super) field: u32,
    /// The group in which the reading stands; `None` where no pair explains the field.
    pub(super) group: Option<Group>,
}

/// A group, as far as it has sounded, and what is known of its field.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Group {
    /// Which of the candidates of the field.
    pub(super) candidate: u8,
    /// Which of its triads.
    pub(super) triad: Triads,
    /// Which of the triad's members have sounded, as bits.
    pub(super) members: u8,
    /// Has it a single note so far?
    pub(super) lone: bool,
    /// The triads that sounded whole in this field.
    pub(super) whole: Triads,
    /// Did one of them do so in the time of the field?
    pub(super) on_time: bool,
    /// Those that did in the field before, where that has the same pair.
    pub(super) whole_before: Triads,
    /// Those that the field before needs to sound whole in this one.
    pub(super) owed: Triads,
    /// How many notes of the field are free.
    pub(super) free: u8,
}

/// None, one or both of the triads of a pair.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Triads(u8);

impl Triads {
    pub(super) const NONE: Triads = Triads(0);
    pub(super) const FIRST: Triads = Triads(1);
    pub(super) const SECOND: Triads = Triads(2);
    pub(super) const BOTH: Triads = Triads(3);

    pub(super) const fn and(self, other: Triads) -> Triads {
        Triads(self.0 | other.0)
    }

    /// Those that are in neither of two.
    const fn in_neither(one: Triads, other: Triads) -> Triads {
        Triads(3 & !(one.0 | other.0))
    }

    const fn holds(self, other: Triads) -> bool {
        other.0 & !self.0 == 0
    }
}

/// The three members of a triad, as bits.
const MEMBERS: u8 = 0b111;

impl Group {
    /// The first group of a field, before its first note.
    pub(super) const fn first(candidate: usize, triad: Triads, free: u8) -> Group {
        Group {
            candidate: candidate as u8,
            triad,
            members: 0,
            lone: true,
            whole: Triads::NONE,
            on_time: false,
            whole_before: Triads::NONE,
            owed: Triads::NONE,
            free,
        }
    }

    /// A new group of a triad in the same field, before its first note.
    pub(super) const fn next(self, triad: Triads) -> Group {
        Group { triad, members: 0, lone: true, ..self }
    }

    /// The same group with a note more; `member` is the bit of the triad's member that it is.
    /// `counted` are the triads that count as whole once the group has all three.
    pub(super) fn sounding(self, member: u8, counted: Triads, on_time: bool) -> Group {
        let lone = self.members == 0;
        let members = self.members | member;
        let counts = members == MEMBERS && counted.holds(self.triad);
        let whole = if counts { self.whole.and(self.triad) } else { self.whole };
        let on_time = self.on_time || counts && on_time;
        Group { members, lone, whole, on_time, ..self }
    }

    /// What the next field has to supply: the triads that sounded whole neither here nor before.
    /// `None` where the reading must not leave the field at all: no triad of it has sounded whole,
    /// or not the one that is owed. An unusual pair needs both in the field itself.
    pub(super) fn lacks(self, is_usual: bool) -> Option<Triads> {
        let least = if is_usual { self.owed } else { Triads::BOTH };
        let fair = self.on_time && self.whole.holds(least);
        fair.then(|| Triads::in_neither(self.whole, self.whole_before))
    }

    /// The same group going on in the next field under the same pair.
    pub(super) fn carried(self, candidate: usize, lacks: Triads, free: u8) -> Group {
        // A group that has sounded whole counts there only if it does so once more.
        let members = if self.members == MEMBERS { 0 } else { self.members };
        let (whole_before, whole, on_time) = (self.whole, Triads::NONE, false);
        let candidate = candidate as u8;
        Group { candidate, members, whole, on_time, whole_before, owed: lacks, free, ..self }
    }

    /// What it costs to leave it.
    pub(super) const fn end_cost(self) -> u32 {
        if self.lone { cost::LONE_NOTE } else { 0 }
    }
}

/// A state that was reached, and how.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Node {
    pub(super) state: State,
    pub(super) cost: u32,
    /// The node before; [`START`](Self::START) for none.
    pub(super) back: u32,
    pub(super) note: u32,
    /// Does a group begin with this note?
    pub(super) begins: bool,
}

impl Node {
    pub(super) const START: u32 = u32::MAX;
}
