//! What the search knows when it has read a note.

use super::super::cost;
use crate::WhichTriad;

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
    /// Did it begin in the field before, under the same pair?
    pub(super) carried: bool,
    /// Have both triads sounded in the field, whole or not?
    pub(super) mixed: bool,
    /// Did it begin when the field was over?
    pub(super) began_late: bool,
    /// The triads that sounded whole in this field.
    pub(super) whole: Triads,
    /// Those of them that did so in the time of the field.
    pub(super) on_time: Triads,
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

    pub(super) const fn of(which: WhichTriad) -> Triads {
        match which {
            WhichTriad::First => Triads::FIRST,
            WhichTriad::Second => Triads::SECOND,
        }
    }

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

/// When a note of a field sounds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Moment {
    Early,
    OnTime,
    Late,
}

/// How a field shows its pair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Proof {
    /// By both triads, or by one and the other in a field beside it.
    Beside,
    /// By both triads, whatever stands beside it: the pair is unusual.
    Alone,
    /// Never by itself: it is an arpeggio, and needs both triads in a field beside it as well.
    Never,
}

/// With what a group goes on in the next field.
pub(super) struct Carrying {
    /// The candidate there.
    pub(super) candidate: usize,
    /// What the field before has shown and needs.
    pub(super) whole_before: Triads,
    pub(super) owed: Triads,
    /// How many notes there are free already.
    pub(super) free: u8,
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
            carried: false,
            mixed: false,
            began_late: false,
            whole: Triads::NONE,
            on_time: Triads::NONE,
            whole_before: Triads::NONE,
            owed: Triads::NONE,
            free,
        }
    }

    /// A new group of a triad in the same field, before its first note.
    pub(super) fn next(self, triad: Triads) -> Group {
        let mixed = self.mixed || self.members > 0 && triad != self.triad;
        Group { triad, members: 0, carried: false, mixed, began_late: false, ..self }
    }

    /// The same group with a note more; `member` is the bit of the triad's member that it is. A group
    /// that was carried over counts where it began, and one that begins late not at all.
    pub(super) fn sounding(self, member: u8, moment: Moment) -> Group {
        if self.members == 0 && moment == Moment::Late {
            return Group { members: member, began_late: true, ..self };
        }
        let members = self.members | member;
        // It becomes whole once: one that was so early is not whole on time.
        if members != MEMBERS || self.members == MEMBERS {
            return Group { members, ..self };
        }
        if self.carried {
            let whole_before = self.whole_before.and(self.triad);
            let owed = if whole_before == Triads::BOTH { Triads::NONE } else { self.owed };
            return Group { members, whole_before, owed, ..self };
        }
        match moment {
            Moment::OnTime => {
                let (whole, on_time) = (self.whole.and(self.triad), self.on_time.and(self.triad));
                Group { members, whole, on_time, ..self }
            }
            Moment::Late if self.began_late => Group { members, ..self },
            Moment::Early | Moment::Late => {
                Group { members, whole: self.whole.and(self.triad), ..self }
            }
        }
    }

    /// What the next field has to supply. `None` where the reading must not leave the field at all.
    pub(super) fn lacks(self, proof: Proof) -> Option<Triads> {
        if self.on_time == Triads::NONE || !self.whole.holds(self.owed) {
            return None;
        }
        match proof {
            Proof::Alone | Proof::Beside if self.whole == Triads::BOTH => Some(Triads::NONE),
            Proof::Alone => None,
            Proof::Beside | Proof::Never if self.whole_before == Triads::BOTH => Some(Triads::NONE),
            Proof::Beside if self.free > 0 => Some(Triads::BOTH),
            Proof::Beside => Some(Triads::in_neither(self.whole, self.whole_before)),
            Proof::Never if self.owed != Triads::NONE || self.whole != Triads::BOTH => None,
            Proof::Never => Some(Triads::BOTH),
        }
    }

    /// The same group going on in the next field under the same pair.
    pub(super) fn carried(self, to: &Carrying) -> Group {
        Group {
            candidate: to.candidate as u8,
            carried: true,
            mixed: false,
            whole: Triads::NONE,
            on_time: Triads::NONE,
            whole_before: to.whole_before,
            owed: to.owed,
            free: to.free,
            ..self
        }
    }

    /// What it costs to end it.
    pub(super) const fn end_cost(self) -> u32 {
        if self.members == MEMBERS { 0 } else { cost::PART_OF_TRIAD }
    }

    /// What it costs to end it and to leave the field with what it has shown.
    pub(super) fn leave_cost(self) -> u32 {
        let out_of_time = if self.on_time == self.whole { 0 } else { cost::SHOWN_OUT_OF_TIME };
        out_of_time + self.end_cost()
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
