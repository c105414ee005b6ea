//! Stabs as the search sees them: numbered spots, and the steps between them.

use std::rc::Rc;

/// A stab: what may be played there, by index.
#[derive(Clone, Debug)]
pub(super) struct Stage {
    /// What each spot costs by itself.
    pub(super) own: Rc<[u32]>,
    /// The steps from the spots of the stage before; none to those of the first stage.
    pub(super) steps: Rc<Steps>,
}

/// The steps from the spots of one stage to those of another.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Steps {
    to: Vec<Vec<(usize, u32)>>,
}

impl Steps {
    /// The steps to each of so many spots from each of so many, where `cost` allows them; it is asked
    /// for the spot that a step comes from and the one it goes to.
    pub(super) fn between(
        from: usize,
        to: usize,
        cost: impl Fn(usize, usize) -> Option<u32>,
    ) -> Steps {
        let into = |to| (0..from).filter_map(|from| Some((from, cost(from, to)?))).collect();
        Steps { to: (0..to).map(into).collect() }
    }

    /// The spots from which a step goes to a spot, each with what the step costs.
    pub(super) fn to(&self, spot: usize) -> &[(usize, u32)] {
        self.to.get(spot).map_or(&[], Vec::as_slice)
    }
}
