//! What the phrases are: pair, pattern, rhythm, and how they go.

use fretloom_theory::{
    AtChange, Inversion, LineStyle, PairSound, Pattern, Rhythm, Speller, Tempo, TriadPair,
    TriadQuality,
};

use super::super::chosen::Chosen;
use super::super::cycles::{Way, meters, others, rhythms, starts, travels};
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

    /// Which phrase the keys change: the one in hand, where it is one of its own.
    pub(super) fn own(&self) -> Option<usize> {
        self.own_in_hand().map(|(index, _)| index)
    }

    pub(super) fn step_pattern(&mut self, way: Way, shared: &mut Shared) {
        let own = self.own_in_hand().and_then(|(_, own)| own.pattern.clone());
        let phrase = self.made().and_then(|made| made.pair_phrase(self.cursor));
        let Some(now) = own.or_else(|| Some(phrase?.pattern.clone())) else { return };
        let all: Vec<Pattern> =
            shared.library.patterns.patterns().iter().map(|named| named.figures.clone()).collect();
        let (values, own) = (others(&all, &now, way), self.own());
        let put = |chosen: &mut Chosen, pattern| match chosen.phrase(own) {
            Some(phrase) => (phrase.pattern, phrase.notes) = (Some(pattern), None),
            None => chosen.pattern = Some(pattern),
        };
        if self.take_first(values, put, shared) {
            shared.notice = self.pattern_in_words(shared);
        }
    }

    /// `pattern 5 of 36: threes up. Three against the bar: round after three bars.`
    fn pattern_in_words(&self, shared: &Shared) -> Option<String> {
        let all = shared.library.patterns.patterns();
        let own = self.own_in_hand().and_then(|(_, own)| own.pattern.as_ref());
        let now = own.or(self.chosen.pattern.as_ref())?;
        let is_it = |named: &NamedPattern| named.figures == *now;
        let (at, named) = all.iter().enumerate().find(|(_, named)| is_it(named))?;
        let note = named.note.as_ref().map(|note| format!(". {note}")).unwrap_or_default();
        Some(format!("pattern {} of {}: {}{note}", at + 1, all.len(), named.name))
    }

    pub(super) fn step_rhythm(&mut self, way: Way, shared: &mut Shared) {
        let own = self.own();
        let of_own = || self.made().and_then(|made| made.phrase_of(self.cursor));
        let now = match own {
            Some(_) => of_own().map(|phrase| phrase.rhythm.clone()),
            None => self.chosen.rhythm.clone(),
        };
        // Unasked it goes in eighths.
        let now = now.filter(|rhythm| *rhythm != Rhythm::eighths());
        let put = |chosen: &mut Chosen, rhythm: Option<Rhythm>| match chosen.phrase(own) {
            Some(phrase) => phrase.rhythm = Some(rhythm.unwrap_or_default()),
            None => chosen.rhythm = rhythm,
        };
        self.take_first(others(&rhythms(), &now, way), put, shared);
    }

    pub(super) fn step_travel(&mut self, way: Way, shared: &mut Shared) {
        let phrase = self.made().and_then(|made| made.phrase_of(self.cursor));
        let (Some(now), own) = (phrase.map(|phrase| phrase.travel), self.own()) else { return };
        let put = |chosen: &mut Chosen, travel| match chosen.phrase(own) {
            Some(phrase) => phrase.travel = Some(travel),
            None => chosen.travel = Some(travel),
        };
        self.take_first(others(&travels(), &now, way), put, shared);
    }

    pub(super) fn step_start(&mut self, way: Way, shared: &mut Shared) {
        let Some((index, own)) = self.own_in_hand() else {
            let values = others(&starts(self.chosen.near), &self.chosen.start, way);
            self.take_first(values, |chosen, start| chosen.start = start, shared);
            return;
        };
        let words = Inversion::ALL.map(|inversion| Some(inversion.word().to_owned()));
        let all: Vec<Option<String>> = std::iter::once(None).chain(words).collect();
        let values = others(&all, &own.start, way);
        let put = |chosen: &mut Chosen, start| {
            if let Some(phrase) = chosen.phrase(Some(index)) {
                phrase.start = start;
            }
        };
        self.take_first(values, put, shared);
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
        if !self.chosen.phrases.is_empty() {
            self.run_on(shared);
            return;
        }
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

    /// The phrase in hand runs on from the one before, or begins its pattern again.
    fn run_on(&mut self, shared: &mut Shared) {
        let index = self.in_hand();
        let mut chosen = self.chosen.clone();
        let Some(phrase) = chosen.phrases.get_mut(index).filter(|_| index > 0) else {
            shared.tell("the first phrase has none before it from which it could run on");
            return;
        };
        phrase.runs_on = !phrase.runs_on;
        let told = if phrase.runs_on { "runs on from the phrase before" } else { "begins again" };
        if self.take(chosen, shared) {
            shared.tell(format!("phrase {} {told}", index + 1));
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
        let (written, pairs) = (chord.written, pairs_of(chord, shared));
        let own = self.own();
        let phrase = self.made().and_then(|made| made.phrase_of(self.cursor));
        let now = match own.and(phrase) {
            Some(phrase) => phrase.pair,
            None => chord.pair.pair(),
        };
        let now = pairs.iter().find(|(pair, _)| *pair == now).cloned();
        let values = match now {
            Some(now) => others(&pairs, &now, way),
            None => pairs,
        };
        if values.is_empty() {
            shared.tell("this scale holds no other pair");
            return;
        }
        let put = |chosen: &mut Chosen, (pair, name): (TriadPair, String)| match chosen.phrase(own)
        {
            Some(phrase) => phrase.pair = Some(pair),
            None => chosen.each.iter_mut().skip(written).take(1).for_each(|chord| {
                chord.pair.clone_from(&name);
            }),
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

/// All pairs of tertian triads over a chord with their names in ASCII, the best first.
fn pairs_of(chord: &LineChord, shared: &Shared) -> Vec<(TriadPair, String)> {
    let speller = Speller::new(chord.over.clone(), shared.setup.spelling);
    let ranked = PairSound::ranked(&chord.over, TriadQuality::TERTIAN);
    let name = |sound: &PairSound| {
        let [first, second] = speller.pair(sound.pair());
        (sound.pair(), format!("{first:#} & {second:#}"))
    };
    ranked.iter().map(name).collect()
}
