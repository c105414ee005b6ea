//! Lists of degrees that are constants.

use std::fmt::{self, Display as _};

use crate::{Degree, PitchClass, PitchClassSet};

/// Up to twelve degrees in order, kept in place and read as a slice.
///
/// They take no heap, so that whole tables of scales and chords are constants.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) struct Degrees {
    list: [Degree; 12],
    len: u8,
}

impl Degrees {
    /// No degree.
    pub(crate) const EMPTY: Degrees = Degrees { list: [Degree::ROOT; 12], len: 0 };

    /// The degrees written in a table, separated by single spaces.
    ///
    /// # Panics
    ///
    /// At compile time, where the table holds anything else: for constants only.
    #[expect(clippy::expect_used, reason = "a constant that is wrong must not compile")]
    pub(crate) const fn table(text: &str) -> Degrees {
        let bytes = text.as_bytes();
        let mut degrees = Degrees::EMPTY;
        let (mut from, mut at) = (0, 0);
        while at <= bytes.len() {
            if at == bytes.len() || bytes[at] == b' ' {
                degrees.list[degrees.len as usize] =
                    Degree::from_ascii(bytes, from, at).expect("a degree stands in the table");
                degrees.len += 1;
                from = at + 1;
            }
            at += 1;
        }
        degrees
    }

    /// What they sound as over `root`.
    pub(crate) const fn set_over(&self, root: PitchClass) -> PitchClassSet {
        let mut set = PitchClassSet::EMPTY;
        let mut at = 0;
        while at < self.len as usize {
            set = set.with(self.list[at].over(root));
            at += 1;
        }
        set
    }

    /// Adds a degree at the end; `false` where twelve are there already.
    pub(crate) fn push(&mut self, degree: Degree) -> bool {
        let Some(slot) = self.list.get_mut(usize::from(self.len)) else {
            return false;
        };
        *slot = degree;
        self.len += 1;
        true
    }
}

impl Default for Degrees {
    fn default() -> Self {
        Degrees::EMPTY
    }
}

impl FromIterator<Degree> for Degrees {
    /// The first twelve: no more notes than that can be told apart, and the rest is dropped.
    fn from_iter<I: IntoIterator<Item = Degree>>(degrees: I) -> Degrees {
        let mut list = Degrees::EMPTY;
        degrees.into_iter().take_while(|degree| list.push(*degree)).for_each(drop);
        list
    }
}

impl std::ops::Deref for Degrees {
    type Target = [Degree];

    fn deref(&self) -> &[Degree] {
        self.list.get(..usize::from(self.len)).unwrap_or_default()
    }
}

impl fmt::Debug for Degrees {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.iter().map(ToString::to_string)).finish()
    }
}

/// Degrees after what is said of them, as in `; leaves out 7 9`; nothing where there are none.
pub(crate) fn write_degrees(
    f: &mut fmt::Formatter<'_>,
    before: &str,
    degrees: &[Degree],
) -> fmt::Result {
    if degrees.is_empty() {
        return Ok(());
    }
    f.write_str(before)?;
    degrees.iter().try_for_each(|degree| {
        f.write_str(" ")?;
        degree.fmt(f)
    })
}
