//! Questions with their whole answer: what commands print and screens draw.
//!
//! A command and a screen that show the same facts ask the same question here. An answer is made of
//! the values of the two crates: triads, degrees, shapes, places. How it is written, as text, as
//! JSON or on a screen, is for those who ask.

mod arpeggios;
mod changes;
mod chart_file;
mod charts;
mod check;
mod chord;
mod compare;
mod comping;
mod drill;
mod everyday_chords;
mod explain;
mod finger;
mod finger_remark;
mod hand_area;
mod harmony;
mod heard;
mod keepers;
mod ladder;
mod line;
mod listen;
mod marks;
mod neck;
mod no_comping;
mod opened;
mod pairs;
mod part_name;
mod patterns;
mod phrase_refusal;
mod plan_refusal;
mod practice;
mod refusal;
mod rounds;
mod scales;
mod settings;
mod shapes;
mod tab;
mod triads;
mod tuning_of_file;
mod tunings;
mod views;
mod wishes;

pub use arpeggios::{ArpeggiosAnswer, NamedArpeggio};
pub use changes::{
    BarChord, ChangesAnswer, ChangesBar, ChangesChord, ChangesPlan, ChangesQuestion, ChartMoment,
    HeldHere, NeverHere, PlanWishes, ShapeInHand, Sounding, TuneWishes, VoiceWay, shapes_in_region,
};
pub use chart_file::{chart_of_id, open_chart, read_chart};
pub use charts::{ChartAnswer, ChartsAnswer};
pub use check::CheckAnswer;
pub use chord::{ChordLine, ChordListAnswer, TypedChord, chord, chord_list};
pub use compare::{AloneAnswer, CompareAnswer, Compared, SetAnswer, Survival};
pub use comping::{CompedChanges, CompedStab, CompingAnswer, CompingQuestion};
pub use drill::{Drill, DrillPart, DrillQuestion};
pub use everyday_chords::{EVERYDAY_ENDINGS, near_chord, typed_root};
pub use explain::{BarNames, ExplainAnswer};
pub use finger::{FingerAnswer, FingerQuestion, FingeredAnswer, NoteTime, WayAnswer};
pub use finger_remark::FingerRemark;
pub use hand_area::HandArea;
pub use harmony::Harmony;
pub use heard::{performed, struck_shapes};
pub use keepers::{
    ChordKind, KeeperAnswer, KeeperOrder, KeepersAnswer, KeepersQuestion, pair_to_keep,
};
pub use ladder::{ClimbedStrings, LadderAnswer};
pub use line::{
    AskedChords, BarBeat, BeatPart, InBeat, InKey, KeyCycle, KeyFingering, KeyLine, LineAnswer,
    LineArea, LineChord, LineChords, LineEdit, LineGround, LinePhrase, LineQuestion, LineTarget,
    LineWay, LinesAnswer, NoteAt, PairPhrase, PhraseQuestion, Slurring, ToldNote, Wanted,
    line_start,
};
pub use listen::{
    AskedAnswer, EarChoice, EarMusic, EarName, EarQuestion, ListeningAnswer, Mistaken,
};
pub use marks::{marks, marks_in_view, marks_left_out};
pub use neck::{LeftOutPlace, NeckAnswer, PairPlace, places_left_out, places_of_pair};
pub use no_comping::NoComping;
pub use opened::{HeldNote, HeldShape, OpenedKeeper, OpenedThing, Opening, PairOver};
pub use pairs::{
    EveryPairAnswer, LeftOut, NamedPair, PairAlone, PairAnswer, PairList, PairsAnswer, SixNotes,
    TriadAnswer, every_pair, one_pair, pair_over, pairs_over,
};
pub use patterns::{PatternAnswer, PatternsAnswer};
pub use phrase_refusal::PhraseRefusal;
pub use plan_refusal::{PairLacks, PlanRefusal};
pub use practice::{PracticeAnswer, TurnAnswer, key_of, tempo_curve};
pub use refusal::Refusal;
pub use scales::{ChosenScale, Neighbours, ScaleReason, ScalesAnswer, scales_among, scales_of};
pub use settings::{SettingAnswer, SettingsAnswer};
pub use shapes::{NamedShape, ShapesAnswer};
pub use triads::{ScaleTriad, TriadsAnswer, triads_of};
pub use tuning_of_file::TuningOfFile;
pub use tunings::{
    TuningAnswer, TuningSource, TuningsAnswer, behind_capo, find_tuning, put_capo,
    sounds_behind_capo,
};
pub use views::{AskedView, InView, NamedHidden, ViewAnswer, ViewQuestion};
pub use wishes::Wishes;
