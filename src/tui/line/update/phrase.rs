//! What the phrases are: pair, pattern, rhythm, and how they go.

use fretloom_theory::{AtChange, LineStyle, PairSound, Pattern, Speller, Tempo, TriadQuality};

use super::super::chosen::Chosen;
use super::super::cycles::{Way, meters, others, rhythms, starts, travels};
use super::super::made::Made;
use super::super::state::LineScreen;
use crate::answer::{LineChord, LineChords};
use crate::library::NamedPattern;
use crate::picture::Labels;
use crate::tui::shared::Shared;

/// How many beats a minute a key makes it faster, and how slow and fast it goes.
const TEMPO_STEP: i64 = 4;
const TEMPI: std::ops::RangeInclusive<i64> = 20..=400;
/// The keys that there are.
const KEYS: usize = 12;

impl LineScreen {
    /// Takes the first of several values of which a line can be made; if there is none, says why the
    /// first one cannot be taken.
    pub(super) fn take_first<T>(
        &mut self,
        values: Vec<T>,
        put: impl Fn(&mut Chosen, T),
        shared: &mut Shared,
    ) -> bool {
        let mut first_reason = None;
        for value in values {
            let mut chosen = self.chosen.clone();
            put(&mut chosen, value);
            if self.take(chosen, shared) {
                shared.notice = None;
                return true;
            }
            first_reason = first_reason.or(shared.notice.take());
        }
        shared.notice = first_reason;
        false
    }

    pub(super) fn step_pattern(&mut self, way: Way, shared: &mut Shared) {
        let phrase = self.made().and_then(Made::pair_phrase);
        let Some(now) = phrase.map(|phrase| phrase.pattern.clone()) else { return };
        let all: Vec<Pattern> =
            shared.library.patterns.patterns().iter().map(|named| named.figures.clone()).collect();
        let values = others(&all, &now, way);
        if self.take_first(values, |chosen, pattern| chosen.pattern = Some(pattern), shared) {
            shared.notice = self.pattern_in_words(shared);
        }
    }

    /// `pattern 5 of 36: threes up. Three against the bar: round after three bars.`
    fn pattern_in_words(&self, shared: &Shared) -> Option<String> {
        let all = shared.library.patterns.patterns();
        let is_it = |named: &NamedPattern| Some(&named.figures) == self.chosen.pattern.as_ref();
        let (at, named) = all.iter().enumerate().find(|(_, named)| is_it(named))?;
        let note = named.note.as_ref().map(|note| format!(". {note}")).unwrap_or_default();
        Some(format!("pattern {} of {}: {}{note}", at + 1, all.len(), named.name))
    }

    pub(super) fn step_rhythm(&mut self, way: Way, shared: &mut Shared) {
        let values = others(&rhythms(), &self.chosen.rhythm, way);
        self.take_first(values, |chosen, rhythm| chosen.rhythm = rhythm, shared);
    }

    pub(super) fn step_travel(&mut self, way: Way, shared: &mut Shared) {
        let first = self.made().and_then(|made| made.answer.made_of().first());
        let Some(now) = first.map(|phrase| phrase.travel) else { return };
        let values = others(&travels(), &now, way);
        self.take_first(values, |chosen, travel| chosen.travel = Some(travel), shared);
    }

    pub(super) fn step_start(&mut self, way: Way, shared: &mut Shared) {
        let values = others(&starts(self.chosen.near), &self.chosen.start, way);
        self.take_first(values, |chosen, start| chosen.start = start, shared);
    }

    pub(super) fn change_style(&mut self, shared: &mut Shared) {
        let mut chosen = self.chosen.clone();
        chosen.style = match chosen.style {
            LineStyle::Music => LineStyle::Exercise,
            LineStyle::Exercise => LineStyle::Music,
        };
        self.take(chosen, shared);
    }

    pub(super) fn change_at_change(&mut self, shared: &mut Shared) {
        if self.chosen.style == LineStyle::Music {
            shared.tell("music begins again at each landing; an exercise has the choice");
            return;
        }
        let mut chosen = self.chosen.clone();
        let (next, told) = match chosen.at_change {
            AtChange::RunsOn => (AtChange::BeginsAgain, "begins again with each chord"),
            AtChange::BeginsAgain => (AtChange::CutShort, "cut short before each chord"),
            AtChange::CutShort => (AtChange::RunsOn, "runs on over the change of chord"),
        };
        chosen.at_change = next;
        if self.take(chosen, shared) {
            shared.tell(told);
        }
    }

    pub(super) fn step_bars(&mut self, way: Way, shared: &mut Shared) {
        let Some(made) = self.made() else { return };
        let now = made.bar_count();
        let next = match way {
            Way::Next => now.saturating_add(1).min(LineChords::MOST_BARS),
            Way::Before => now.saturating_sub(1).max(1),
        };
        if next == now {
            shared.tell("one bar is the least");
            return;
        }
        self.take_first(vec![next], |chosen, bars| chosen.bars = Some(bars), shared);
    }

    pub(super) fn step_meter(&mut self, way: Way, shared: &mut Shared) {
        let values = others(&meters(), &self.chosen.meter, way);
        self.take_first(values, |chosen, meter| chosen.meter = meter, shared);
    }

    pub(super) fn step_tempo(&mut self, way: Way, shared: &mut Shared) {
        let step = match way {
            Way::Next => TEMPO_STEP,
            Way::Before => -TEMPO_STEP,
        };
        let now = self.chosen.tempo.a_minute().round() as i64;
        let next = (now + step).clamp(*TEMPI.start(), *TEMPI.end());
        let tempo = u64::try_from(next).ok().and_then(|next| Tempo::new(next, 1));
        let values = tempo.into_iter().collect();
        self.take_first(values, |chosen, tempo| chosen.tempo = tempo, shared);
    }

    pub(super) fn step_key(&mut self, way: Way, shared: &mut Shared) {
        let all: Vec<usize> = (0..KEYS).collect();
        let values = others(&all, &self.chosen.key, way);
        self.take_first(values, |chosen, key| chosen.key = key, shared);
    }

    /// The next pair in the list of the chord at the cursor, in all its bars.
    pub(super) fn step_pair(&mut self, way: Way, shared: &mut Shared) {
        if self.chosen.key != 0 {
            shared.tell("pairs are chosen in the key in which the line was made");
            return;
        }
        let Some(chord) = self.chord_at_cursor() else { return };
        let written = chord.written;
        let (names, now) = (pairs_of(chord, shared), format!("{:#}", chord.pair));
        let values = others(&names, &now, way);
        if values.is_empty() {
            shared.tell("this scale holds no other pair");
            return;
        }
        let put = |chosen: &mut Chosen, pair| {
            if let Some(chord) = chosen.each.get_mut(written) {
                chord.pair = pair;
            }
        };
        self.take_first(values, put, shared);
    }

    /// The chord over which the note at the cursor is played.
    pub(in crate::tui::line) fn chord_at_cursor(&self) -> Option<&LineChord> {
        let made = self.made()?;
        made.answer.question.chords.at(self.note()?.note.onset)
    }

    pub(super) fn next_labels(&mut self) {
        let labels = others(&Labels::ALL, &self.chosen.labels, Way::Next);
        self.chosen.labels = labels.first().copied().unwrap_or_default();
    }
}

/// The names of all pairs of tertian triads over a chord, the best first, in ASCII.
fn pairs_of(chord: &LineChord, shared: &Shared) -> Vec<String> {
    let speller = Speller::new(chord.over.clone(), shared.setup.spelling);
    let ranked = PairSound::ranked(&chord.over, TriadQuality::TERTIAN);
    let name = |sound: &PairSound| {
        let [first, second] = speller.pair(sound.pair());
        format!("{first:#} & {second:#}")
    };
    ranked.iter().map(name).collect()
}
