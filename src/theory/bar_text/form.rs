//! The order in which written bars are heard: repeats, endings, and going back.
//!
//! A repeat is taken where its bars are heard for the first time. Who has come back to them by
//! `D.C.` or `D.S.` plays them once, with the last ending, which is common practice. A jump is
//! taken once, the last time through the repeat in which it stands. Without `|:` a repeat goes back
//! to the first whole bar, or to the one after the repeat before; `D.C.` goes back to the first whole
//! bar too, so that a pick-up is heard once.

mod jumps;
mod repeats;

use super::mark::JumpUntil;
use super::problem::{Problem, Spot};
use super::written_bar::WrittenBar;
use jumps::Jumps;
use repeats::Repeats;

/// The most bars that may be heard.
const MOST: usize = 10_000;

/// Which written bars are heard, in order. `whole` is the first that is no pick-up.
///
/// # Errors
///
/// Where repeats, endings and marks do not fit together, and where more than 10,000 bars are heard.
pub(super) fn order(bars: &[WrittenBar], whole: usize) -> Result<Vec<usize>, Problem> {
    let repeats = Repeats::of(bars, whole)?;
    let jumps = Jumps::of(bars, whole, &repeats)?;
    Walk { bars, jumps, repeats, until: None, heard: 0, order: Vec::new() }.go()
}

struct Walk<'a> {
    bars: &'a [WrittenBar],
    jumps: Jumps,
    repeats: Repeats,
    /// JumpUntil where it goes since the last jump.
    until: Option<JumpUntil>,
    /// How many bars have been heard.
    heard: usize,
    order: Vec<usize>,
}

impl Walk<'_> {
    fn go(mut self) -> Result<Vec<usize>, Problem> {
        let mut next = Some(0);
        while let Some(at) = next {
            let at = self.repeats.enter(at);
            let Some(bar) = self.bars.get(at) else { break };
            self.heard += bar.heard_bars();
            if self.heard > MOST {
                let expected = format!("at most {MOST} bars to be heard");
                return Err(Problem::new(at, Spot::Beginning, expected));
            }
            self.order.push(at);
            next = self.after(at);
        }
        Ok(self.order)
    }

    /// Which bar comes after this one; `None` at the Fine.
    fn after(&mut self, at: usize) -> Option<usize> {
        let on_the_way = self.until;
        match on_the_way {
            Some(JumpUntil::End | JumpUntil::Fine) if self.jumps.fine == Some(at) => return None,
            Some(JumpUntil::Coda) if self.jumps.to_coda == Some(at) => {
                self.until = None;
                return self.jumps.coda;
            }
            Some(JumpUntil::End | JumpUntil::Fine | JumpUntil::Coda) | None => {}
        }
        if let Some(back) = self.repeats.leave(at) {
            return Some(back);
        }
        if self.repeats.is_last_pass(at)
            && let Some(jump) = self.jumps.take(at)
        {
            self.until = Some(jump.until);
            return Some(jump.to);
        }
        Some(at + 1)
    }
}
