//! Writers of pictures, apart from the screen.

pub mod text;
