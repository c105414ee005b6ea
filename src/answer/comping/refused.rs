//! Where comping fails.

use fretloom_fretboard::CompingError;
use fretloom_theory::WhichTriad;

use super::moments::{Moment, Struck};
use super::question::CompingQuestion;
use crate::answer::no_comping::NoComping;
use crate::answer::refusal::Refusal;

/// What fails, told by the bar and the chord at which it does.
pub(super) fn refused(
    question: &CompingQuestion,
    struck: &[Struck],
    error: CompingError,
) -> Refusal {
    let (index, which) = match error {
        CompingError::NoShape { chord, which } | CompingError::NotHeld { chord, which } => {
            (Some(chord), Some(which))
        }
        CompingError::TopVoice { chord, .. } => (Some(chord), None),
        _ => (None, None),
    };
    let moment = index.and_then(|index| struck.get(index)?.moments.first());
    let over = moment.and_then(|moment| question.chords.chords().get(moment.chord));
    let triad = over.zip(which).map(|(over, which)| match (over.pair.names(), which) {
        ([first, _], WhichTriad::First) => first.to_string(),
        ([_, second], WhichTriad::Second) => second.to_string(),
    });
    let at = moment.map(|moment| place(question, moment));
    let (strings, frets) = (question.strings, question.frets);
    Refusal::NoComping(Box::new(NoComping { error, at, triad, strings, frets }))
}

/// `bar 3, G7 (F & G)`
fn place(question: &CompingQuestion, moment: &Moment) -> String {
    let bar = question.chords.bars().at(moment.onset).map(|at| at.bar.label);
    let bar = bar.map(|label| format!("bar {label}, ")).unwrap_or_default();
    let chord = question.chords.chords().get(moment.chord);
    let told = chord.map(|chord| {
        let symbol = chord.over.chord().map(|chord| format!("{chord} ")).unwrap_or_default();
        format!("{symbol}({})", chord.pair)
    });
    format!("{bar}{}", told.unwrap_or_default())
}
