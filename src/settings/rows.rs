//! The table of settings.

use fretloom_theory::{ClickBeats, Spelling};
use toml::de::DeValue;

use super::ascii::Ascii;
use super::known::Known;
use super::settled::Settings;
use super::value::{
    beats, concert_pitch, families, hand, key_order, level, one_of, pedal, swing, switch, theme,
    tuning, whole, word,
};
use crate::picture::page::Paper;
use crate::picture::{FretWidths, Labels};
use crate::sound::CountIn;

/// Puts a value that was read into the settings.
pub(super) type Set = Box<dyn FnOnce(&mut Settings)>;

/// One setting: its name in the file, the option of the command line that overrides it, how it is
/// read, and how it is printed for that option.
pub(super) struct Row {
    pub(super) name: &'static str,
    pub(super) option: &'static str,
    pub(super) read: fn(&DeValue<'_>, &Known<'_>) -> Result<Set, String>,
    pub(super) print: fn(&Settings) -> String,
}

/// Assigns a value that was read to one field of the settings.
fn set<T: 'static>(value: T, field: fn(&mut Settings) -> &mut T) -> Set {
    Box::new(move |settings| *field(settings) = value)
}

const SPELLINGS: [(&str, Spelling); 2] = [("plain", Spelling::Plain), ("strict", Spelling::Strict)];

const ASCII: [(&str, Ascii); 3] =
    [("auto", Ascii::Auto), ("always", Ascii::Always), ("never", Ascii::Never)];

/// Every setting, in the order of the sample.
pub(super) const ROWS: &[Row] = &[
    Row {
        name: "theme",
        option: "theme",
        read: |value, known| Ok(set(theme(value, known)?, |settings| &mut settings.theme)),
        print: |settings| settings.theme.clone(),
    },
    Row {
        name: "ascii",
        option: "ascii",
        read: |value, _| Ok(set(one_of(value, &ASCII)?, |settings| &mut settings.ascii)),
        print: |settings| word(&settings.ascii, &ASCII),
    },
    Row {
        name: "spelling",
        option: "spelling",
        read: |value, _| Ok(set(one_of(value, &SPELLINGS)?, |settings| &mut settings.spelling)),
        print: |settings| word(&settings.spelling, &SPELLINGS),
    },
    Row {
        name: "tuning",
        option: "tuning",
        read: |value, known| Ok(set(tuning(value, known)?, |settings| &mut settings.tuning)),
        print: |settings| settings.tuning.clone(),
    },
    Row {
        name: "labels",
        option: "labels",
        read: |value, _| {
            let words = Labels::ALL.map(|labels| (labels.word(), labels));
            Ok(set(one_of(value, &words)?, |settings| &mut settings.labels))
        },
        print: |settings| settings.labels.word().to_owned(),
    },
    Row {
        name: "families",
        option: "families",
        read: |value, _| Ok(set(families(value)?, |settings| &mut settings.families)),
        print: |settings| settings.families.to_string(),
    },
    Row {
        name: "reach_mm",
        option: "reach",
        read: |value, _| Ok(set(hand(value)?, |settings| &mut settings.hand)),
        print: |settings| settings.hand.reach_mm().to_string(),
    },
    Row {
        name: "left_handed",
        option: "left_handed",
        read: |value, _| Ok(set(switch(value)?, |settings| &mut settings.left_handed)),
        print: |settings| settings.left_handed.to_string(),
    },
    Row {
        name: "upside_down",
        option: "upside_down",
        read: |value, _| Ok(set(switch(value)?, |settings| &mut settings.upside_down)),
        print: |settings| settings.upside_down.to_string(),
    },
    Row {
        name: "mouse",
        option: "mouse",
        read: |value, _| Ok(set(switch(value)?, |settings| &mut settings.mouse)),
        print: |settings| settings.mouse.to_string(),
    },
    Row {
        name: "fresh",
        option: "fresh",
        read: |value, _| Ok(set(switch(value)?, |settings| &mut settings.fresh)),
        print: |settings| settings.fresh.to_string(),
    },
    Row {
        name: "fret_widths",
        option: "fret_widths",
        read: |value, _| {
            let words = FretWidths::ALL.map(|widths| (widths.word(), widths));
            Ok(set(one_of(value, &words)?, |settings| &mut settings.fret_widths))
        },
        print: |settings| settings.fret_widths.word().to_owned(),
    },
    Row {
        name: "paper",
        option: "paper",
        read: |value, _| {
            let words = Paper::ALL.map(|paper| (paper.word(), paper));
            Ok(set(one_of(value, &words)?, |settings| &mut settings.paper))
        },
        print: |settings| settings.paper.word().to_owned(),
    },
    Row {
        name: "pedal",
        option: "pedal",
        read: |value, known| Ok(set(pedal(value, known)?, |settings| &mut settings.pedal)),
        print: |settings| settings.pedal.clone(),
    },
    Row {
        name: "a4",
        option: "a4",
        read: |value, _| {
            Ok(set(concert_pitch(value)?, |settings| &mut settings.sound.concert_pitch))
        },
        print: |settings| settings.sound.concert_pitch.to_string(),
    },
    Row {
        name: "swing",
        option: "swing",
        read: |value, _| Ok(set(swing(value)?, |settings| &mut settings.sound.swing)),
        print: |settings| settings.sound.swing.to_string(),
    },
    Row {
        name: "drone",
        option: "drone",
        read: |value, _| Ok(set(switch(value)?, |settings| &mut settings.sound.drone)),
        print: |settings| settings.sound.drone.to_string(),
    },
    Row {
        name: "click",
        option: "click",
        read: |value, _| {
            let words = ClickBeats::ALL.map(|beats| (beats.word(), beats));
            Ok(set(one_of(value, &words)?, |settings| &mut settings.sound.click))
        },
        print: |settings| settings.sound.click.word().to_owned(),
    },
    Row {
        name: "count_in",
        option: "count_in",
        read: |value, _| {
            let count_in = CountIn::when(switch(value)?);
            Ok(set(count_in, |settings| &mut settings.sound.count_in))
        },
        print: |settings| (settings.sound.count_in == CountIn::OneBar).to_string(),
    },
    Row {
        name: "line_level",
        option: "line_level",
        read: |value, _| Ok(set(level(value)?, |settings| &mut settings.sound.line_level)),
        print: |settings| settings.sound.line_level.to_string(),
    },
    Row {
        name: "drone_level",
        option: "drone_level",
        read: |value, _| Ok(set(level(value)?, |settings| &mut settings.sound.drone_level)),
        print: |settings| settings.sound.drone_level.to_string(),
    },
    Row {
        name: "click_level",
        option: "click_level",
        read: |value, _| Ok(set(level(value)?, |settings| &mut settings.sound.click_level)),
        print: |settings| settings.sound.click_level.to_string(),
    },
    Row {
        name: "practice_minutes",
        option: "minutes",
        read: |value, _| Ok(set(whole(value, 1, 240)?, |settings| &mut settings.practice.minutes)),
        print: |settings| settings.practice.minutes.to_string(),
    },
    Row {
        name: "practice_items",
        option: "items",
        read: |value, _| Ok(set(whole(value, 1, 20)?, |settings| &mut settings.practice.items)),
        print: |settings| settings.practice.items.to_string(),
    },
    Row {
        name: "practice_keys",
        option: "item_keys",
        read: |value, _| Ok(set(whole(value, 1, 12)?, |settings| &mut settings.practice.keys)),
        print: |settings| settings.practice.keys.to_string(),
    },
    Row {
        name: "practice_new",
        option: "new_items",
        read: |value, _| Ok(set(whole(value, 0, 20)?, |settings| &mut settings.practice.new)),
        print: |settings| settings.practice.new.to_string(),
    },
    Row {
        name: "listen_questions",
        option: "questions",
        read: |value, _| Ok(set(whole(value, 1, 40)?, |settings| &mut settings.practice.questions)),
        print: |settings| settings.practice.questions.to_string(),
    },
    Row {
        name: "turn_minutes",
        option: "turn",
        read: |value, _| {
            Ok(set(whole(value, 1, 30)?, |settings| &mut settings.practice.turn_minutes))
        },
        print: |settings| settings.practice.turn_minutes.to_string(),
    },
    Row {
        name: "rest_minutes",
        option: "rest",
        read: |value, _| {
            Ok(set(whole(value, 5, 60)?, |settings| &mut settings.practice.rest_minutes))
        },
        print: |settings| settings.practice.rest_minutes.to_string(),
    },
    Row {
        name: "key_order",
        option: "key_order",
        read: |value, _| Ok(set(key_order(value)?, |settings| &mut settings.practice.key_order)),
        print: |settings| settings.practice.key_order.to_string(),
    },
    Row {
        name: "ladder_start",
        option: "ladder_start",
        read: |value, _| Ok(set(beats(value)?, |settings| &mut settings.practice.ladder.start)),
        print: |settings| settings.practice.ladder.start.to_string(),
    },
    Row {
        name: "ladder_good",
        option: "ladder_good",
        read: |value, _| {
            Ok(set(whole(value, 1, 10)?, |settings| &mut settings.practice.ladder.good))
        },
        print: |settings| settings.practice.ladder.good.to_string(),
    },
    Row {
        name: "ladder_up",
        option: "ladder_up",
        read: |value, _| Ok(set(whole(value, 1, 40)?, |settings| &mut settings.practice.ladder.up)),
        print: |settings| settings.practice.ladder.up.to_string(),
    },
    Row {
        name: "ladder_back",
        option: "ladder_back",
        read: |value, _| {
            Ok(set(whole(value, 1, 40)?, |settings| &mut settings.practice.ladder.back))
        },
        print: |settings| settings.practice.ladder.back.to_string(),
    },
    Row {
        name: "ladder_top",
        option: "ladder_top",
        read: |value, _| Ok(set(beats(value)?, |settings| &mut settings.practice.ladder.top)),
        print: |settings| settings.practice.ladder.top.to_string(),
    },
    Row {
        name: "first_gap_days",
        option: "first_gap",
        read: |value, _| {
            Ok(set(whole(value, 1, 30)?, |settings| &mut settings.practice.spacing.first_days))
        },
        print: |settings| settings.practice.spacing.first_days.to_string(),
    },
    Row {
        name: "gap_growth",
        option: "gap_growth",
        read: |value, _| {
            Ok(set(whole(value, 1, 5)?, |settings| &mut settings.practice.spacing.growth))
        },
        print: |settings| settings.practice.spacing.growth.to_string(),
    },
    Row {
        name: "longest_gap_days",
        option: "longest_gap",
        read: |value, _| {
            Ok(set(whole(value, 1, 240)?, |settings| &mut settings.practice.spacing.longest_days))
        },
        print: |settings| settings.practice.spacing.longest_days.to_string(),
    },
];
