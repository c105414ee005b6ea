//! Which channel a note sounds on.

/// Channels on which pitches sound. A note that begins while its pitch still sounds goes to the next
/// one, since a file ends a pitch of a channel and not a note.
pub(super) struct Lanes {
    /// When each pitch of each channel ends.
    free_from: Vec<[u64; 128]>,
}

/// How many channels hold pitches: those below the drums' one.
const CHANNELS: usize = 9;

impl Lanes {
    pub(super) fn new() -> Lanes {
        Lanes { free_from: Vec::new() }
    }

    /// The channel for a note; of more than nine notes of one pitch at once the others go where the
    /// first is. Notes come in order of time.
    pub(super) fn channel(&mut self, key: u8, from: u64, to: u64) -> u8 {
        let key = usize::from(key);
        let is_free = |ends: &[u64; 128]| ends.get(key).is_none_or(|end| *end <= from);
        let free = self.free_from.iter().position(is_free);
        let channel = free.unwrap_or_else(|| self.next_channel());
        if let Some(end) = self.free_from.get_mut(channel).and_then(|ends| ends.get_mut(key)) {
            *end = to.max(*end);
        }
        u8::try_from(channel).unwrap_or_default()
    }

    fn next_channel(&mut self) -> usize {
        if self.free_from.len() < CHANNELS {
            self.free_from.push([0; 128]);
            return self.free_from.len() - 1;
        }
        0
    }
}
