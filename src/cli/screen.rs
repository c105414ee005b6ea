//! The screen: opened as the arguments, the settings and the last session say.

use std::io::{self, IsTerminal};
use std::sync::Arc;

use super::args::Cli;
use super::call::is_ascii;
use super::complain::complain;
use super::opening::Opening;
use super::outcome::{Failure, Outcome};
use super::player::Player;
use super::resume::Resume;
use crate::settings::Settings;
use crate::sound::{SoundPlaces, SystemPlayer};
use crate::store::KeeperStore;
use crate::tui::program::Program;
use crate::tui::runtime;

/// Shows the screen until the player leaves it.
pub(super) fn open(cli: &Cli, mut player: Player) -> Result<Outcome, Failure> {
    if !io::stdout().is_terminal() || !io::stdin().is_terminal() {
        return Err(Failure::Input(
            "the screen needs a terminal, and this is none; these commands print text: pairs, \
             scales, triads, chord, shapes, ladder, neck, line, sheet, changes, explain, finger, tunings \
             (see fretloom --help)"
                .to_owned(),
        ));
    }
    let theme = player.theme(&cli.theme)?;
    let unfit = |expected| Failure::Input(format!("--pedal {}: expected {expected}", cli.pedal));
    let pedal = cli.pedal.free_in(&player.keys).map_err(unfit)?;
    player.tell_all_in_library();
    pedal.join(&mut player.keys);
    let opening = Opening::of(cli.chord.as_deref(), player.library.scales.kinds())?;
    let symbol = match &opening {
        Opening::Chord(symbol) => symbol.as_deref(),
        Opening::Tune(..) => None,
    };
    let spelling = cli.common.spelling.into();
    let mut program = Program::open(symbol, &cli.common.tuning, player.library, spelling)?;
    program.use_theme(theme);
    program.use_keys(player.keys);
    program.use_settings(&Settings { mouse: cli.mouse, ..player.settings });
    program.put_capo(cli.common.capo()?)?;
    let resume = Resume::new(player.folders.state.as_deref());
    if !cli.fresh {
        resume.take_up(cli, symbol, &mut program);
    }
    if let Opening::Tune(tune, file) = opening {
        let told = tune.problems.first().map(ToString::to_string);
        program.open_tune(*tune, file);
        if let Some(first) = told {
            program.tell(first);
        }
    }
    if is_ascii(cli) {
        program.use_ascii();
    }
    let mut kept = Ok(());
    if let Some(folder) = &player.folders.data {
        program.use_keepers(KeeperStore::in_folder(folder));
    }
    let places = SoundPlaces::from_environment();
    program.use_sound_places(places.clone());
    let player = Arc::new(SystemPlayer::new(places));
    let run = runtime::run(&mut program, player, |program| kept = resume.keep(program));
    // The terminal is the player's again.
    program.finish_keeping().iter().for_each(complain);
    if let Err(why) = kept {
        complain(&why);
    }
    run.map_err(|error| Failure::Input(error.to_string()))?;
    Ok(Outcome::Shown)
}
