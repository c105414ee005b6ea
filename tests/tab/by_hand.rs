//! Tabs in small, each worked out by hand: times that are played or recorded, many notes at once, and
//! what nobody writes.

use fretloom::export::text::TabText;
use fretloom::picture::{Attack, Tab, TabEvent, TabLook, TabMusic, TabRhythm, TimesFrom};
use fretloom_fretboard::{Fret, StringNumber, Tuning};
use fretloom_theory::{Bar, BarLabel, Bars, ChordSymbol, Meter, Quarters, Timeline};

use crate::notation::notes;

fn music<'a>(
    bars: &'a Bars,
    chords: &'a Timeline<ChordSymbol>,
    tempi: &'a fretloom_theory::TempoMap,
    end: Quarters,
    times: TimesFrom,
) -> TabMusic<'a> {
    TabMusic { title: None, bars, tempi, chords, end, times }
}

/// A tab on three strings in some meter, with its chords at quarter notes.
fn tab_of(
    events: &[TabEvent],
    (bars, end, times): (&Bars, Quarters, TimesFrom),
    chords: &[(u32, &str)],
) -> Tab {
    let chord = |(at, text): &(u32, &str)| (Quarters::whole(*at), ChordSymbol::read(text));
    let chords = Timeline::of(chords.iter().map(chord));
    let tempi = fretloom_theory::TempoMap::default();
    let tuning = Tuning::read("G3 B3 E4").unwrap();
    Tab::new(&music(bars, &chords, &tempi, end, times), &tuning, events)
}

fn common() -> Bars {
    Bars::of(Meter::COMMON)
}

/// The lines of a tab without its head and legend.
fn lines(tab: &Tab, width: usize) -> Vec<String> {
    let text = TabText::new(tab, &TabLook { width, ..TabLook::default() });
    text.systems.iter().flat_map(|system| system.lines().map(str::to_owned)).collect()
}

fn quarters(above: u64, below: u32) -> Quarters {
    Quarters::new(above, below).unwrap()
}

fn note(onset: Quarters, duration: Quarters, string: u8, fret: u8) -> TabEvent {
    let (string, fret) = (StringNumber::new(string).unwrap(), Fret::new(fret).unwrap());
    TabEvent::new(onset, duration, string, fret)
}

/// Eighths that a sequencer plays for 228 of 240 ticks, and one of half that, which is staccato.
#[test]
fn what_is_played_nearly_as_long_as_it_is_written_lasts_so_long() {
    let played = |index: u32, ticks: u64| {
        note(Quarters::EIGHTH.times(index).unwrap(), quarters(ticks, 480), 1, index as u8)
    };
    let events = [played(0, 228), played(1, 228), played(2, 120), played(3, 228), played(4, 912)];
    let tab = tab_of(&events, (&common(), Quarters::whole(4), TimesFrom::Playing), &[]);
    assert_eq!(tab.rhythm, TabRhythm::LengthsRounded);
    let expected = [
        "    1",
        "      1   &   2  (e)   &   3  ~4",
        "1 E |-0---1---2--------3---4-----|",
        "2 B |----------------------------|",
        "3 G |----------------------------|",
    ];
    assert_eq!(lines(&tab, 80), expected);
    // The same numbers in a score are meant.
    let tab = tab_of(&events, (&common(), Quarters::whole(4), TimesFrom::Writing), &[]);
    assert_eq!(tab.rhythm, TabRhythm::Counted);
}

/// Seconds that lie on no grid: the order and the bars are shown, no rhythm, and that is said. Those
/// that do are counted.
#[test]
fn a_recording_is_counted_where_it_can_be() {
    let at = |ms: u64| quarters(ms, 500);
    let played =
        [note(at(13), at(200), 1, 5), note(at(490), at(90), 2, 12), note(at(2750), at(40), 3, 7)];
    let tab = tab_of(&played, (&common(), at(3000), TimesFrom::Seconds), &[]);
    assert_eq!(tab.rhythm, TabRhythm::NotCounted);
    let expected =
        ["    1        2", "1 E |-5------|---|", "2 B |-----12-|---|", "3 G |--------|-7-|"];
    assert_eq!(lines(&tab, 80), expected);
    let text = TabText::new(&tab, &TabLook::default()).to_string();
    assert!(text.contains("no rhythm is written") && !text.contains('&'), "{text}");
    let played = [note(at(0), at(250), 1, 5), note(at(750), at(240), 2, 12)];
    let tab = tab_of(&played, (&common(), at(1000), TimesFrom::Seconds), &[]);
    assert_eq!(tab.rhythm, TabRhythm::LengthsRounded);
    let text = TabText::new(&tab, &TabLook::default()).to_string();
    assert!(text.contains("counted as 4/4 at 120 quarter notes a minute"), "{text}");
}

/// Two grace notes, then a chord whose third note no hand reaches at once.
#[test]
fn grace_notes_come_before_and_rolled_notes_after() {
    let at = Quarters::ONE;
    let grace = |steps, fret| TabEvent {
        attack: Attack::Before(steps),
        ..note(at, Quarters::ZERO, 1, fret)
    };
    let after = TabEvent { attack: Attack::After(1), ..note(at, Quarters::ONE, 3, 12) };
    let events = [
        after,
        note(at, Quarters::ONE, 1, 3),
        grace(1, 2),
        note(at, Quarters::ONE, 2, 5),
        grace(2, 1),
    ];
    let tab = tab_of(&events, (&common(), Quarters::whole(2), TimesFrom::Writing), &[]);
    let expected = [
        "    1",
        "     (1)   g   g   2   '   (3   4)",
        "1 E |------1---2---3---------------|",
        "2 B |--------------5---------------|",
        "3 G |------------------12----------|",
    ];
    assert_eq!(lines(&tab, 80), expected);
}

/// Two notes at once on one string come one after another, and nothing is lost.
#[test]
fn a_string_sounds_one_note_at_a_time() {
    let one = Quarters::ONE;
    let events = [note(one, one, 1, 3), note(one, one, 1, 5), note(one, quarters(3, 1), 2, 8)];
    let tab = tab_of(&events, (&common(), one, TimesFrom::Writing), &[]);
    let shown = lines(&tab, 80);
    assert_eq!(shown[1], "     (1)   2   '  (3   4)");
    assert_eq!(shown[2], "1 E |------3---5----------|");
    assert_eq!(shown[3], "2 B |------8============--|");
}

/// A note of 33 beats: the beats between are left out. So are the bars of a note over many.
#[test]
fn long_notes_take_no_more_room_than_short_ones() {
    let bars = Bars::of("33/4".parse().unwrap());
    let tab = tab_of(
        &[note(Quarters::ZERO, Quarters::whole(33), 2, 7)],
        (&bars, Quarters::ZERO, TimesFrom::Writing),
        &[],
    );
    let shown = lines(&tab, 80);
    assert_eq!(shown[1], "      1  ~2   ..  ~33");
    let long = [note(Quarters::ZERO, Quarters::whole(400), 2, 7)];
    let tab = tab_of(&long, (&common(), Quarters::ZERO, TimesFrom::Writing), &[]);
    let shown = lines(&tab, 80);
    assert_eq!(shown[0], "    1               2-100");
    assert_eq!(shown[1], "      1  ~2  ~3  ~4  ~99 bars");
    assert_eq!(shown[3], "2 B |-7-------------|(7)------|");
}

/// Symbols that could not be read keep to their columns, whatever they hold.
#[test]
fn every_sign_of_a_symbol_has_one_column() {
    let (events, end) = notes("1 1.0 1.1 1.2 1.3");
    let tab = tab_of(
        &events,
        (&common(), end, TimesFrom::Writing),
        &[(0, "C音\u{1b}7"), (1, "Hx"), (3, "G")],
    );
    let shown = lines(&tab, 80);
    assert_eq!(shown[1].chars().filter(|sign| *sign == '?').count(), 2);
    assert!(shown[1].chars().all(|sign| fretloom::glyphs::is_plain(&sign.to_string())));
    let column = |text: &str, part: &str| text[..text.find(part).unwrap()].chars().count();
    assert_eq!(column(&shown[1], "Hx"), column(&shown[2], "2"));
    assert_eq!(column(&shown[1], "G"), column(&shown[2], "4"));
}

/// Nothing panics, and time and memory have a bound, for what nobody writes.
#[test]
fn absurd_music_is_shown_too() {
    let far = Quarters::new(u64::MAX, 3).unwrap();
    let bar = |from, length| Bar {
        from,
        length,
        meter: Meter::new(255, 128).unwrap(),
        missing: Quarters::ZERO,
        label: BarLabel::Text("a very long name of a bar\n".into()),
    };
    let odd = Bars::written([bar(Quarters::ZERO, quarters(1, 77)), bar(quarters(1, 77), far)]);
    let short = Bars::written([bar(Quarters::ZERO, quarters(1, 77))]);
    for bars in [common(), Bars::of(Meter::new(255, 128).unwrap()), odd.unwrap(), short.unwrap()] {
        for times in [TimesFrom::Writing, TimesFrom::Playing, TimesFrom::Seconds] {
            for end in [Quarters::ZERO, quarters(1, u32::MAX), Quarters::whole(u32::MAX), far] {
                for duration in [Quarters::ZERO, quarters(7, 640), Quarters::whole(u32::MAX)] {
                    let onsets = [Quarters::ZERO, quarters(5, 3), Quarters::whole(1_000_000), far];
                    let events = onsets.map(|onset| note(onset, duration, 2, 36));
                    let tab =
                        tab_of(&events, (&bars, end, times), &[(1, "G7"), (4_000_000_000, "C")]);
                    for width in [0, 1, 7, 80, 100_000] {
                        assert!(lines(&tab, width).len() < 100_000);
                    }
                }
            }
            assert!(lines(&tab_of(&[], (&bars, Quarters::ZERO, times), &[]), 80).len() < 20);
        }
    }
}
