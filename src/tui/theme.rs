//! Roles for colours: no view names a colour.
//!
//! A [`Theme`] gives each role a style. Themes are TOML files, built in (`assets/themes/`) or the
//! player's own, and read by [`Themes`] for the [`Depth`] of colour that the terminal has. Every
//! role that tells something also has a shape or a modifier, so that no theme needs colour alone.

mod colour;
mod depth;
mod read;
mod roles;
mod themes;

pub use depth::Depth;
pub use roles::Theme;
pub use themes::Themes;

#[cfg(test)]
mod tests;
