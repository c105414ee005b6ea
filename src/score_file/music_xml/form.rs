//! In which order the measures of a score are heard.
//!
//! As for bars of text: a repeat is taken where its measures are heard for the first time; who has
//! come back to them by D.C. or D.S. plays them once, with the last ending; a jump is taken once, the
//! last time through the repeat in which it stands; `:|` without `|:` goes back to the first whole
//! measure, or to the one after the repeat before. Unlike there, what does not fit together is
//! forgiven, since nobody can mend a file that a program wrote.

use std::ops::RangeInclusive;

use super::marks::{Marks, Passes, Sign};

/// The most measures that may be heard.
const MOST: usize = 10_000;

/// More measures are heard than may be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct TooMany {
    /// The measure with the repeat that makes them too many, or where they become too many.
    pub(super) measure: usize,
    /// How often that repeat is heard; `None` where it is no repeat.
    pub(super) times: Option<u32>,
}

impl TooMany {
    /// What may be, in words.
    pub(super) const EXPECTED: &'static str = "10,000 bars as they are heard";

    /// `99999 times`; `None` where it is no repeat.
    pub(super) fn often(self) -> Option<String> {
        const COUNTED: u32 = 1_000_000;
        self.times.map(|times| match times {
            0..=COUNTED => format!("{times} times"),
            _ => "more than a million times".to_owned(),
        })
    }
}

/// In which order these measures are heard, where `whole` is the first that is no pick-up.
///
/// # Errors
///
/// Where they are more than 10,000.
pub(super) fn order(measures: &[Marks], whole: usize) -> Result<Vec<usize>, TooMany> {
    if measures.len() > MOST {
        return Err(TooMany { measure: MOST, times: None });
    }
    let endings = endings(measures);
    let mut walk = Walk {
        measures,
        whole,
        ending_at: ending_at(&endings, measures.len()),
        endings,
        repeat_from: whole,
        pass: 1,
        jumped: false,
        left: jumps(measures),
        coda: coda(measures),
        repeated: None,
        order: Vec::new(),
    };
    let mut next = Some(0);
    while let Some(at) = next.filter(|at| *at < measures.len()) {
        let repeated = walk.repeated;
        next = walk.hear(at);
        if walk.order.len() > MOST {
            return Err(repeated.unwrap_or(TooMany { measure: at, times: None }));
        }
    }
    Ok(walk.order)
}

/// An ending: its measures, and the times through that it is for.
struct Ending {
    measures: RangeInclusive<usize>,
    passes: Passes,
    /// Which of its group it is, counted from 0, and how many there are.
    index: usize,
    of: usize,
    /// The last time through of all its group.
    last_pass: u32,
}

impl Ending {
    fn is_last(&self) -> bool {
        self.index + 1 == self.of
    }
}

/// The endings in order, each in its group: those that follow one another.
fn endings(measures: &[Marks]) -> Vec<Ending> {
    let begins = |index: &usize| measures.get(*index).is_some_and(|it| !it.ending.is_empty());
    let mut endings: Vec<Ending> = Vec::new();
    let mut group = 0;
    for from in (0..measures.len()).filter(begins) {
        let ends = |at: &usize| {
            let here = measures.get(*at);
            here.is_some_and(|it| it.ending_ends || it.repeat_ends.is_some()) || begins(&(at + 1))
        };
        let to = (from..measures.len()).find(ends).unwrap_or(from);
        let follows = endings.last().is_some_and(|before| *before.measures.end() + 1 == from);
        if !follows {
            close(endings.get_mut(group..).unwrap_or_default());
            group = endings.len();
        }
        let passes = measures.get(from).map(|it| it.ending.clone()).unwrap_or_default();
        let index = endings.len() - group;
        endings.push(Ending { measures: from..=to, passes, index, of: index + 1, last_pass: 1 });
    }
    close(endings.get_mut(group..).unwrap_or_default());
    endings
}

/// For each measure the ending in which it stands, by index: a form that comes back for every one of
/// many endings asks at each step.
fn ending_at(endings: &[Ending], measures: usize) -> Vec<Option<usize>> {
    let mut all = vec![None; measures];
    for (index, ending) in endings.iter().enumerate() {
        let inside = all.get_mut(ending.measures.clone()).unwrap_or_default();
        inside.fill(Some(index));
    }
    all
}

/// Tells all of a group how many they are.
fn close(group: &mut [Ending]) {
    let of = group.len();
    let last_pass = group.iter().filter_map(|ending| ending.passes.last()).max().unwrap_or(1);
    for ending in group {
        (ending.of, ending.last_pass) = (of, last_pass.max(u32::try_from(of).unwrap_or(u32::MAX)));
    }
}

/// The measures with D.C. or D.S., none of which has been taken.
fn jumps(measures: &[Marks]) -> Vec<bool> {
    let is_jump = |it: &Marks| it.has(Sign::DaCapo) || it.has(Sign::DalSegno);
    measures.iter().map(is_jump).collect()
}

/// The last place with the sign, since the one from which it is reached may show it too.
fn coda(measures: &[Marks]) -> Option<usize> {
    measures.iter().rposition(|it| it.has(Sign::Coda))
}

struct Walk<'a> {
    measures: &'a [Marks],
    whole: usize,
    endings: Vec<Ending>,
    ending_at: Vec<Option<usize>>,
    /// Where `:|` goes back to.
    repeat_from: usize,
    /// Which time through.
    pass: u32,
    jumped: bool,
    /// Which jumps have not been taken.
    left: Vec<bool>,
    /// Where the coda is, until one has gone there.
    coda: Option<usize>,
    /// The repeat that was taken and is not yet at its end.
    repeated: Option<TooMany>,
    order: Vec<usize>,
}

impl Walk<'_> {
    /// Hears this measure, or skips its ending; then which comes next, `None` at the Fine.
    fn hear(&mut self, at: usize) -> Option<usize> {
        let measures = self.measures;
        let here = measures.get(at)?;
        if here.has(Sign::RepeatBegins) && self.repeat_from != at {
            (self.repeat_from, self.pass, self.repeated) = (at, 1, None);
        }
        if let Some(after) = self.after_skipped(at) {
            return Some(after);
        }
        self.order.push(at);
        if self.jumped && here.has(Sign::Fine) {
            return None;
        }
        if self.jumped
            && here.has(Sign::ToCoda)
            && let Some(coda) = self.coda.take()
        {
            return Some(coda);
        }
        if let Some(back) = self.back(at, here) {
            return Some(back);
        }
        Some(self.jump(at, here).unwrap_or(at + 1))
    }

    /// The ending in which a measure stands.
    fn ending(&self, at: usize) -> Option<&Ending> {
        self.endings.get((*self.ending_at.get(at)?)?)
    }

    /// The measure after the ending that begins here and is not for this time through.
    fn after_skipped(&mut self, at: usize) -> Option<usize> {
        let ending = self.ending(at).filter(|ending| *ending.measures.start() == at)?;
        let is_repeated = self.measures.get(*ending.measures.end())?.repeat_ends.is_some();
        let skipped = match (ending.of, self.jumped) {
            (1, true) => is_repeated,
            (1, false) => ending.last_pass < self.pass,
            (_, true) => !ending.is_last(),
            (_, false) => !ending.is_last() && !ending.passes.contains(self.pass),
        };
        let after = *ending.measures.end() + 1;
        if skipped && ending.is_last() {
            (self.repeat_from, self.pass, self.repeated) = (after, 1, None);
        }
        skipped.then_some(after)
    }

    /// Where `:|` leads back to; at the last time through one goes on.
    fn back(&mut self, at: usize, here: &Marks) -> Option<usize> {
        let ending = self.ending(at);
        let last_pass = match (here.repeat_ends, ending) {
            (None, Some(ending)) if ending.is_last() && *ending.measures.end() == at => 0,
            (None, _) => return None,
            (Some(times), None) => times,
            (Some(_), Some(ending)) if ending.of == 1 => ending.last_pass.saturating_add(1),
            (Some(_), Some(ending)) => ending.last_pass,
        };
        if !self.jumped && self.pass < last_pass {
            self.pass += 1;
            self.repeated = Some(TooMany { measure: at, times: Some(last_pass) });
            return Some(self.repeat_from);
        }
        (self.repeat_from, self.pass, self.repeated) = (at + 1, 1, None);
        None
    }

    /// Where D.C. or D.S. leads, the last time through.
    fn jump(&mut self, at: usize, here: &Marks) -> Option<usize> {
        let is_left = self.left.get(at).copied().unwrap_or_default();
        if !is_left || self.comes_again(at) {
            return None;
        }
        let to = if here.has(Sign::DalSegno) { self.segno(at) } else { Some(self.whole) }?;
        self.left.iter_mut().skip(at).take(1).for_each(|left| *left = false);
        self.jumped = true;
        Some(to)
    }

    /// Is this measure within a repeat that is not yet at its last time through?
    fn comes_again(&self, at: usize) -> bool {
        let later = self.measures.iter().enumerate().skip(at + 1);
        let mut later = later.take_while(|(_, it)| !it.has(Sign::RepeatBegins));
        let end = later.find_map(|(_, it)| it.repeat_ends);
        !self.jumped && end.is_some_and(|times| self.pass < times)
    }

    fn segno(&self, before: usize) -> Option<usize> {
        let mut until = (0..=before).rev();
        until.find(|at| self.measures.get(*at).is_some_and(|it| it.has(Sign::Segno)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Measures as a player writes them, one sign each: `|:` and `:|` around a word of signs.
    fn measures(text: &str) -> Vec<Marks> {
        let measure = |word: &str| {
            let mut marks = Marks::default();
            for sign in word.split('+') {
                match sign {
                    "|:" => marks.signs.extend([Sign::RepeatBegins]),
                    ":|" => marks.repeat_ends = Some(2),
                    ":|3" => marks.repeat_ends = Some(3),
                    "]" => marks.ending_ends = true,
                    "S" => marks.signs.extend([Sign::Segno]),
                    "O" => marks.signs.extend([Sign::Coda]),
                    "to" => marks.signs.extend([Sign::ToCoda]),
                    "fine" => marks.signs.extend([Sign::Fine]),
                    "DC" => marks.signs.extend([Sign::DaCapo]),
                    "DS" => marks.signs.extend([Sign::DalSegno]),
                    "." => {}
                    _ => marks.ending = Passes::read(sign),
                }
            }
            marks
        };
        text.split_whitespace().map(measure).collect()
    }

    fn heard(text: &str, whole: usize) -> String {
        let order = order(&measures(text), whole).unwrap();
        order.iter().map(|at| char::from(b'a' + *at as u8)).collect()
    }

    /// By hand: the letters count the measures, of which a dot has no sign.
    #[test]
    fn what_is_written_is_heard_as_players_do() {
        for (text, expected) in [
            (". . .", "abc"),
            (". :|", "abab"),
            (". |: :| .", "abcbcd"),
            (". :|3", "ababab"),
            ("|:+:| |:+:|", "aabb"),
            (". :| . :| .", "ababcdcde"),
            ("|: 1+] . .", "abcd"),
            ("|: 1+:| 2+] .", "abacd"),
            ("|: . 1+:|+] 2 ] .", "abcabdef"),
            ("|: 1,2+:|+] 3+] .", "ababacd"),
            ("|: 1-2+:|+] 3+] .", "ababacd"),
            ("|: 1-3+:|+] 4+] .", "abababacd"),
            ("|: 1,3+:|+] 2,4+:|+] .", "abacabacd"),
            ("|: 1+:| 2+:| .", "abacd"),
            ("|: 1+:| .", "abac"),
            ("|: 1+:| 1+] .", "abacd"),
            (". . DC .", "abcabcd"),
            (". fine DC", "abcab"),
            (". S to DS O .", "abcdbcef"),
            (". S to+O DS O .", "abcdbcef"),
            ("|: :| fine DC", "ababcdabc"),
            ("|: 1+:| 2+] DC", "abacdacd"),
            (". |: DC :| .", "abcdbcabcde"),
            ("|: |: . :|", "abcdbcd"),
            (". |: .", "abc"),
            ("DS .", "ab"),
            ("to O", "ab"),
        ] {
            assert_eq!(heard(text, 0), expected, "{text}");
        }
    }

    /// A pick-up is heard once, and no form is endless.
    #[test]
    fn repeats_go_back_to_the_first_whole_measure() {
        assert_eq!(heard(". . :| .", 1), "abcbcd");
        assert_eq!(heard(". . DC", 1), "abcbc");
        let many = ". ".repeat(5_000) + ":|3";
        let too_many = TooMany { measure: 5_000, times: Some(3) };
        assert_eq!(order(&measures(&many), 0), Err(too_many));
        let plain = |count| order(&measures(&". ".repeat(count)), 0).map(|order| order.len());
        assert_eq!(plain(10_000), Ok(10_000));
        assert_eq!(plain(10_001), Err(TooMany { measure: 10_000, times: None }));
        // Gone back by D.C. to 5,001 bars, after a repeat that is not too long by itself.
        let jumped = format!("|:+:| {} DC", ". ".repeat(4_999));
        assert_eq!(order(&measures(&jumped), 0), Err(TooMany { measure: 4_998, times: None }));
    }
}
