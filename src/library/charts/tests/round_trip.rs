//! What is written is read again as the same chart, and so is what is changed in a file.

use fretloom_theory::{
    BarSection, BarText, Chart, ChartBeat, ChartChoice, Key, Meter, NoteName, PickUp, Quarters,
    Scale, ScaleKind, SpelledTriad, Tempo, Triad, TriadPair, TriadQuality,
};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{Index, select};

use super::super::edited::edited_text;
use super::*;

fn words() -> impl Strategy<Value = Option<String>> {
    let text = "[a-zA-Z\"'\\\\\u{7}é♭# =\\[\\]]{1,20}";
    option::of(
        text.prop_map(|text| text.trim().to_owned()).prop_filter("blank", |it| !it.is_empty()),
    )
}

fn note() -> impl Strategy<Value = NoteName> {
    let names = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B", "Cb", "G#"];
    select(names.to_vec()).prop_map(|name| name.parse().unwrap())
}

fn key() -> impl Strategy<Value = Key> {
    (note(), any::<bool>()).prop_map(|(tonic, minor)| match minor {
        true => Key::minor(tonic),
        false => Key::major(tonic),
    })
}

/// Sections with names and without, bars of every kind, one of them unread.
fn bars() -> impl Strategy<Value = BarText> {
    let bar = select(vec![
        "C",
        "Dm7 G7",
        "(A7b9)",
        "N.C.",
        "G7sus4 / / G7",
        "%",
        "F#m7b5/E",
        "Hm \"x\\\"",
        "3/4 Eb6 | 4/4 F",
        "|: C | D :|3",
        "|: C |1. D :|2. E",
        "\n# a comment\nAbmaj7#11",
    ]);
    let section =
        (option::of(select(vec!["A", "B", "the bridge", "[C]"])), prop::collection::vec(bar, 1..6));
    let sections = prop::collection::vec(section, 1..4);
    let meter = select(vec!["4/4", "3/4", "6/8"]);
    let pick_up = option::of(select(vec![(1, 1), (1, 2), (3, 4)]));
    (sections, meter, pick_up).prop_map(|(sections, meter, pick_up)| {
        let texts: Vec<(Option<&str>, String)> = sections
            .iter()
            .map(|(name, bars)| (*name, format!("| Gm7 | {} |", bars.join(" | "))))
            .collect();
        let named = |name: &Option<&'static str>| name.filter(|name| *name != "[C]");
        let texts: Vec<(Option<&str>, String)> = sections
            .iter()
            .zip(texts)
            .map(|((name, _), (_, text))| match named(name) {
                // A name may also stand in the text.
                None if name.is_some() => (None, format!("[C] {}", text.trim_start_matches("| "))),
                name => (name, text),
            })
            .collect();
        let parts: Vec<BarSection<'_>> =
            texts.iter().map(|(name, text)| BarSection { name: *name, text }).collect();
        let pick_up = pick_up.and_then(|(above, below)| PickUp::new(above, below));
        let meter: Meter = meter.parse().unwrap();
        BarText::read_marking(&parts, meter, pick_up)
            .unwrap_or_else(|it| panic!("{texts:?}: {it}"))
            .0
    })
}

fn pair() -> impl Strategy<Value = [SpelledTriad; 2]> {
    let pairs: Vec<(Triad, Triad)> = Triad::every(TriadQuality::ALL)
        .filter(|one| one.root().number() < 3)
        .flat_map(|one| Triad::every(TriadQuality::ALL).map(move |other| (one, other)))
        .filter(|(one, other)| TriadPair::in_order(*one, *other).is_some())
        .collect();
    select(pairs).prop_map(|(one, other)| {
        [one, other].map(|triad| {
            let root = NoteName::everyday(triad.root()).next().unwrap();
            SpelledTriad::stacked(root, triad.quality())
        })
    })
}

fn scale() -> impl Strategy<Value = Scale> {
    (note(), select(ScaleKind::all().to_vec())).prop_map(|(root, kind)| Scale::new(root, kind))
}

/// Where among the chords of the chorus, how much later, and what.
type Settled = (Index, u32, Option<Scale>, Option<[SpelledTriad; 2]>);

fn settled() -> impl Strategy<Value = Settled> {
    (any::<Index>(), 0..5_u32, option::of(scale()), option::of(pair()))
}

fn chart() -> impl Strategy<Value = Chart> {
    let head = (words(), option::of(key()), option::of(10.0..500.0), words());
    let choices = prop::collection::vec(settled(), 0..6);
    (head, bars(), choices).prop_map(|((title, key, tempo, feel), bars, choices)| {
        let tempo = tempo.and_then(|tempo: f64| Tempo::nearest((tempo * 10.0).round() / 10.0));
        let mut chart = Chart { title, key, tempo, feel, ..Chart::of(bars) };
        choices.into_iter().for_each(|settled| settle(&mut chart, settled));
        chart
    })
}

fn settle(chart: &mut Chart, (index, thirds, scale, pair): Settled) {
    let chorus = chart.chorus(OptionalChords::Played);
    let bar = chorus.bars.bar(index.index(chorus.heard.len()) as u64).unwrap();
    let after = bar.missing.checked_add(Quarters::new(u64::from(thirds), 3).unwrap()).unwrap();
    let beat = ChartBeat::at(after, bar.meter).unwrap();
    let fretloom_theory::BarLabel::Number(bar) = bar.label else { panic!("{bar:?}") };
    let choice = ChartChoice { bar, beat, scale, pair };
    if Chart::moment_of(&chorus, &choice).is_some() {
        chart.settle(choice);
    }
}

fn read_again(text: &str) -> Chart {
    ReadChart::of_text("own", text, &[]).unwrap_or_else(|it| panic!("{text}: {it:?}")).chart
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn what_is_written_is_read_again(chart in chart()) {
        let text = text_of_chart(&chart);
        prop_assert_eq!(&read_again(&text), &chart, "{}", text);
    }

    #[test]
    fn what_is_changed_in_a_file_is_read_again(was in chart(), chart in chart(), choice in settled()) {
        let commented = format!("# the player's own words\n{}# and the last\n", text_of_chart(&was));
        let mut touched = was.clone();
        settle(&mut touched, choice);
        for wanted in [&was, &touched, &chart] {
            let text = edited_text(&commented, wanted, &[]);
            prop_assert_eq!(&read_again(&text), wanted, "{}", text);
        }
        prop_assert_eq!(edited_text(&commented, &was, &[]), commented.clone());
        let text = edited_text(&commented, &touched, &[]);
        prop_assert!(text.starts_with("# the player's own words\n"), "{}", text);
        prop_assert!(text.contains("# and the last\n"), "{}", text);
    }
}
