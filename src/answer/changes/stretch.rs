//! For how long each chord is planned.

use fretloom_theory::{
    BarPosition, Chart, ChartBeat, ChartChoice, Chorus, Meter, PitchClassSet, PlanChord, Quarters,
};

use super::question::ChangesQuestion;

/// A chord for as long as one pair is played over it.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Stretch {
    pub(super) from: Quarters,
    pub(super) until: Quarters,
    /// As a plan is asked for it.
    pub(super) asked: PlanChord,
    /// What the player has settled for it.
    pub(super) settled: Option<ChartChoice>,
}

/// The chords of a chorus in order of time. Where the player has settled something within a chord, it
/// is divided there.
pub(super) fn stretches(question: &ChangesQuestion, chorus: &Chorus) -> Vec<Stretch> {
    let chords = PlanChord::of_chorus(chorus, question.key());
    let mut stretches = Vec::with_capacity(chords.len());
    let begins: Vec<Quarters> = chords.iter().map(|(from, _)| *from).collect();
    for (index, (from, asked)) in chords.into_iter().enumerate() {
        let next = begins.get(index + 1).copied().unwrap_or(chorus.end);
        let until = changes_after(chorus, from).unwrap_or(chorus.end).min(next);
        stretches.push(Stretch { from, until, asked, settled: None });
    }
    let settled = settled(&question.chart, chorus);
    let stretches = stretches.into_iter().flat_map(|stretch| divided(stretch, &settled, chorus));
    let mut stretches: Vec<Stretch> = stretches.collect();
    for stretch in &mut stretches {
        stretch.hold_to_melody(question, chorus);
    }
    leave_out_unwanted(question, chorus, &mut stretches);
    stretches
}

/// When something else than at a moment begins.
fn changes_after(chorus: &Chorus, moment: Quarters) -> Option<Quarters> {
    let changes = chorus.chords.changes();
    let next = changes.partition_point(|(from, _)| *from <= moment);
    changes.get(next).map(|(from, _)| *from)
}

/// What the player has settled, in order of time.
fn settled(chart: &Chart, chorus: &Chorus) -> Vec<(Quarters, ChartChoice)> {
    let moments = chart.choices.iter().filter(|choice| !choice.settles_nothing());
    let moments =
        moments.filter_map(|choice| Some((Chart::moment_of(chorus, choice)?, choice.clone())));
    let mut settled: Vec<(Quarters, ChartChoice)> = moments.collect();
    settled.sort_by_key(|(moment, _)| *moment);
    settled
}

/// A chord in the parts for which something is settled, each until the next one.
fn divided(stretch: Stretch, settled: &[(Quarters, ChartChoice)], chorus: &Chorus) -> Vec<Stretch> {
    let first = settled.partition_point(|(moment, _)| *moment < stretch.from);
    let until = stretch.until;
    let within = settled.get(first..).unwrap_or_default();
    let within = within.iter().take_while(|(moment, _)| *moment < until);
    let mut parts = vec![stretch];
    for (moment, choice) in within {
        let Some(last) = parts.last_mut() else { break };
        if last.from < *moment {
            let rest = last.cut(*moment, chorus);
            parts.push(rest);
        }
        if let Some(last) = parts.last_mut() {
            last.settle(choice);
        }
    }
    parts
}

impl Stretch {
    /// Ends it at a moment; what is left of it.
    fn cut(&mut self, moment: Quarters, chorus: &Chorus) -> Stretch {
        let part = |from, until| {
            let bars = bars_between(chorus, from, until);
            PlanChord::of(self.asked.reading().clone(), bars)
        };
        let rest = Stretch {
            from: moment,
            until: self.until,
            asked: part(moment, self.until),
            settled: None,
        };
        self.asked = self.asked.clone().lasting(bars_between(chorus, self.from, moment));
        self.until = moment;
        rest
    }

    fn settle(&mut self, choice: &ChartChoice) {
        let mut asked = self.asked.clone();
        if let Some(scale) = &choice.scale {
            asked = asked.in_scale(scale.clone());
        }
        if let Some(pair) = choice.triad_pair() {
            asked = asked.with_pair(pair);
        }
        self.asked = asked;
        self.settled = Some(choice.clone());
    }

    fn hold_to_melody(&mut self, question: &ChangesQuestion, chorus: &Chorus) {
        if question.melody.is_empty() {
            return;
        }
        let held = question.melody.held(self.from, self.until, &chorus.bars);
        self.asked = self.asked.clone().under(held);
    }
}

/// Takes the notes that are not wanted from the chords for which that is said.
fn leave_out_unwanted(question: &ChangesQuestion, chorus: &Chorus, stretches: &mut [Stretch]) {
    let mut unwanted = vec![PitchClassSet::EMPTY; stretches.len()];
    for never in &question.wishes.never {
        let moment = never.moment.in_chorus(chorus);
        let Some(index) = moment.and_then(|moment| at(stretches, moment)) else { continue };
        let root = stretches[index].asked.reading().chord().root().pitch_class();
        unwanted[index] = unwanted[index].with(never.note.class_over(root));
    }
    for (stretch, notes) in stretches.iter_mut().zip(unwanted) {
        stretch.asked = stretch.asked.clone().without(notes);
    }
}

/// Which of the stretches sounds at a moment.
pub(super) fn at(stretches: &[Stretch], moment: Quarters) -> Option<usize> {
    let after = stretches.partition_point(|stretch| stretch.from <= moment);
    let index = after.checked_sub(1)?;
    stretches.get(index).filter(|stretch| moment < stretch.until).map(|_| index)
}

/// How many bars that is.
fn bars_between(chorus: &Chorus, from: Quarters, until: Quarters) -> f64 {
    let bar = chorus.bars.at(from).map_or(Meter::COMMON, |at| at.bar.meter).bar();
    until.checked_sub(from).unwrap_or_default().to_f64() / bar.to_f64()
}

/// The beat at which a moment lies in its bar.
pub(super) fn beat_at(chorus: &Chorus, moment: Quarters) -> ChartBeat {
    let beat = |at: BarPosition| {
        let into = at.into.checked_add(at.bar.missing)?;
        ChartBeat::at(into, at.bar.meter)
    };
    chorus.bars.at(moment).and_then(beat).unwrap_or(ChartBeat::FIRST)
}
