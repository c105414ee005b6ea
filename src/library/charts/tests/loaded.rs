//! The charts of the library.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use fretloom_theory::OptionalChords;

use super::*;

/// How many bars are heard, the meter, and how many keys are gone through at least: by the dominants that
/// lead to majors or minors a fifth below.
#[test]
fn the_tunes_are_sound_and_of_different_kinds() {
    let charts = LoadedCharts::load(None);
    let mut seen = Vec::new();
    for known in charts.iter() {
        let opened = known.open(&[]).unwrap_or_else(|it| panic!("{}: {it:?}", known.id));
        assert_eq!((opened.read.problems.len(), opened.file), (0, None), "{}", known.id);
        let chart = opened.read.chart;
        assert!(chart.title.is_some() && chart.key.is_some() && chart.tempo.is_some());
        assert!(chart.feel.is_some() && chart.choices.is_empty());
        assert_eq!(chart.bars.unread().count(), 0);
        let heard = chart.chorus(OptionalChords::Played).heard.len();
        seen.push((heard, chart.bars.meter().to_string()));
        let text = text_of_chart(&chart);
        assert_eq!(read(&text).chart, chart, "{text}");
    }
    let expected =
        [(32, "4/4"), (24, "3/4"), (24, "4/4")].map(|(bars, meter)| (bars, meter.into()));
    assert_eq!(seen, expected);
}

#[test]
fn every_file_of_the_folder_is_embedded() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/charts");
    let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let ids: BTreeSet<String> =
        names.map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned()).collect();
    let charts = LoadedCharts::load(None);
    assert_eq!(charts.iter().map(|chart| chart.id.clone()).collect::<BTreeSet<_>>(), ids);
    for known in charts.iter() {
        let title = known.open(&[]).unwrap().read.chart.title.unwrap();
        let charts = LoadedCharts::load(Some(Path::new("none")));
        let place = charts.place_of(&title).unwrap();
        assert_eq!(place.file_stem().unwrap().to_str(), Some(&*known.id));
    }
}

/// What is settled on a built-in tune is saved in the player's folder, and found there the next time.
#[test]
fn a_players_chart_takes_the_place_of_a_built_in_one() {
    let folder = Folder::new("chart-folder");
    let charts = LoadedCharts::load(Some(&folder.0));
    let known = charts.by_id("Salt-on-the-windowsill").unwrap();
    let mut chart = known.open(&[]).unwrap().read.chart;
    chart.tempo = fretloom_theory::Tempo::nearest(99.0);
    let place = charts.place_of(chart.title.as_deref().unwrap()).unwrap();
    ChartFile::create(place.clone(), &chart).unwrap();
    fs::write(place.with_file_name("another.toml"), "[[section]]\nbars = \"| G7x | C |\"\n")
        .unwrap();
    let charts = LoadedCharts::load(Some(&folder.0));
    let opened = charts.by_id("salt-on-the-windowsill").unwrap().open(&[]).unwrap();
    assert_eq!((&opened.read.chart, opened.file.unwrap().path()), (&chart, &*place));
    assert_eq!(charts.iter().count(), 4);
    let problems = charts.problems(&[]);
    assert_eq!(problems.len(), 1);
    assert!(problems[0].to_string().contains("another.toml:2:13: found `G7x`"), "{problems:?}");
}
