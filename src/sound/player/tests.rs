//! Players whose clock stands still until a test moves it.

use std::io::{self, Cursor, Seek, SeekFrom, Write};
use std::time::Duration;

use super::super::{
    Frames, Player, PlayerState, Samples, SilentPlayer, SoundError, WavPlayer, samples::to_16_bits,
};

/// The numbers of a sawtooth, so that every sample tells which it is: 0, 1/1000, 2/1000 …
struct Saw {
    next: usize,
    end: usize,
}

impl Saw {
    fn of(end: usize) -> Box<Saw> {
        Box::new(Saw { next: 0, end })
    }

    fn endless() -> Box<Saw> {
        Saw::of(usize::MAX)
    }

    fn at(frame: usize) -> f32 {
        (frame % 1_000) as f32 / 1_000.0
    }
}

impl Samples for Saw {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        let given = block.len().min(self.end - self.next);
        for sample in &mut block[..given] {
            *sample = Saw::at(self.next);
            self.next += 1;
        }
        given
    }
}

const fn ms(number: u64) -> Duration {
    Duration::from_millis(number)
}

#[test]
fn nothing_sounds_before_it_is_asked_for() {
    let player = SilentPlayer::new();
    player.advance(ms(1_000));
    player.stop();
    player.silence();
    assert_eq!((player.state(), player.position()), (PlayerState::Silent, Frames(0)));
}

#[test]
fn the_position_is_the_time_that_has_passed() {
    let player = SilentPlayer::new();
    player.start(Saw::endless());
    // A third of a frame each: none may be lost.
    for _ in 0..144_000 {
        player.advance(Duration::from_nanos(6_944));
    }
    // 144,000 × 6,944 ns are 0.999936 s.
    assert_eq!(player.position(), Frames(47_996));
    player.advance(ms(10));
    assert_eq!(player.position(), Frames(48_476));
}

#[test]
fn what_has_ended_stays_where_it_ended() {
    let player = SilentPlayer::new();
    player.start(Saw::of(1_000));
    player.advance(ms(20));
    assert_eq!(player.state(), PlayerState::Playing);
    player.advance(ms(5_000));
    assert_eq!((player.state(), player.position()), (PlayerState::Ended, Frames(1_000)));
    player.stop();
    assert_eq!(player.state(), PlayerState::Ended, "there is nothing to stop");
}

#[test]
fn a_stop_takes_as_long_as_its_fade() {
    let player = SilentPlayer::new();
    player.start(Saw::endless());
    player.advance(ms(100));
    player.stop();
    player.advance(ms(11));
    assert_eq!(player.state(), PlayerState::Stopping);
    player.advance(ms(1));
    assert_eq!((player.state(), player.position()), (PlayerState::Silent, Frames(5_376)));
}

#[test]
fn a_second_start_waits_for_the_fade_of_the_first() {
    let player = SilentPlayer::new();
    player.start(Saw::endless());
    player.advance(ms(100));
    player.start(Saw::of(4_800));
    assert_eq!(player.position(), Frames(0), "of what was started last nothing is heard");
    player.advance(ms(12 + 50));
    assert_eq!((player.state(), player.position()), (PlayerState::Playing, Frames(2_400)));
    player.advance(ms(51));
    assert_eq!(player.state(), PlayerState::Ended);
}

#[test]
fn a_stop_also_stops_what_waits() {
    let player = SilentPlayer::new();
    player.start(Saw::endless());
    player.advance(ms(1));
    player.start(Saw::endless());
    player.silence();
    assert_eq!(player.state(), PlayerState::Silent);
}

/// The samples of a WAV file of 16 bits with the usual head of 44 bytes, read by hand.
fn samples_of(file: &[u8]) -> Vec<i16> {
    let number = |at: usize| u32::from_le_bytes(file[at..at + 4].try_into().unwrap());
    assert_eq!((&file[..4], &file[8..16]), (&b"RIFF"[..], &b"WAVEfmt "[..]));
    assert_eq!(number(4) as usize, file.len() - 8);
    // One channel, 48,000 frames of 2 bytes a second, 16 bits.
    assert_eq!(&file[20..24], [1, 0, 1, 0]);
    assert_eq!((number(24), number(28)), (48_000, 96_000));
    assert_eq!(&file[32..36], [2, 0, 16, 0]);
    assert_eq!((&file[36..40], number(40) as usize), (&b"data"[..], file.len() - 44));
    file[44..].chunks(2).map(|two| i16::from_le_bytes([two[0], two[1]])).collect()
}

#[test]
fn a_wav_file_holds_what_was_played_and_its_fade() {
    let mut file = Cursor::new(Vec::new());
    let player = WavPlayer::new(&mut file).unwrap();
    player.advance(ms(50));
    player.start(Saw::endless());
    player.advance(ms(100));
    player.silence();
    player.advance(ms(100));
    assert_eq!(player.state(), PlayerState::Silent);
    player.finish().unwrap();
    let samples = samples_of(&file.into_inner());
    assert_eq!(samples.len(), 4_800 + 576);
    for (frame, sample) in samples[..4_800].iter().enumerate() {
        assert_eq!(*sample, to_16_bits(Saw::at(frame)), "{frame}");
    }
    assert_eq!(samples.last(), Some(&0));
}

/// A disk with room for so many bytes.
struct Full(Cursor<Vec<u8>>, usize);

impl Write for Full {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.0.position() as usize + bytes.len() > self.1 {
            return Err(io::ErrorKind::StorageFull.into());
        }
        self.0.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Seek for Full {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.0.seek(to)
    }
}

#[test]
fn a_full_disk_ends_the_playing_with_a_word() {
    let player = WavPlayer::new(Full(Cursor::new(Vec::new()), 1_000)).unwrap();
    player.start(Saw::endless());
    player.advance(ms(100));
    let full = SoundError::Writing("the disk is full".to_owned());
    assert_eq!(full.to_string(), "cannot write the sound: the disk is full");
    assert_eq!(player.state(), PlayerState::Failed(full.clone()));
    player.stop();
    assert_eq!(player.state(), PlayerState::Failed(full), "a stop does not hide it");
    assert!(WavPlayer::new(Full(Cursor::new(Vec::new()), 10)).is_err());
}
