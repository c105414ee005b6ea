//! Events in order, and the time between them.

use midly::num::u28;
use midly::{MetaMessage, Track, TrackEvent, TrackEventKind};

/// What happens at a tick.
pub(super) struct Event<'a> {
    pub(super) tick: u64,
    pub(super) kind: TrackEventKind<'a>,
}

impl<'a> Event<'a> {
    pub(super) fn new(tick: u64, kind: TrackEventKind<'a>) -> Event<'a> {
        Event { tick, kind }
    }
}

/// A track of events, those at one tick in the order given, which lasts until `end`.
pub(super) fn track(mut events: Vec<Event<'_>>, end: u64) -> Track<'_> {
    events.sort_by_key(|event| event.tick);
    let last = events.last().map_or(0, |event| event.tick);
    let end_of_track = TrackEventKind::Meta(MetaMessage::EndOfTrack);
    events.push(Event::new(end.max(last), end_of_track));
    let mut track = Track::with_capacity(events.len());
    let mut now = 0;
    for Event { tick, kind } in events {
        wait(&mut track, tick - now, kind);
        now = tick;
    }
    track
}

/// Adds an event after a time. One that is longer than a file can say is waited for in steps, at
/// each of which stands an empty text.
fn wait<'a>(track: &mut Track<'a>, mut ticks: u64, kind: TrackEventKind<'a>) {
    loop {
        let step = u32::try_from(ticks).ok().and_then(u28::try_from);
        if let Some(delta) = step {
            track.push(TrackEvent { delta, kind });
            return;
        }
        let longest = u28::max_value();
        track.push(TrackEvent {
            delta: longest,
            kind: TrackEventKind::Meta(MetaMessage::Text(b"")),
        });
        ticks -= u64::from(longest.as_int());
    }
}
