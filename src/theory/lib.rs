//! Notes, scales, chords and triad pairs.
//!
//! The crate root is the vocabulary. A [`NoteName`] is spelling, a [`PitchClass`] is sound without
//! octave, a [`Pitch`] is sound with it. A [`Scale`] is a root and a [`ScaleKind`]; a [`Chord`] is
//! what a symbol names. A [`ChordScale`] is a scale heard over a chord, and tells what each note is
//! there as a [`Degree`]. Two [`Triad`]s without a common note are a [`TriadPair`]; a [`PairSound`] is
//! a pair heard over a chord-scale, with its rank, and a [`Speller`] decides how it is written.
//!
//! [`Quarters`] are exact musical time; [`Bars`] and a [`TempoMap`] say where a moment lies and when
//! it comes. A [`Score`] is music in that time: [`Note`]s in [`Part`]s under [`ChordSymbol`]s. A
//! [`BarText`] is chords as they are typed bar by bar, and a [`Chorus`] those bars as they are heard.
//! An [`Explanation`] says which pairs a line is made of, bar by bar, and a [`Plan`] which scale and
//! pair each chord of a form is given.
//!
//! # From a symbol to its pairs
//!
//! ```
//! use fretloom_theory::{Chord, ChordScale, ScaleChoice, PairSound, Speller, Spelling, TriadQuality};
//!
//! let chord: Chord = "Dm7".parse()?;
//! let scale = ScaleChoice::for_chord(&chord)[0].scale().clone();
//! assert_eq!(scale.to_string(), "D Dorian");
//!
//! let chord_scale = ChordScale::over(chord, scale);
//! let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
//! let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
//! let [first, second] = sounds[0].pair().triads().map(|triad| speller.triad(triad));
//! assert_eq!(format!("{first} & {second}"), "F & G"); // IV and V of C
//!
//! let left_out: Vec<String> =
//!     chord_scale.degrees(sounds[0].left_out()).map(|degree| degree.to_string()).collect();
//! assert_eq!(left_out, ["9"]);
//! # Ok::<(), fretloom_theory::ReadError>(())
//! ```
//!
//! # Two notations
//!
//! Everything that prints prints twice: `{}` with the signs ♭ and ♯, `{:#}` in plain ASCII. Both
//! are read back.
//!
//! # What is not here
//!
//! No input, output, strings, frets or screens, and no dependencies. Nothing panics on any input.

mod accidental;
mod bar_text;
mod chart;
mod chord;
mod chord_scale;
mod click;
mod comes_round;
mod criterion;
mod degree;
mod degrees;
mod direction;
mod drone;
mod explain;
mod families;
mod fraction;
mod function;
mod interval;
mod inversion;
mod key;
mod key_cycle;
mod letter;
mod line;
mod line_query;
mod melody;
mod note_edit;
mod note_name;
mod other_chords;
mod pair;
mod pair_sound;
mod pattern;
mod pitch;
mod pitch_class;
mod plan;
mod read_chord;
mod read_error;
mod reading;
mod reason;
mod rhythm;
mod scale;
mod scale_choice;
mod scale_kind;
mod score;
mod set_class;
mod slur;
mod spelling;
mod stroke;
mod swing;
mod text;
mod time;
mod transposition_class;
mod triad;
mod which_triad;

pub use bar_text::{
    BarContent, BarFault, BarPart, BarSection, BarText, BeatSign, Chorus, ClosingMark, HeardBar,
    Jump, JumpTo, JumpUntil, OpeningMark, OptionalChords, Pass, PickUp, UnreadBar, WrittenBar,
    WrittenChord,
};
pub use chart::edit::RetypedChart;
pub use chart::{Chart, ChartBeat, ChartChoice};
pub use chord::Chord;
pub use chord_scale::ChordScale;
pub use click::{Click, ClickBeats};
pub use comes_round::ComesRound;
pub use criterion::Criterion;
pub use degree::Degree;
pub use direction::Direction;
pub use drone::{DroneChord, DroneSide};
pub use explain::{
    Arrival, ExplainedApproach, ExplainedBar, ExplainedGroup, Explanation, GroupTiming, Landing,
    MadeNote, Movement, Why,
};
pub use families::Families;
pub use interval::Interval;
pub use inversion::Inversion;
pub use key::Key;
pub use key_cycle::KeyCycle;
pub use letter::Letter;
pub use line::{
    Approach, Begin, Ending, FreeNote, FreeNotes, Line, LineError, Link, NotesFrom, Phrase,
    PhraseNote, Reach, Role, Start, Target, Timing, Travel,
};
pub use line_query::{AskedTarget, AtChange, ChordStretch, LineQuery, LineStyle, WrittenPhrase};
pub use melody::Melody;
pub use note_edit::{NoteChange, NoteEdit};
pub use note_name::NoteName;
pub use other_chords::other_chords;
pub use pair::{PairKind, TriadPair};
pub use pair_sound::PairSound;
pub use pattern::{Figure, Figures, Pattern, PatternGroup, PatternSign, Sign, Turn};
pub use pitch::{NamedPitch, Pitch};
pub use pitch_class::{PitchClass, PitchClassSet};
pub use plan::{
    GuideTones, PairKinds, PairPlaces, PairStep, Plan, PlanChord, PlanCost, PlanError, PlanQuery,
    PlanReason, PlannedChord, StretchBegins,
};
pub use read_chord::{Assumption, ReadChord};
pub use read_error::ReadError;
pub use reading::Reading;
pub use reason::Reason;
pub use rhythm::{Rhythm, RhythmValue, ValueKind};
pub use scale::{ParentScale, Scale};
pub use scale_choice::{ScaleChoice, fits, parent_in_words};
pub use scale_kind::ScaleKind;
pub use score::{ChordSymbol, Grace, KeySignature, Note, Part, PlayedTime, Rest, Score, Voice};
pub use set_class::{
    forte_name, interval_vector, prime_form, prime_form_rahn, transposition_symmetries,
};
pub use slur::Slur;
pub use spelling::{Speller, Spelling};
pub use stroke::Stroke;
pub use swing::Swing;
pub use time::{Bar, BarLabel, BarPosition, Bars, Meter, Quarters, Tempo, TempoMap, Timeline};
pub use transposition_class::TranspositionClass;
pub use triad::{SpelledTriad, Triad, TriadQuality};
pub use which_triad::WhichTriad;

use degrees::Degrees;
use function::Function;
