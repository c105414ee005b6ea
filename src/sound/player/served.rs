//! A sound server, else a program that plays.

use super::super::samples::Samples;
use super::error::SoundError;
use super::places::SoundPlaces;
use super::program::{Beginning, Program, Stopped};
use super::server::Server;
use super::session::Session;
use super::voice::Voice;
use super::way::{Untaken, Way};

/// Plays by the first way that can be used; returns when all has been heard.
pub(super) fn play(
    samples: Box<dyn Samples>,
    session: &Session,
    places: &SoundPlaces,
) -> Result<(), SoundError> {
    let mut voice = Voice::new(samples);
    if session.is_to_stop() {
        return Ok(());
    }
    match Server::find(places).and_then(Server::open) {
        Ok(server) if session.play_by(server.way()) => server.play(&mut voice, session),
        Ok(_) => Ok(()),
        Err(untaken) => play_by_program(&mut voice, session, places, untaken),
    }
}

fn play_by_program(
    voice: &mut Voice,
    session: &Session,
    places: &SoundPlaces,
    server: Untaken,
) -> Result<(), SoundError> {
    let mut tried = vec![server];
    let mut beginning = Beginning::default();
    for program in Program::all(places) {
        let played = program.map_err(Stopped::Never);
        match played.and_then(|program| program.play(&mut beginning, voice, session)) {
            Ok(()) => return Ok(()),
            Err(Stopped::Never(untaken)) => note(&mut tried, untaken),
            Err(Stopped::Broken(error)) => return Err(error),
        }
    }
    Err(SoundError::NoWay(tried))
}

/// The first way that can be used, and why the others are not taken. Nothing is heard of it.
pub(super) fn look(places: &SoundPlaces) -> (Option<Way>, Vec<Untaken>) {
    let mut untaken = Vec::new();
    let mut program_in_use = None;
    let mut used = match Server::find(places).and_then(Server::open) {
        Ok(server) => Some(server.way()),
        Err(why) => {
            untaken.push(why);
            None
        }
    };
    for program in Program::all(places) {
        match program {
            Ok(program) if used.is_some() => {
                note(&mut untaken, Untaken::new(program.name(), "is not needed"));
            }
            Ok(program) => match program.check() {
                Ok(()) => {
                    used = Some(program.way());
                    program_in_use = Some(program.name());
                }
                Err(why) => note(&mut untaken, why),
            },
            Err(why) => note(&mut untaken, why),
        }
    }
    // The other way of starting the same program is no other way out.
    untaken.retain(|other| Some(other.what.as_str()) != program_in_use);
    (used, untaken)
}

/// A program that is started in two ways is told of once, by what was found out last.
fn note(untaken: &mut Vec<Untaken>, why: Untaken) {
    untaken.retain(|before| before.what != why.what);
    untaken.push(why);
}
