//! The words below the neck: the shape in hand, how the fingers go, what the pair says now, and what
//! comes next.

use fretloom_fretboard::{StringSet, VoiceMove};
use fretloom_theory::NoteName;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Line;

use super::super::drawing::Drawing;
use super::neck::member_of;
use crate::answer::{ChangesChord, NamedShape};
use crate::tui::widget::{below, broken, cut_to, indented, write};
use crate::words::{dashed, inversion, spaced};

/// From so many rows on all is said.
const MANY_ROWS: usize = 6;
/// From so many rows on a sentence may take several.
const ROWS_TO_BREAK: usize = 4;

impl Drawing<'_> {
    /// Where there is one row, what the last key has to tell has it alone.
    pub(super) fn draw_words(&self, area: Rect, buffer: &mut Buffer) {
        let (rows, theme) = (indented(area), &self.shared.theme);
        let told = self.shared.notice.clone();
        let told = told.or_else(|| self.screen.plans.refusal().map(str::to_owned));
        let told = told.or_else(|| self.screen.no_stabs_in_words(self.shared));
        let told = told.map(|told| broken(&told, rows.width)).unwrap_or_default();
        let mut lines: Vec<(String, Style)> =
            told.into_iter().map(|line| (line, theme.text)).collect();
        let room = usize::from(rows.height).saturating_sub(lines.len());
        let words = self.words(rows.width, room);
        lines.extend(words.into_iter().map(|line| (line, theme.muted)));
        for ((line, style), row) in lines.into_iter().zip(0..rows.height) {
            write(buffer, below(rows, row), &Line::styled(line, style));
        }
    }

    /// What there is to say in so many rows: how the fingers go, what the pair says now, the hand, what
    /// comes next; where there are many, why the pair is there before that.
    fn words(&self, width: u16, rows: usize) -> Vec<String> {
        let Some(chord) = self.screen.chord() else { return Vec::new() };
        let stabs = self.stabs_in_words();
        let hand = stabs.or_else(|| self.hand_in_words(chord));
        let moves = self.moves().map(|moves| self.moves_in_words(chord, moves));
        let next = self.screen.next_chord();
        let next = next.map(|next| format!("next {}: {}", next.chord(), next.why()));
        let why = (rows >= MANY_ROWS).then(|| format!("why: {}", chord.why()));
        let now = Some(format!("now {}", now_in_words(chord)));
        let hand_first = usize::from(moves.is_some()) * 2;
        let told = [(hand_first, hand), (0, moves), (1, now), (3, why), (4, next)];
        let told = told.into_iter().filter_map(|(rank, words)| Some((rank, words?)));
        most_telling(&told.collect::<Vec<_>>(), width, rows)
    }

    /// `stabs: Em 5-4-5 on beat 1 · F 7-7-6 on beat 2&`; none while none are heard.
    fn stabs_in_words(&self) -> Option<String> {
        let stabs = self.screen.stabs_heard(self.shared);
        let (bar, locked) = (self.screen.bar()?, self.screen.chosen.area.strings);
        let told = stabs.into_iter().map(|stab| {
            let shape = &stab.shape;
            let strings = Some(shape.shape.string_set()).filter(|set| Some(*set) != locked);
            let strings = strings.map(|set| format!(" on {set}")).unwrap_or_default();
            let beat = bar.beat_at(stab.onset).map(|beat| format!(" on beat {beat}"));
            let beat = beat.unwrap_or_default();
            format!("{} {}{strings}{beat}", shape.triad, dashed(shape.frets))
        });
        let told: Vec<String> = told.collect();
        (!told.is_empty()).then(|| format!("stabs: {}", told.join(" · ")))
    }

    /// `C 1st inversion, 9-7-8, fingers 3-1-2 → B 9-8-7`
    fn hand_in_words(&self, chord: &ChangesChord) -> Option<String> {
        let Some(hand) = chord.hand else {
            return Some(
                "the hand is anywhere: lock it to strings or frets to see its shapes".to_owned(),
            );
        };
        let locked = self.screen.chosen.area.strings;
        let next = self.screen.next_chord().and_then(|next| next.hand);
        let next = next.map(|hand| format!(" → {} {}", hand.shape.triad, dashed(hand.shape.frets)));
        let choices = match hand.choices {
            1 => " · the only shape of the pair here".to_owned(),
            few @ (2 | 3) => format!(" · one of {few} shapes of the pair here"),
            _ => String::new(),
        };
        Some(format!(
            "{}{}{}{choices}",
            shape_in_words(&hand.shape, locked),
            if hand.is_settled { " *" } else { "" },
            next.unwrap_or_default()
        ))
    }

    /// `string 4 B stays · 3 D → D♯ up a fret (24 mm) · 2 G stays`
    fn moves_in_words(&self, chord: &ChangesChord, moves: [VoiceMove; 3]) -> String {
        let Some(next) = self.screen.next_chord() else { return String::new() };
        let one = |voice: VoiceMove| {
            let neck = self.shared.neck();
            let name = |chord: &ChangesChord, place| {
                let (_, note, _) = member_of(chord, neck.pitch_at(place)?)?;
                Some(note)
            };
            let names = (name(chord, voice.from()), name(next, voice.to()));
            voice_in_words(voice, names)
        };
        let told = moves.map(one).join(" · ");
        format!("string {told}")
    }
}

/// As many of some sentences as there are rows for, in the order in which they are given; those of the
/// first rank before others. They are broken where there are several rows for them; only the last that
/// has any is cut.
fn most_telling(told: &[(usize, String)], width: u16, rows: usize) -> Vec<String> {
    let lines = |words: &str| match rows {
        0..ROWS_TO_BREAK => vec![words.to_owned()],
        _ => broken(words, width),
    };
    let mut ranks: Vec<usize> = (0..told.len()).collect();
    ranks.sort_by_key(|index| told[*index].0);
    let mut shown: Vec<Vec<String>> = vec![Vec::new(); told.len()];
    let mut left = rows;
    for index in ranks {
        shown[index] = cut_to(lines(&told[index].1), left);
        left -= shown[index].len();
    }
    shown.concat()
}

/// `C 1st inversion, 9-7-8, fingers 3-1-2`
fn shape_in_words(shape: &NamedShape, locked: Option<StringSet>) -> String {
    let frets = dashed(shape.frets);
    let name = inversion(shape.shape.inversion(), shape.shape.by_name_only());
    let strings = Some(shape.shape.string_set()).filter(|set| Some(*set) != locked);
    let strings = strings.map(|set| format!(" on {set}")).unwrap_or_default();
    let fingers = shape.shape.fingers();
    let fingers = fingers.map(|fingers| dashed(fingers.map(|finger| finger.number())));
    let fingers = fingers.map(|fingers| format!(", fingers {fingers}")).unwrap_or_default();
    format!("{} {name}, {frets}{strings}{fingers}", shape.triad)
}

fn voice_in_words(voice: VoiceMove, names: (Option<NoteName>, Option<NoteName>)) -> String {
    let (from, to) = (voice.from().string, voice.to().string);
    let string = if from == to { from.to_string() } else { format!("{from} to {to}") };
    let frets = voice.frets();
    let way = if frets < 0 { "down" } else { "up" };
    // To and from an open string no finger goes along the neck.
    let mm = if voice.mm() > 0.0 { format!(" ({:.0} mm)", voice.mm()) } else { String::new() };
    let far = match frets.unsigned_abs() {
        0 => "stays".to_owned(),
        1 => format!("{way} a fret{mm}"),
        count => format!("{way} {count} frets{mm}"),
    };
    match names {
        (Some(from), Some(to)) if from == to => format!("{string} {from} {far}"),
        (Some(from), Some(to)) => format!("{string} {from} → {to} {far}"),
        (None, _) | (_, None) => format!("{string} {far}"),
    }
}

/// `C & D on Em6: ♭6 1 ♭3 · ♭7 9 4, leaves out G (♭3)`
fn now_in_words(chord: &ChangesChord) -> String {
    let degrees = chord
        .pair
        .names()
        .map(|name| spaced(name.notes().map(|note| chord.over().degree(note.pitch_class()))));
    let left_out = chord.left_out();
    let left_out = left_out.iter().map(|left| format!("{} ({})", left.note, left.degree));
    let left_out: Vec<String> = left_out.collect();
    let no = match left_out.as_slice() {
        [] => String::new(),
        some => format!(", leaves out {}", some.join(", ")),
    };
    let rubs = chord.rubs();
    let rubs = if rubs.is_empty() { String::new() } else { format!(", rubs {}", spaced(rubs)) };
    format!("{} on {}: {}{no}{rubs}", chord.pair, chord.chord(), degrees.join(" · "))
}
