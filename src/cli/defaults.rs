//! Settings become the defaults of the options: so an option wins over its setting, and `--help`
//! shows the player's own.

use clap::Command;

use crate::glyphs::is_harmful;
use crate::settings::Settings;

/// The command line as this player has settled it.
pub(super) fn settled(command: Command, settings: &Settings) -> Command {
    let usual = Settings::default();
    let changed: Vec<(&str, String)> = settings
        .values()
        .zip(usual.values())
        .filter(|(own, usual)| own != usual)
        .map(|((_, option, value), _)| (option, value))
        .collect();
    with_defaults(command, &changed)
}

/// The command and all under it, with these defaults wherever one has such an option.
fn with_defaults(mut command: Command, defaults: &[(&str, String)]) -> Command {
    for (option, value) in defaults {
        if command.get_arguments().any(|argument| argument.get_id() == option) {
            // Help shows defaults as they are. One that is harmful there is not shown.
            let is_hidden = value.contains(is_harmful);
            command = command.mut_arg(option, |argument| {
                argument.default_value(value.clone()).hide_default_value(is_hidden)
            });
        }
    }
    command.mut_subcommands(|under| with_defaults(under, defaults))
}

#[cfg(test)]
mod tests {
    use clap::{CommandFactory, Parser};

    use super::*;
    use crate::cli::args::Cli;
    use crate::library::LoadedTunings;
    use crate::settings::Known;

    #[test]
    fn every_setting_is_the_default_of_an_option() {
        let text = "theme = \"dark\"\nascii = \"never\"\nspelling = \"strict\"\n\
                    tuning = \"D A D G A D\"\nlabels = \"degree\"\nfamilies = \"all\"\n\
                    reach_mm = 97.5\nleft_handed = true\nupside_down = true\n\
                    mouse = false\nfresh = true\nfret_widths = \"true\"\npaper = \"letter\"\npedal = \"f12\"\n\
                    a4 = 442.5\nswing = \"2:1\"\ndrone = true\nclick = \"every-beat\"\n\
                    count_in = true\nline_level = 50\ndrone_level = 40\nclick_level = 30\n\
                    practice_minutes = 30\npractice_items = 4\npractice_keys = 2\n\
                    practice_new = 2\nlisten_questions = 8\nturn_minutes = 3\nrest_minutes = 20\n\
                    key_order = \"tones\"\nladder_start = 50\nladder_good = 2\n\
                    ladder_up = 4\nladder_back = 2\nladder_top = 180\nfirst_gap_days = 2\n\
                    gap_growth = 3\nlongest_gap_days = 90\n";
        let known = Known {
            tunings: &LoadedTunings::load(None),
            themes: &["dark"],
            pedal: &|key| Ok(key.to_owned()),
        };
        let (settings, problems) = Settings::read("s.toml", text, &known);
        assert_eq!(problems, []);
        let mut command = settled(Cli::command(), &settings);
        command.build();
        let under = command.get_subcommands().flat_map(Command::get_arguments);
        let arguments: Vec<_> = command.get_arguments().chain(under).collect();
        for (_, option, value) in settings.values() {
            let of_that_name = arguments.iter().filter(|argument| argument.get_id() == option);
            let defaults: Vec<_> =
                of_that_name.map(|argument| argument.get_default_values()).collect();
            assert!(!defaults.is_empty(), "{option}");
            for default in defaults {
                assert_eq!(default, [&*value], "{option}");
            }
        }
    }

    #[test]
    fn the_usual_settings_are_the_usual_defaults() {
        let usual = Cli::parse_from(["fretloom"]);
        let settings = Settings::default();
        assert_eq!((usual.theme, usual.common.ascii), (settings.theme, settings.ascii));
        assert_eq!(
            (usual.common.tuning, usual.pedal.to_string()),
            (settings.tuning, settings.pedal)
        );
        let usual = settled(Cli::command(), &Settings::default()).render_long_help().to_string();
        assert_eq!(usual, Cli::command().render_long_help().to_string());
    }
}
