//! When things are heard: found as the frames at which silence ends, and worked out by hand.

use std::sync::Arc;

use fretloom::sound::{
    Clock, CountIn, Frames, Heard, Mix, Performance, PlayStyle, Rounds, Struck, Track,
};
use fretloom_theory::{
    Bars, ChordSymbol, ClickBeats, Meter, Part, Pitch, Quarters, Score, Tempo, TempoMap, Timeline,
};

fn at(above: u64, below: u32) -> Quarters {
    Quarters::new(above, below).unwrap()
}

fn note(onset: Quarters, length: Quarters) -> Struck {
    let end = onset.checked_add(length).unwrap();
    Struck { onset, end, pitches: vec![Pitch::from_midi(64).unwrap()], accent: false }
}

/// Two bars of a meter at 60, so that a quarter lasts 48,000 frames.
fn two_bars(meter: &str) -> Score {
    let meter: Meter = meter.parse().unwrap();
    let end = meter.bar().times(2).unwrap();
    Score {
        bars: Bars::of(meter),
        tempi: TempoMap::steady(Tempo::new(60, 1).unwrap()),
        parts: vec![Part::new([]).lasting(end)],
        ..Score::default()
    }
}

/// The frames at which something begins after silence, of one track alone.
fn begins(performance: &Performance, track: Track, most: usize) -> Vec<u64> {
    let mix = Mix::full();
    Track::ALL.into_iter().filter(|other| *other != track).for_each(|other| mix.mute(other));
    let mut samples = vec![0.0; most];
    let made = performance.samples(&Arc::new(mix)).fill(&mut samples);
    samples.truncate(made);
    let mut found = Vec::new();
    let mut silent = 1_000;
    for (frame, sample) in (0..).zip(&samples) {
        if *sample != 0.0 && silent > 500 {
            found.push(frame);
        }
        silent = if *sample == 0.0 { silent + 1 } else { 0 };
    }
    found
}

/// A stroke is a sine, whose first sample is zero.
fn clicks(performance: &Performance, most: usize) -> Vec<u64> {
    begins(performance, Track::Click, most).into_iter().map(|frame| frame - 1).collect()
}

/// By hand, in thousands of frames: the count-in of one bar, then two bars.
#[test]
fn the_count_in_and_the_clicks_come_on_their_beats() {
    for (meter, count_in, every, two_and_four) in [
        ("4/4", "0 48 96 144", "192 240 288 336 384 432 480 528", "240 336 432 528"),
        ("3/4", "0 48 96", "144 192 240 288 336 384", "192 336"),
        ("6/8", "0 72", "144 216 288 360", "216 360"),
        ("5/4", "0 48 96 144 192", "240 288 336 384 432 480 528 576 624 672", "288 384 528 624"),
    ] {
        for (click, then) in [
            (ClickBeats::Off, ""),
            (ClickBeats::Every, every),
            (ClickBeats::TwoAndFour, two_and_four),
        ] {
            let style = PlayStyle { click, count_in: CountIn::OneBar, ..PlayStyle::default() };
            let performance = Performance::new(&two_bars(meter), &[], &style);
            let all = format!("{count_in} {then}");
            let expected: Vec<u64> =
                all.split_whitespace().map(|kilo| kilo.parse::<u64>().unwrap() * 1_000).collect();
            assert_eq!(clicks(&performance, 1_000_000), expected, "{meter} {click}");
        }
    }
}

/// A pick-up of one quarter in 4/4: four beats, then three before it.
#[test]
fn the_count_in_leads_into_a_pick_up() {
    let bars = Bars::with_pick_up(Meter::COMMON, Quarters::ONE).unwrap();
    let score = Score { bars, ..two_bars("4/4") };
    let style = PlayStyle { count_in: CountIn::OneBar, ..PlayStyle::default() };
    let performance = Performance::new(&score, &[note(at(0, 1), at(1, 1))], &style);
    let beats: Vec<u64> = (0..7).map(|beat| beat * 48_000).collect();
    assert_eq!(clicks(&performance, 1_000_000), beats);
    assert_eq!(begins(&performance, Track::Line, 1_000_000), [7 * 48_000]);
    let counted: Vec<Heard> =
        beats.iter().map(|frame| performance.clock().at(Frames(frame + 1))).collect();
    let expected = [1, 2, 3, 4, 1, 2, 3].map(|beat| Heard::CountIn { beat });
    assert_eq!(counted, expected);
}

/// By hand, at 60: the second eighth of each beat at 1:1, 3:2, 2:1 and 3:1; the one of a triplet stays.
#[test]
fn swung_eighths_are_struck_when_they_should_be() {
    let (eighth, third) = (at(1, 4), at(1, 3));
    let notes = [note(at(1, 2), eighth), note(at(3, 2), eighth), note(at(8, 3), third)];
    for (swing, expected) in [
        ("1:1", [24_000, 72_000, 128_000]),
        ("3:2", [28_800, 76_800, 128_000]),
        ("2:1", [32_000, 80_000, 128_000]),
        ("3:1", [36_000, 84_000, 128_000]),
    ] {
        let style = PlayStyle { swing: swing.parse().unwrap(), ..PlayStyle::default() };
        let performance = Performance::new(&two_bars("4/4"), &notes, &style);
        assert_eq!(begins(&performance, Track::Line, 400_000), expected, "{swing}");
        for (note, frame) in notes.iter().zip(expected) {
            let heard = performance.clock().at(Frames(frame));
            assert_eq!(heard, Heard::At { moment: note.onset, round: 0 }, "{swing}");
            assert_eq!(performance.clock().frames_at(note.onset), Frames(frame));
        }
    }
}

/// By hand: a quarter at 60 is 48,000 frames, at 90 32,000, at 150 19,200. What rings on at the end
/// takes 5,280 more.
#[test]
fn tempi_make_lengths_to_the_frame() {
    let tempo = |a_minute| Tempo::new(a_minute, 1).unwrap();
    let changes =
        Timeline::of([(at(0, 1), tempo(60)), (at(2, 1), tempo(90)), (at(5, 1), tempo(150))]);
    let score = Score { tempi: TempoMap::of(&changes), ..two_bars("4/4") };
    let notes = [0, 2, 5, 7].map(|onset| note(at(onset, 1), at(1, 2)));
    let performance = Performance::new(&score, &notes, &PlayStyle::default());
    assert_eq!(begins(&performance, Track::Line, 400_000), [0, 96_000, 192_000, 230_400]);
    assert_eq!(performance.frames(), Some(Frames(96_000 + 96_000 + 57_600 + 5_280)));
    let (end, over) = (Frames(249_599), Frames(249_600));
    assert!(matches!(performance.clock().at(end), Heard::At { .. }));
    assert_eq!(performance.clock().at(over), Heard::Over);
}

/// Two bars in rounds after a count-in: the round is 384,000 frames, and nothing is missing where it
/// goes on.
#[test]
fn rounds_follow_one_another_without_a_seam() {
    let score =
        Score { chords: Timeline::of([(at(0, 1), ChordSymbol::read("Dm7"))]), ..two_bars("4/4") };
    let notes = [note(at(0, 1), at(1, 2)), note(at(7, 1), at(1, 1))];
    let style = PlayStyle {
        click: ClickBeats::Every,
        count_in: CountIn::OneBar,
        rounds: Rounds::Endless,
        ..PlayStyle::default()
    };
    let performance = Performance::new(&score, &notes, &style);
    assert_eq!(performance.frames(), None);
    // The count-in comes once.
    let expected: Vec<u64> = (0..20).map(|beat| beat * 48_000).collect();
    assert_eq!(clicks(&performance, 20 * 48_000), expected);
    // The drone is held through the seam: no frame is nearer to silence than any before.
    let drone = Mix::full();
    drone.mute(Track::Line);
    drone.mute(Track::Click);
    let mut samples = vec![0.0; 20 * 48_000];
    performance.samples(&Arc::new(drone)).fill(&mut samples);
    let loud = |from: usize| samples[from..from + 4_800].iter().map(|s| s * s).sum::<f32>();
    let usual = loud(400_000);
    for from in (560_000..590_000).step_by(1_000) {
        assert!((0.5..2.0).contains(&(loud(from) / usual)), "{from}");
    }
    let clock = performance.clock();
    let heard = |frames| clock.at(Frames(frames));
    assert_eq!(heard(0), Heard::CountIn { beat: 1 });
    assert_eq!(heard(191_999), Heard::CountIn { beat: 4 });
    assert_eq!(heard(192_000), Heard::At { moment: at(0, 1), round: 0 });
    assert_eq!(heard(192_000 + 384_000), Heard::At { moment: at(0, 1), round: 1 });
    assert_eq!(heard(192_000 + 10 * 384_000 + 24_000), Heard::At { moment: at(1, 2), round: 10 });
    let bars = |clock: &Clock, heard| clock.next_bar(Frames(heard)).map(|frames| frames.0);
    assert_eq!(bars(&clock, 100), Some(192_000));
    assert_eq!(bars(&clock, 192_000), Some(384_000));
    assert_eq!(bars(&clock, 384_000), Some(576_000));
    assert_eq!(bars(&clock, 576_001), Some(768_000));
}

/// From the third beat on, without a count-in.
#[test]
fn what_is_begun_in_the_middle_is_told_by_its_own_clock() {
    let style = PlayStyle { count_in: CountIn::OneBar, ..PlayStyle::default() };
    let performance = Performance::new(&two_bars("4/4"), &[note(at(5, 1), at(1, 1))], &style);
    let (moment, clock) = (at(2, 1), performance.clock_from(at(2, 1)));
    assert_eq!(clock.at(Frames(0)), Heard::At { moment, round: 0 });
    assert_eq!(clock.frames_at(at(5, 1)), Frames(144_000));
    assert_eq!(clock.next_bar(Frames(0)), Some(Frames(96_000)));
    assert_eq!(clock.next_bar(Frames(100_000)), None);
    let mut samples = vec![0.0; 200_000];
    performance.samples_from(moment, &Arc::new(Mix::full())).fill(&mut samples);
    assert_eq!(samples.iter().position(|sample| *sample != 0.0), Some(144_000));
}

/// No score is too odd: nothing of this may panic, hang or take much memory.
#[test]
fn absurd_music_is_played_or_left_out() {
    let fast =
        Score { tempi: TempoMap::steady(Tempo::new(u64::MAX, 1).unwrap()), ..two_bars("255/128") };
    let slow =
        Score { tempi: TempoMap::steady(Tempo::new(1, u32::MAX).unwrap()), ..two_bars("1/1") };
    let style = PlayStyle {
        click: ClickBeats::Every,
        count_in: CountIn::OneBar,
        rounds: Rounds::Endless,
        swing: "3:1".parse().unwrap(),
        ..PlayStyle::default()
    };
    let crowd: Vec<Struck> = (0..100_000).map(|at_| note(at(at_ % 7, 2), at(1, 1))).collect();
    let huge = vec![note(at(u64::MAX, 1), at(0, 1)), note(at(0, 1), at(u64::MAX / 2, 1))];
    for score in [&Score::default(), &fast, &slow] {
        for notes in [&crowd, &huge, &Vec::new()] {
            let performance = Performance::new(score, notes, &style);
            let mut samples = vec![0.0; 4_800];
            performance.samples(&Arc::new(Mix::full())).fill(&mut samples);
            performance.samples_from(at(3, 1), &Arc::new(Mix::full())).fill(&mut samples);
            assert!(samples.iter().all(|sample| sample.abs() < 1.0));
            for frames in [0, 4_799, u64::MAX] {
                let _ = performance.clock().at(Frames(frames));
                let _ = performance.clock().next_bar(Frames(frames));
            }
        }
    }
}
