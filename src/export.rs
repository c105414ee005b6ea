//! Writers of pictures, apart from the screen.

pub mod pdf;
pub mod svg;
pub mod text;
