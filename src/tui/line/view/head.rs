//! The head: chords and instrument, then the phrase; or the field in which something is typed.

use fretloom_theory::{AtChange, LineStyle, WhichTriad};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::super::cycles::{name_of_rhythm, name_of_start, name_of_travel};
use super::super::drawing::Drawing;
use super::super::field::Field;
use super::super::made::Made;
use super::super::phrases::name;
use crate::answer::NamedPair;
use crate::tui::command::{Command, TypingCommand};
use crate::tui::widget::{below, draw_field, write};
use crate::words::counted;

impl Drawing<'_> {
    pub(super) fn draw_head(&self, area: Rect, buffer: &mut Buffer) {
        self.draw_chords(below(area, 0), buffer);
        self.draw_phrase(below(area, 1), buffer);
        self.draw_phrases(
            Rect { y: area.y + 2, height: area.height.saturating_sub(2), ..area },
            buffer,
        );
    }

    /// What is typed, and below it what is wrong with it, or what can be typed.
    pub(super) fn draw_field(&self, screen: Rect, buffer: &mut Buffer, field: &Field) {
        let theme = &self.shared.theme;
        let line = field.text.line_within(&field.label(), theme, screen.width);
        let mistake = self.shared.notice.clone();
        let mistake = mistake.or_else(|| field.mistake(&self.screen.chosen, self.shared));
        let offered = field.suggestion(self.shared).map(|named| {
            let key = self.shared.key_of(Command::Typing(TypingCommand::Suggestion));
            format!("{key}: {}  {}", named.figures, named.name)
        });
        let (told, style) = match (offered, mistake) {
            (Some(offered), _) => (offered, theme.muted),
            (None, Some(mistake)) => (mistake, theme.error),
            (None, None) => (field.help().to_owned(), theme.muted),
        };
        draw_field(screen, buffer, &line, (&told, style), theme);
    }

    /// `Dm7 | G7 | Cmaj7   in C, key 2 of 12   ▸ playing, round 2   E A D G B E`
    fn draw_chords(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let mut line = Line::from(vec![
            Span::raw(" "),
            Span::styled(self.screen.chosen.chords.clone(), theme.title),
        ]);
        if let Some(key) = self.screen.key_in_words() {
            let number = self.screen.chosen.key + 1;
            line.push_span(Span::raw(format!("   in {key}, key {number} of 12")));
        }
        if let Some(told) = self.shared.sound.in_words() {
            line.push_span(Span::styled(format!("   ▸ {told}"), theme.key));
        }
        write(buffer, area, &line);
        self.shared.draw_instrument(area, line.width() as u16, buffer);
    }

    /// What is told then, once phrases are written out: `phrase 2 alone: `, or `whole line: `.
    fn whose_words(&self) -> String {
        match (self.screen.chosen.phrases.is_empty(), self.screen.own_in_hand()) {
            (true, _) => String::new(),
            (false, Some((index, _))) => format!("phrase {} alone: ", name(index)),
            (false, None) => "whole line: ".to_owned(),
        }
    }

    /// `[F] & (G) · 1232 321 a · eighths · linked up · music · 4 bars of 4/4 · ♩=120`
    fn draw_phrase(&self, area: Rect, buffer: &mut Buffer) {
        let Some(made) = self.screen.made() else { return };
        let mut line = Line::raw(format!(" {}", self.whose_words()));
        if let Some(pair) = self.pair_in_hand(made) {
            let [first, second] = pair.names();
            for (span, which) in [
                (format!("[{first}]"), Some(WhichTriad::First)),
                (" & ".to_owned(), None),
                (format!("({second})"), Some(WhichTriad::Second)),
            ] {
                let style = match which {
                    Some(WhichTriad::First) => self.shared.theme.first,
                    Some(WhichTriad::Second) => self.shared.theme.second,
                    None => self.shared.theme.muted,
                };
                line.push_span(Span::styled(span, style));
            }
        }
        let words = self.phrase_words(made);
        let all =
            |words: &[String]| words.iter().map(|word| format!(" · {word}")).collect::<String>();
        let room = usize::from(area.width).saturating_sub(line.width());
        let mut count = words.len();
        while count > 1 && all(words.get(..count).unwrap_or_default()).chars().count() > room {
            count -= 1;
        }
        line.push_span(Span::raw(all(words.get(..count).unwrap_or_default())));
        write(buffer, area, &line);
    }

    /// That of the phrase in hand, where it is one of its own; else that of the chord at the cursor.
    fn pair_in_hand(&self, made: &Made) -> Option<NamedPair> {
        match self.screen.own_in_hand() {
            Some((_, own)) if own.notes.is_some() => None,
            Some(_) => made.pair_phrase(self.screen.cursor).map(|phrase| phrase.pair),
            None => self.screen.chord_at_cursor().map(|chord| chord.pair),
        }
    }

    /// What the phrase is, the weightiest first.
    fn phrase_words(&self, made: &Made) -> Vec<String> {
        let chosen = &self.screen.chosen;
        let own = self.screen.own_in_hand().map(|(_, own)| own);
        let phrase = made.pair_phrase(self.screen.cursor);
        let phrase = phrase.filter(|_| own.is_none_or(|own| own.notes.is_none()));
        let mut words: Vec<String> = own.and_then(|own| own.notes.clone()).into_iter().collect();
        words.extend(phrase.map(|phrase| phrase.pattern.to_string()));
        words.extend(phrase.map(|phrase| name_of_rhythm(&phrase.rhythm)));
        let travel = phrase.and(made.phrase_of(self.screen.cursor)).map(|phrase| phrase.travel);
        words.extend(travel.map(|travel| name_of_travel(travel).to_owned()));
        match own {
            Some(own) => words.extend(own.start.as_ref().map(|start| format!("from {start}"))),
            None => words.extend(name_of_start(chosen.start)),
        }
        words.push(match (chosen.style, chosen.at_change) {
            (LineStyle::Music, _) => "music".to_owned(),
            (LineStyle::Exercise, AtChange::RunsOn) => "exercise".to_owned(),
            (LineStyle::Exercise, AtChange::BeginsAgain) => "exercise, begins again".to_owned(),
            (LineStyle::Exercise, AtChange::CutShort) => "exercise, cut short".to_owned(),
        });
        words.push(format!("{} {}", counted(made.bar_count() as usize, "bar"), chosen.meter));
        words.push(format!("♩={:.0}", chosen.tempo.a_minute()));
        let round = made.answer.comes_round().map(|round| round.bars as usize);
        words.extend(round.map(|bars| format!("comes round after {}", counted(bars, "bar"))));
        let changed = chosen.edits.len();
        words.extend((changed > 0).then(|| counted(changed, "change")));
        words
    }
}
