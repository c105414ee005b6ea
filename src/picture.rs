//! What is drawn, as data: made once, and written as the cells of a screen or as text.
//!
//! A picture knows notes and necks, but neither the question that it answers nor who draws it: no
//! colours, no cells, no files. Distances of frets are there in millimetres; for writers that set
//! one sign a column a picture is also given in [`Run`]s.

mod box_figure;
mod columns;
mod fret_widths;
mod hit;
mod labels;
mod lie;
mod mark;
mod neck;
mod neck_figure;
pub mod page;
mod run;
mod signs;
mod tab;

pub use box_figure::{BoxLook, BoxNote, chord_box};
pub use columns::{Cell, NeckColumns};
pub use fret_widths::FretWidths;
pub use hit::NeckHit;
pub use labels::Labels;
pub use lie::{Handed, Top};
pub use mark::{Mark, MarkRole, Presence};
pub use neck::{NeckFret, NeckPicture, NeckString};
pub use neck_figure::{NeckSize, triad_figure};
pub use run::{Ink, Run, Weight};
pub use tab::{
    Attack, Count, Tab, TabBar, TabBelow, TabColumn, TabEvent, TabHold, TabLook, TabMusic, TabNote,
    TabRhythm, TabRow, TabRowKind, TabSpot, TabString, TabSystem, TimesFrom, TriadMark, Turn,
};
