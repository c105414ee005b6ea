//! A drawn neck as text.

use crate::picture::NeckPicture;

/// The lines of a drawn neck with all its frets at their narrowest, without spaces at their ends.
#[must_use]
pub fn neck(picture: &NeckPicture) -> String {
    let width = picture.narrowest_width();
    let mut rows = vec![vec![' '; usize::from(width)]; usize::from(picture.height())];
    for run in picture.runs(width) {
        let row = rows.get_mut(usize::from(run.row));
        let signs = row.into_iter().flatten().skip(usize::from(run.column));
        signs.zip(run.text.chars()).for_each(|(there, sign)| *there = sign);
    }
    rows.iter().map(|row| line(row)).collect()
}

fn line(row: &[char]) -> String {
    let line: String = row.iter().collect();
    line.trim_end().to_owned() + "\n"
}
