//! Musical time: what is exact, in quarter notes, and how it becomes seconds.

mod bar;
mod bars;
mod meter;
mod quarters;
mod tempo;
mod tempo_map;
mod timeline;

pub use bar::{Bar, BarLabel, BarPosition};
pub use bars::Bars;
pub use meter::Meter;
pub use quarters::Quarters;
pub use tempo::Tempo;
pub use tempo_map::TempoMap;
pub use timeline::Timeline;
