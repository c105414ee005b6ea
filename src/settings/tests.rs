//! Settings, right and wrong.

use fretloom_theory::Spelling;

use super::rows::ROWS;
use super::{Known, SAMPLE, Settings};
use crate::library::LoadedTunings;

fn read(content: &str) -> (Settings, Vec<String>) {
    let known = Known {
        tunings: &LoadedTunings::load(None),
        themes: &["terminal", "dark", "light", "high-contrast", "monochrome"],
        pedal: &pedal,
    };
    let (settings, problems) = Settings::read("s.toml", content, &known);
    (settings, problems.iter().map(ToString::to_string).collect())
}

fn pedal(text: &str) -> Result<String, String> {
    let is_known = ["none", "f12"].contains(&text);
    if is_known { Ok(text.to_owned()) } else { Err("the key f12".to_owned()) }
}

#[test]
fn the_sample_is_the_defaults_and_has_every_setting() {
    assert_eq!(read(SAMPLE), (Settings::default(), Vec::new()));
    assert_eq!(read(""), (Settings::default(), Vec::new()));
    for (name, ..) in Settings::default().values() {
        let lines = SAMPLE.lines().filter(|line| line.starts_with(&format!("{name} = ")));
        assert_eq!(lines.count(), 1, "{name}");
    }
    let settings = SAMPLE.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    assert_eq!(settings.count(), ROWS.len() + 1);
}

#[test]
fn every_setting_can_be_changed_and_prints_as_its_option_takes_it() {
    let changed = [
        ("theme", "\"dark\"", "dark"),
        ("ascii", "\"always\"", "always"),
        ("spelling", "\"strict\"", "strict"),
        ("tuning", "\"D A D G A D\"", "D A D G A D"),
        ("labels", "\"member\"", "member"),
        ("families", "\"tertian,sus\"", "tertian,sus"),
        ("reach_mm", "97.5", "97.5"),
        ("left_handed", "true", "true"),
        ("upside_down", "true", "true"),
        ("mouse", "false", "false"),
        ("fresh", "true", "true"),
        ("fret_widths", "\"true\"", "true"),
        ("paper", "\"letter\"", "letter"),
        ("pedal", "\"f12\"", "f12"),
        ("a4", "442.5", "442.5"),
        ("swing", "\"1.5:1\"", "3:2"),
        ("drone", "true", "true"),
        ("click", "\"2-and-4\"", "2-and-4"),
        ("count_in", "true", "true"),
        ("line_level", "55", "55"),
        ("drone_level", "0", "0"),
        ("click_level", "100", "100"),
        ("practice_minutes", "240", "240"),
        ("practice_items", "1", "1"),
        ("practice_keys", "12", "12"),
        ("practice_new", "0", "0"),
        ("listen_questions", "40", "40"),
        ("turn_minutes", "30", "30"),
        ("rest_minutes", "5", "5"),
        ("key_order", "\"shuffled:7\"", "shuffled:7"),
        ("ladder_start", "400", "400"),
        ("ladder_good", "1", "1"),
        ("ladder_up", "40", "40"),
        ("ladder_back", "1", "1"),
        ("ladder_top", "20", "20"),
        ("first_gap_days", "30", "30"),
        ("gap_growth", "1", "1"),
        ("longest_gap_days", "240", "240"),
    ];
    assert_eq!(
        changed.map(|(name, ..)| name).to_vec(),
        ROWS.iter().map(|row| row.name).collect::<Vec<_>>()
    );
    for (name, written, printed) in changed {
        let (settings, problems) = read(&format!("{name} = {written}"));
        assert_eq!(problems, [""; 0]);
        for ((one, _, value), (_, _, usual)) in settings.values().zip(Settings::default().values())
        {
            assert_eq!(value, if one == name { printed.to_owned() } else { usual });
        }
    }
}

#[test]
fn a_newer_file_is_left_alone_and_an_unreadable_version_is_not() {
    let (settings, problems) = read("theme = \"dark\"\nformat = 2\nmoon = 3\n");
    assert_eq!(settings, Settings::default());
    let expected = "s.toml:2:10: found `2`, expected format 1; a newer file is left alone, and none \
                    of it is used";
    assert_eq!(problems, [expected]);
    let (settings, problems) = read("theme = \"dark\"\nformat = \"new\"\n");
    assert_eq!(settings.theme, "dark");
    assert_eq!(problems, ["s.toml:2:10: found `\"new\"`, expected a version, as in 1"]);
}

#[test]
fn a_wrong_entry_costs_itself_only() {
    let (settings, problems) = read(
        "them = \"dark\"\n\
         theme = \"drak\"\n\
         ascii = true\n\
         spelling = \"strict\"\n\
         tuning = \"guitar-dadgat\"\n\
         labels = \"degrees\"\n\
         families = \"sus\"\n\
         reach_mm = 20\n\
         left_handed = \"yes\"\n\
         fret_widths = true\n\
         pedal = \"f13\"\n\
         upside_down true\n",
    );
    assert_eq!(settings, Settings { spelling: Spelling::Strict, ..Settings::default() });
    let expected = [
        "1:1: found `them`, expected `theme`, perhaps; this key is not used",
        "2:9: found `\"drak\"`, expected \"terminal\", \"dark\", \"light\", \"high-contrast\" or \
         \"monochrome\"; did you mean \"dark\"?",
        "3:9: found `true`, expected \"auto\", \"always\" or \"never\"",
        "5:10: found `\"guitar-dadgat\"`, expected a tuning of `fretloom tunings`, or its strings, as \
         in \"D A D G A D\"; did you mean \"guitar-dadgad\"?",
        "6:10: found `\"degrees\"`, expected \"note\", \"degree\", \"member\", \"finger\" or \
         \"order\"; did you mean \
         \"degree\"?",
        "7:12: found `\"sus\"`, expected \"tertian\", \"tertian,sus\", \"tertian,flat-five\" or \
         \"all\"",
        "8:12: found `20`, expected millimetres from 40 to 200, as in 110",
        "9:15: found `\"yes\"`, expected true or false",
        "10:15: found `true`, expected \"even\" or \"true\"",
        "11:9: found `\"f13\"`, expected the key f12",
        "12:1: found `upside_down true`, expected TOML (key with no value, expected `=`)",
    ];
    assert_eq!(problems, expected.map(|problem| format!("s.toml:{problem}")));
}
