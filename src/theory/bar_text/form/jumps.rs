//! Segno, Coda and Fine, and where `D.C.` and `D.S.` lead.

use super::super::mark::{ClosingMark, Jump, JumpTo, JumpUntil, OpeningMark};
use super::super::problem::{Problem, Spot};
use super::super::written_bar::WrittenBar;
use super::repeats::Repeats;

/// Where the marks of a text stand, and where its jumps lead.
pub(super) struct Jumps {
    pub(super) to_coda: Option<usize>,
    pub(super) coda: Option<usize>,
    pub(super) fine: Option<usize>,
    /// For each written bar.
    jumps: Vec<Option<Leap>>,
}

/// A jump that has not been taken yet.
#[derive(Clone, Copy)]
pub(super) struct Leap {
    pub(super) to: usize,
    pub(super) until: JumpUntil,
}

impl Jumps {
    /// # Errors
    ///
    /// Where a mark stands twice, or a jump's Segno, Coda or Fine is not there or not where it is
    /// reached.
    pub(super) fn of(
        bars: &[WrittenBar],
        whole: usize,
        repeats: &Repeats,
    ) -> Result<Jumps, Problem> {
        let marks = Marks::of(bars, repeats)?;
        let mut jumps = vec![None; bars.len()];
        for jump in &marks.jumps {
            if let Some(slot) = jumps.get_mut(jump.bar) {
                *slot = Some(marks.leap(jump, whole)?);
            }
        }
        marks.refuse_what_is_never_reached(bars.len())?;
        let bar = |mark: Option<Mark>| mark.map(|mark| mark.bar);
        let (to_coda, coda, fine) = (bar(marks.to_coda), bar(marks.coda), bar(marks.fine));
        Ok(Jumps { to_coda, coda, fine, jumps })
    }

    /// Takes the jump at the end of this bar, which is then gone.
    pub(super) fn take(&mut self, at: usize) -> Option<Leap> {
        self.jumps.get_mut(at).and_then(Option::take)
    }
}

#[derive(Clone, Copy)]
struct Mark {
    bar: usize,
    spot: Spot,
}

struct JumpMark {
    bar: usize,
    spot: Spot,
    jump: Jump,
}

#[derive(Default)]
struct Marks {
    segno: Option<Mark>,
    to_coda: Option<Mark>,
    coda: Option<Mark>,
    fine: Option<Mark>,
    jumps: Vec<JumpMark>,
}

impl Marks {
    fn of(bars: &[WrittenBar], repeats: &Repeats) -> Result<Marks, Problem> {
        let mut marks = Marks::default();
        for (index, bar) in bars.iter().enumerate() {
            let early = repeats.is_in_early_ending(index);
            for (spot, mark) in bar.opening.iter().enumerate() {
                marks.opening(Mark { bar: index, spot: Spot::Opening(spot) }, mark, early)?;
            }
            for (spot, mark) in bar.closing.iter().enumerate() {
                marks.closing(Mark { bar: index, spot: Spot::Closing(spot) }, *mark, early)?;
            }
        }
        Ok(marks)
    }

    fn opening(&mut self, at: Mark, mark: &OpeningMark, early: bool) -> Result<(), Problem> {
        let slot = match mark {
            OpeningMark::Segno => &mut self.segno,
            OpeningMark::Coda => &mut self.coda,
            OpeningMark::Section(_) | OpeningMark::Meter(_) | OpeningMark::Ending(_) => {
                return Ok(());
            }
        };
        refuse_in_early_ending(at, mark, early)?;
        set(slot, at, mark)
    }

    fn closing(&mut self, at: Mark, mark: ClosingMark, early: bool) -> Result<(), Problem> {
        refuse_in_early_ending(at, mark, early)?;
        match mark {
            ClosingMark::ToCoda => set(&mut self.to_coda, at, mark),
            ClosingMark::Fine => set(&mut self.fine, at, mark),
            ClosingMark::Jump(jump) => {
                if self.jumps.last().is_some_and(|last| last.bar == at.bar) {
                    return Err(at.wrong("one D.C. or D.S. in a bar".to_owned()));
                }
                self.jumps.push(JumpMark { bar: at.bar, spot: at.spot, jump });
                Ok(())
            }
        }
    }

    fn leap(&self, mark: &JumpMark, whole: usize) -> Result<Leap, Problem> {
        let (at, until) = (Mark { bar: mark.bar, spot: mark.spot }, mark.jump.until);
        let segno = || self.segno.filter(|segno| segno.bar <= at.bar).map(|segno| segno.bar);
        let to = match mark.jump.back_to {
            JumpTo::Beginning => whole,
            JumpTo::Segno => {
                segno().ok_or_else(|| at.wrong("a Segno before this D.S.".to_owned()))?
            }
        };
        match until {
            JumpUntil::End => {}
            JumpUntil::Coda => self.check_coda(at, mark.jump, to)?,
            JumpUntil::Fine => {
                let fine = self.fine.filter(|fine| fine.bar >= to);
                fine.ok_or_else(|| at.wrong(format!("a Fine for this {}", mark.jump)))?;
            }
        }
        Ok(Leap { to, until })
    }

    fn check_coda(&self, at: Mark, jump: Jump, to: usize) -> Result<(), Problem> {
        let on_the_way = self.to_coda.filter(|mark| (to..=at.bar).contains(&mark.bar));
        on_the_way.ok_or_else(|| at.wrong(format!("a ToCoda on the way back to this {jump}")))?;
        let coda = self.coda.filter(|coda| coda.bar > at.bar);
        coda.map(|_| ()).ok_or_else(|| at.wrong(format!("a Coda in a later bar than this {jump}")))
    }

    /// A mark that no jump leads to or past is a slip of the pen; a Fine at the very end is none.
    fn refuse_what_is_never_reached(&self, bars: usize) -> Result<(), Problem> {
        let to_coda = self.jumps.iter().any(|mark| mark.jump.until == JumpUntil::Coda);
        let fine = self.jumps.iter().any(|mark| mark.jump.until != JumpUntil::Coda);
        for (mark, name) in [(self.to_coda, "ToCoda"), (self.coda, "Coda")] {
            if let Some(mark) = mark.filter(|_| !to_coda) {
                return Err(mark.wrong(format!("D.C.alCoda or D.S.alCoda for this {name}")));
            }
        }
        match self.fine.filter(|mark| !fine && mark.bar + 1 < bars) {
            Some(mark) => Err(mark.wrong("D.C.alFine or D.S.alFine for this Fine".to_owned())),
            None => Ok(()),
        }
    }
}

impl Mark {
    fn wrong(self, expected: String) -> Problem {
        Problem::new(self.bar, self.spot, expected)
    }
}

fn set(slot: &mut Option<Mark>, at: Mark, name: impl std::fmt::Display) -> Result<(), Problem> {
    match slot.replace(at) {
        Some(_) => Err(at.wrong(format!("one {name} only"))),
        None => Ok(()),
    }
}

fn refuse_in_early_ending(
    at: Mark,
    name: impl std::fmt::Display,
    early: bool,
) -> Result<(), Problem> {
    match early {
        true => Err(at.wrong(format!("{name} in the last ending or outside of endings"))),
        false => Ok(()),
    }
}
