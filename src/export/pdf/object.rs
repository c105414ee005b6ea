//! Objects of a PDF: their numbers, names and lengths.

use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::{Name, Ref};

/// Numbers of objects, one after another.
pub(super) struct Numbers(i32);

impl Numbers {
    pub(super) const fn new() -> Numbers {
        Numbers(0)
    }

    pub(super) fn next(&mut self) -> Ref {
        self.0 += 1;
        Ref::new(self.0)
    }
}

/// Millimetres in points, in which a page counts.
pub(super) fn to_points(mm: f64) -> f32 {
    // To a thousandth, which no printer sees, so that every system writes the same digits.
    ((mm * 72.0 / 25.4 * 1000.0).round() / 1000.0) as f32
}

pub(super) fn compressed(bytes: &[u8]) -> Vec<u8> {
    const LEVEL: u8 = 6;
    compress_to_vec_zlib(bytes, LEVEL)
}

/// A name with a number, as in `F1`.
pub(super) fn numbered(letter: char, number: usize) -> Vec<u8> {
    format!("{letter}{number}").into_bytes()
}

/// A name of what is made by [`numbered`].
pub(super) fn as_name(bytes: &[u8]) -> Name<'_> {
    Name(bytes)
}
