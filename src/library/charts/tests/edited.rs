//! A player's file with something settled in it, by hand.

use std::fs;

use fretloom_theory::{Chart, ChartBeat, ChartChoice};

use super::super::edited::edited_text;
use super::*;

const OWN: &str = "\
# Played slowly at first.
title = \"Two Doors\"   # a working title
mood = \"blue\"

[[section]]
# the first eight
bars = '''
| Dm7 | G7 |  # not a comment
'''

# what Ann said
[[choice]]
bar = 1
scale = \"D Dorian\" # always
colour = \"red\"

[[choice]]
bar = 7
scale = \"E Lydian\"
";

fn chart_of(text: &str) -> Chart {
    read(text).chart
}

fn choice(bar: u64, beat: &str, scale: &str) -> ChartChoice {
    let beat: ChartBeat = beat.parse().unwrap();
    ChartChoice { scale: scale.parse().ok(), ..ChartChoice::nothing(bar, beat) }
}

fn edited(change: impl FnOnce(&mut Chart)) -> String {
    let text = OWN.replace("  # not a comment", "");
    let mut chart = chart_of(&text);
    change(&mut chart);
    let edited = edited_text(&text, &chart, &[]);
    assert_eq!(chart_of(&edited), chart, "{edited}");
    edited
}

#[test]
fn what_is_settled_takes_its_place_and_leaves_the_rest() {
    let text = edited(|chart| chart.settle(choice(1, "1", "D Aeolian")));
    let expected = OWN.replace("  # not a comment", "").replace("D Dorian", "D Aeolian");
    assert_eq!(text, expected);
    let text = edited(|chart| chart.settle(choice(2, "2&", "G altered")));
    let added = "\n[[choice]]\nbar = 2\nbeat = \"2&\"\nscale = \"G altered\"\n";
    assert_eq!(text, OWN.replace("  # not a comment", "") + added);
    let text = edited(|chart| chart.choices.clear());
    assert!(!text.contains("Dorian") && text.contains("E Lydian"), "{text}");
    assert!(text.contains("mood = \"blue\"") && text.contains("# the first eight"), "{text}");
}

#[test]
fn head_and_bars_are_changed_where_they_stand() {
    let text = edited(|chart| {
        chart.title = Some("Three Doors".to_owned());
        chart.key = "F".parse().ok();
    });
    assert!(
        text.contains("title = \"Three Doors\"   # a working title\nmood = \"blue\"\n"),
        "{text}"
    );
    assert!(text.contains("key = \"F\"\n") && text.starts_with("# Played slowly"), "{text}");
    let text = edited(|chart| {
        let choices = chart.choices.clone();
        *chart = Chart { choices, title: chart.title.clone(), ..chart_of("| Dm7 | Db7 |") };
    });
    assert!(text.contains("# the first eight\nbars = \"| Dm7 | Db7 |\"\n"), "{text}");
    assert!(text.contains("scale = \"D Dorian\" # always"), "{text}");
}

/// Bars by themselves become TOML once there is more to say; their comments stay.
#[test]
fn typed_bars_become_toml() {
    let typed = "# slowly\n| Dm7 | G7 |\n";
    let mut chart = chart_of(typed);
    chart.settle(choice(2, "1", "G altered"));
    let text = edited_text(typed, &chart, &[]);
    assert!(text.contains("# slowly\n| Dm7 | G7 |\n"), "{text}");
    assert_eq!(chart_of(&text), chart);
}

#[test]
fn a_file_is_saved_while_nobody_else_has_written_it() {
    let folder = Folder::new("charts");
    let path = folder.0.join("deeper").join("own.toml");
    let mut chart = chart_of("| Dm7 | G7 |");
    let mut file = ChartFile::create(path.clone(), &chart).unwrap();
    let said = ChartFile::create(path.clone(), &chart).unwrap_err().to_string();
    assert!(said.ends_with("own.toml is there already; expected the name of a new file"), "{said}");
    chart.settle(choice(2, "1", "G altered"));
    file.save(&chart, &[]).unwrap();
    chart.settle(choice(1, "1", "D Aeolian"));
    file.save(&chart, &[]).unwrap();
    let there = fs::read_to_string(&path).unwrap();
    assert_eq!(chart_of(&there), chart);
    fs::write(&path, "| of somebody |").unwrap();
    let said = file.save(&chart, &[]).unwrap_err().to_string();
    assert!(said.contains("own.toml has been changed since it was read; expected"), "{said}");
    assert_eq!(fs::read_to_string(&path).unwrap(), "| of somebody |");
    ChartFile::replace(path.clone(), &chart).unwrap();
    assert_eq!(chart_of(&fs::read_to_string(&path).unwrap()), chart);
    fs::remove_file(&path).unwrap();
    let said = file.save(&chart, &[]).unwrap_err().to_string();
    assert!(said.starts_with("cannot write the chart "), "{said}");
}

#[test]
fn a_broken_file_is_left() {
    let folder = Folder::new("broken-chart");
    fs::create_dir_all(&folder.0).unwrap();
    let (path, text) = (folder.0.join("own.toml"), "tempo =\n[[section]]\nbars = \"| C |\"\n");
    fs::write(&path, text).unwrap();
    let mut file = ChartFile::read(path.clone(), text.to_owned());
    let said = file.save(&chart_of(text), &[]).unwrap_err().to_string();
    assert!(said.contains("holds lines that are no TOML; expected them mended"), "{said}");
    assert_eq!(fs::read_to_string(&path).unwrap(), text);
}
