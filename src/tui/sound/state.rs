//! What is played, and what becomes of it.

use std::sync::Arc;
use std::time::Duration;

use fretloom_theory::{ClickBeats, Quarters};

use super::heard::Clocks;
use super::manner::Manner;
use super::now::{Now, Sounding};
use super::piece::{Piece, What};
use super::ready::{FoundSound, Ready};
use crate::sound::{
    Frames, Heard, Level, Mix, Performance, PlayerState, Relay, SoundChoices, SoundError,
    SoundPlaces, Track, Way, Ways,
};
use crate::tui::event::SoundNews;
use crate::tui::found::Found;
use crate::tui::runtime::{Effect, Job};

/// What can be done where nothing can be heard.
pub(in crate::tui) const ELSEWHERE: &str = "fretloom line --wav FILE writes a line to a file";

/// What was silent before somebody began to practise.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) struct Unpractised {
    click: ClickBeats,
    /// The drone, the click.
    silent: [bool; 2],
}

/// How long after what is heard a change is heard: as long as the way to the ear usually is, so that
/// little of its beginning comes too late.
const LEAD: Duration = Duration::from_millis(200);

/// What is played, and how the player wants to hear it.
pub(in crate::tui) struct Sound {
    pub(super) manner: Manner,
    pub(super) mix: Arc<Mix>,
    /// What is to be named by ear is heard by this one: at the same levels, the drone never silent
    /// unless the player silences it meanwhile.
    ear: Arc<Mix>,
    now: Now,
    /// The way by which it was heard last, in words.
    way: Option<String>,
    /// Why nothing was heard last.
    failed: Option<SoundError>,
    /// Where the ways out are looked for; none where nobody looks for them.
    places: Option<SoundPlaces>,
    /// What was found there last.
    ways: Option<Ways>,
}

impl Sound {
    /// Nothing sounds, and the line alone will.
    pub(in crate::tui) fn new() -> Sound {
        let mix = Mix::default();
        mix.mute(Track::Drone);
        Sound {
            manner: Manner::usual(),
            mix: Arc::new(mix),
            ear: Arc::default(),
            now: Now::Silence,
            way: None,
            failed: None,
            places: None,
            ways: None,
        }
    }

    /// Plays a piece from its beginning.
    pub(in crate::tui) fn play(&mut self, piece: Piece) -> Effect<Found> {
        self.now = Now::Coming(piece.what);
        let (style, mix) = (self.manner.style(), self.mix_for(piece.what));
        Effect::Work(Job::new(move |_| {
            Found::Sound(FoundSound::Piece((piece.make)(&style).map(|performance| {
                let (samples, clock) = (performance.samples(&mix), performance.clock());
                Ready { samples, clock, takes_over: None }
            })))
        }))
    }

    /// By which mix something is heard.
    fn mix_for(&self, what: What) -> Arc<Mix> {
        match what {
            What::Line | What::Changes | What::Shapes | What::Practice => Arc::clone(&self.mix),
            What::Ear => {
                for track in Track::ALL {
                    self.ear.set_level(track, self.mix.level(track));
                }
                Arc::clone(&self.ear)
            }
        }
    }

    /// The mix of what is heard now, or would be.
    fn mix_now(&self) -> &Mix {
        if self.now.what() == Some(What::Ear) { &self.ear } else { &self.mix }
    }

    /// Goes on with a piece in place of the one that is heard, at the moment that is heard by then.
    /// Nothing is done where nothing of its kind is heard.
    pub(in crate::tui) fn go_on_with(&mut self, piece: Piece) -> Option<Effect<Found>> {
        if self.now.what() != Some(piece.what) {
            return None;
        }
        let Now::Sounding(sounding) = &self.now else { return Some(self.play(piece)) };
        let (at, moment) = sounding.next_change()?;
        let (style, mix) = (self.manner.style(), self.mix_for(piece.what));
        Some(Effect::Work(Job::new(move |_| {
            Found::Sound(FoundSound::Piece((piece.make)(&style).map(|performance| {
                let moment = if is_in(&performance, moment) { moment } else { Quarters::ZERO };
                let samples = performance.samples_from(moment, &mix);
                let clock = performance.clock_from(moment);
                Ready { samples, clock, takes_over: Some(at) }
            })))
        })))
    }

    /// Asks for the ways by which sound leaves this machine, unless something is being played: then
    /// the way is known.
    pub(in crate::tui) fn look_for_ways(&self) -> Option<Effect<Found>> {
        let places = self.places.clone().filter(|_| self.now.what().is_none())?;
        Some(Effect::Work(Job::new(move |_| Found::Sound(FoundSound::Ways(Ways::look(&places))))))
    }

    /// Takes what a job has found out.
    pub(in crate::tui) fn take(&mut self, found: FoundSound) -> Option<Effect<Found>> {
        match found {
            FoundSound::Piece(ready) => Some(self.begin(ready)),
            FoundSound::Ways(ways) => {
                self.ways = Some(ways);
                None
            }
        }
    }

    /// Takes a piece that is ready.
    fn begin(&mut self, ready: Option<Ready>) -> Effect<Found> {
        let Some(ready) = ready else {
            self.now = Now::Silence;
            return Effect::StopPlaying;
        };
        match (&mut self.now, ready.takes_over) {
            (Now::Sounding(sounding), Some(at)) => {
                sounding.baton.hand_over(ready.samples, at);
                sounding.clocks.take_over(at, ready.clock, sounding.position);
                Effect::KeepFrame
            }
            (Now::Coming(what), None) => {
                let (relay, baton) = Relay::new(ready.samples);
                let (what, clocks) = (*what, Clocks::of(ready.clock));
                self.now = Now::Sounding(Sounding { what, baton, clocks, position: Frames(0) });
                Effect::Play(Box::new(relay))
            }
            // It was stopped meanwhile.
            (Now::Silence | Now::Coming(_) | Now::Sounding(_), _) => Effect::KeepFrame,
        }
    }

    /// Ends what is heard, if anything.
    pub(in crate::tui) fn stop(&mut self) -> Option<Effect<Found>> {
        self.now.what()?;
        self.now = Now::Silence;
        Some(Effect::StopPlaying)
    }

    /// Hears how it is going; why it failed, if it has just done so.
    pub(in crate::tui) fn hear(&mut self, news: SoundNews) -> Option<SoundError> {
        self.way = news.way.or(self.way.take());
        let Now::Sounding(sounding) = &mut self.now else { return None };
        match news.state {
            // What sounded before may be fading still.
            PlayerState::Opening | PlayerState::Stopping => {}
            PlayerState::Playing => {
                sounding.position = news.position;
                self.failed = None;
            }
            PlayerState::Ended | PlayerState::Silent => self.now = Now::Silence,
            PlayerState::Failed(error) => {
                self.now = Now::Silence;
                self.failed = Some(error.clone());
                return Some(error);
            }
        }
        None
    }

    /// What is heard or will be, if anything.
    pub(in crate::tui) fn what(&self) -> Option<What> {
        self.now.what()
    }

    /// Which moment of the music is heard.
    pub(in crate::tui) fn moment(&self) -> Option<Quarters> {
        match self.now.heard()? {
            Heard::At { moment, .. } => Some(moment),
            Heard::CountIn { .. } | Heard::Over => None,
        }
    }

    /// What is heard in a few words: `counting in: 3`, `playing, round 2`.
    pub(in crate::tui) fn in_words(&self) -> Option<String> {
        let told = match (self.now.what()?, self.now.heard()) {
            (_, None) => "to be played".to_owned(),
            (_, Some(Heard::CountIn { beat })) => format!("counting in: {beat}"),
            (What::Line | What::Changes, Some(Heard::At { round: round @ 1.., .. })) => {
                format!("playing, round {}", round.saturating_add(1))
            }
            (_, Some(Heard::At { .. } | Heard::Over)) => "playing".to_owned(),
        };
        Some(told)
    }

    /// How it is heard, in words, or why it is not; and why not otherwise.
    pub(super) fn way_in_words(&self) -> Vec<String> {
        let found = self.ways.as_ref().and_then(|ways| ways.in_use.as_ref()).map(Way::to_string);
        let first = match (&self.failed, self.way.as_ref().or(found.as_ref())) {
            (Some(SoundError::NoWay(_)), _) => {
                format!("There is no way to hear it here; {ELSEWHERE}.")
            }
            (Some(failed), _) => format!("Not heard: {failed}."),
            (None, Some(way)) => format!("Heard through {way}."),
            (None, None) if self.ways.is_some() => {
                format!("There is no way to hear it here; {ELSEWHERE}.")
            }
            (None, None) => "How it is heard is known once something was played.".to_owned(),
        };
        let untaken = self.ways.iter().flat_map(|ways| &ways.untaken);
        let others = untaken.map(|untaken| format!("Not through {untaken}."));
        std::iter::once(first).chain(others).collect()
    }

    /// Looks for the ways out there.
    pub(in crate::tui) fn use_places(&mut self, places: SoundPlaces) {
        self.places = Some(places);
    }

    /// Begins as the player has settled it.
    pub(in crate::tui) fn use_settings(&mut self, settled: &SoundChoices) {
        let SoundChoices { concert_pitch, swing, click, count_in, .. } = *settled;
        self.manner = Manner { concert_pitch, swing, click, count_in, ..self.manner };
        self.mix = Arc::new(settled.mix());
    }

    /// Silences a track, or lets it sound again. A click that strikes no beat strikes some then.
    pub(in crate::tui) fn change_mute(&mut self, track: Track) {
        let strikes_nothing = track == Track::Click && self.manner.click == ClickBeats::Off;
        if strikes_nothing {
            self.manner.click = ClickBeats::TwoAndFour;
        }
        let mix = self.mix_now();
        if strikes_nothing || mix.is_muted(track) {
            mix.unmute(track);
        } else {
            mix.mute(track);
        }
    }

    /// Sets how loud a track is, also of what is heard now.
    pub(super) fn set_level(&self, track: Track, level: Level) {
        self.mix.set_level(track, level);
        self.ear.set_level(track, level);
    }

    /// Lets the drone and a click sound, for who practises to them.
    pub(in crate::tui) fn for_practice(&mut self) -> Unpractised {
        let before = Unpractised {
            click: self.manner.click,
            silent: [Track::Drone, Track::Click].map(|track| self.mix.is_muted(track)),
        };
        if self.manner.click == ClickBeats::Off {
            self.manner.click = ClickBeats::TwoAndFour;
        }
        self.mix.unmute(Track::Drone);
        self.mix.unmute(Track::Click);
        before
    }

    /// As it was before; a click that the player has chosen meanwhile stays.
    pub(in crate::tui) fn after_practice(&mut self, before: Unpractised) {
        if before.click == ClickBeats::Off && self.manner.click == ClickBeats::TwoAndFour {
            self.manner.click = ClickBeats::Off;
        }
        for (track, was_silent) in [Track::Drone, Track::Click].into_iter().zip(before.silent) {
            if was_silent {
                self.mix.mute(track);
            }
        }
    }

    /// Is a track silent, whatever its level?
    pub(in crate::tui) fn is_silent(&self, track: Track) -> bool {
        self.mix_now().is_muted(track)
    }

    /// How the player wants to hear music.
    pub(in crate::tui) fn manner(&self) -> Manner {
        self.manner
    }
}

impl Sounding {
    /// The frame at which a change can be heard next, and the moment of the music that is heard then;
    /// none where the music is over.
    fn next_change(&self) -> Option<(Frames, Quarters)> {
        let soon = Frames(self.position.0.saturating_add(Frames::in_time(LEAD).0));
        match self.clocks.at(soon) {
            Heard::At { moment, .. } => Some((soon, moment)),
            // What is counted in goes on; the music begins anew.
            Heard::CountIn { .. } => Some((self.clocks.next_bar(soon)?, Quarters::ZERO)),
            Heard::Over => None,
        }
    }
}

/// Does a moment come in the first round of this?
fn is_in(performance: &Performance, moment: Quarters) -> bool {
    let heard = performance.clock_from(moment).at(Frames(0));
    matches!(heard, Heard::At { round: 0, .. })
}
