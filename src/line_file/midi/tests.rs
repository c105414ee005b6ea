//! Files are put together by hand, byte by byte, after the Standard MIDI Files specification (from
//! memory; `tests/outside` compares with another writer).

use super::*;
use crate::line_file::{self, Choice};

fn file(format: u16, division: [u8; 2], tracks: &[&[u8]]) -> Vec<u8> {
    let count = u16::try_from(tracks.len()).unwrap().to_be_bytes();
    let mut bytes = [b"MThd\0\0\0\x06", &format.to_be_bytes()[..], &count, &division].concat();
    for track in tracks {
        bytes.extend(b"MTrk");
        let end = [0x00, 0xff, 0x2f, 0x00];
        bytes.extend(u32::try_from(track.len() + end.len()).unwrap().to_be_bytes());
        bytes.extend([track, &end[..]].concat());
    }
    bytes
}

/// Ticks in a quarter note in these files.
const TEN: [u8; 2] = [0, 10];

fn line(bytes: &[u8]) -> Line {
    line_file::read(bytes, &Choice::default()).unwrap()
}

fn refused(bytes: &[u8]) -> String {
    line_file::read(bytes, &Choice::default()).unwrap_err().to_string()
}

/// Onset and duration in milliseconds, and the pitch.
fn told(line: &Line) -> Vec<(i64, i64, u8)> {
    let ms = |seconds: f64| (seconds * 1000.0).round() as i64;
    line.notes()
        .iter()
        .map(|note| (ms(note.onset_s), ms(note.duration_s), note.pitch.midi()))
        .collect()
}

#[test]
fn running_status_and_velocity_zero_end_notes() {
    let track = [0, 0x90, 60, 90, 10, 60, 0, 10, 64, 90, 20, 64, 0];
    assert_eq!(told(&line(&file(0, TEN, &[&track]))), [(0, 500, 60), (1000, 1000, 64)]);
}

#[test]
fn of_overlapping_notes_of_one_pitch_the_first_ends_first() {
    let track = [0, 0x90, 60, 90, 10, 60, 90, 10, 0x80, 60, 0, 20, 60, 0];
    assert_eq!(told(&line(&file(0, TEN, &[&track]))), [(0, 1000, 60), (500, 1500, 60)]);
}

#[test]
fn a_note_without_an_end_ends_with_its_track() {
    let track = [0, 0x90, 60, 90, 20, 0xc0, 1];
    assert_eq!(told(&line(&file(0, TEN, &[&track]))), [(0, 1000, 60)]);
}

#[test]
fn the_tempo_of_another_track_counts() {
    // A quarter is a second from tick 10 on.
    let tempo = [10, 0xff, 0x51, 3, 0x0f, 0x42, 0x40];
    let notes = [5, 0x90, 60, 90, 10, 0x80, 60, 0];
    let line = line(&file(1, TEN, &[&tempo, &notes]));
    assert_eq!(told(&line), [(250, 750, 60)]);
    assert_eq!(line.notes()[0].stands.to_string(), "track 2, bar 1, beat 1.5");
    assert!(line.remarks().is_empty());
}

#[test]
fn frames_of_film_are_seconds_whatever_the_tempo() {
    let track = [0, 0xff, 0x51, 3, 1, 0, 0, 25, 0x90, 60, 90, 100, 60, 0];
    // 25 frames a second of 4 ticks.
    let line = line(&file(0, [0xe7, 4], &[&track]));
    assert_eq!(told(&line), [(250, 1000, 60)]);
    assert_eq!(line.notes()[0].stands.to_string(), "track 1, second 0.25");
    assert!(!line.has_written_bars());
}

#[test]
fn several_tracks_with_notes_are_told_and_one_may_be_chosen() {
    let (low, high) = ([0, 0x90, 40, 90], [0, 0x91, 80, 90]);
    let bytes = file(1, TEN, &[&[], &low, &high]);
    let first = line(&bytes);
    assert_eq!(first.notes()[0].pitch.midi(), 40);
    assert_eq!(first.remarks(), ["several tracks have notes; took track 2 (--track 2 or 3)"]);
    let third = Choice { track: Some(3), part: None };
    let third = line_file::read(&bytes, &third).unwrap();
    assert_eq!((third.notes()[0].pitch.midi(), third.remarks().len()), (80, 0));
    for number in [0, 1, 4] {
        let choice = Choice { track: Some(number), part: None };
        let said = line_file::read(&bytes, &choice).unwrap_err().to_string();
        assert_eq!(said, format!("track {number} has no notes; expected track 2 or 3"));
    }
}

#[test]
fn drums_are_left_out() {
    let track = [0, 0x99, 36, 90, 0, 0x90, 60, 90];
    let line = line(&file(0, TEN, &[&track]));
    assert_eq!(line.notes().len(), 1);
    assert_eq!(line.remarks(), ["left out the drums of track 1, channel 10"]);
    assert!(refused(&file(0, TEN, &[&[0, 0x99, 36, 90]])).contains("no track has notes"));
}

#[test]
fn other_pieces_and_what_follows_are_passed_over() {
    let mut bytes = file(0, TEN, &[&[0, 0x90, 60, 90]]);
    let mut with_piece = bytes[..14].to_vec();
    with_piece.extend(b"XFIH\0\0\0\x02ab");
    with_piece.extend(&bytes[14..]);
    bytes.extend(b"\0\0\0");
    assert_eq!(told(&line(&with_piece)), told(&line(&bytes)));
}

#[test]
fn what_is_broken_is_refused_with_its_place() {
    let good = file(0, TEN, &[&[0, 0x90, 60, 90]]);
    let mut lying = good.clone();
    lying[18..22].copy_from_slice(&[0xff; 4]);
    for (bytes, words) in [
        (good[..20].to_vec(), "byte 14: the file ends within a piece's head"),
        (good[..14].to_vec(), "byte 14: the file ends after 0 tracks; expected 1"),
        (good[..25].to_vec(), "byte 14: a piece of 8 bytes, and the file has 3 more"),
        (lying, "byte 14: a piece of 4294967295 bytes, and the file has 8 more"),
        (b"MThd\0\0\0\x02\0\0".to_vec(), "a header of 2 bytes; expected six bytes"),
        (file(2, TEN, &[&[]]), "format 2, whose tracks are pieces of their own"),
        (file(7, TEN, &[&[]]), "byte 8: format 7; expected format 0 or 1"),
        (file(0, [0, 0], &[&[]]), "byte 12: no ticks in a quarter note"),
        (file(0, [0xe7, 0], &[&[]]), "byte 12: no ticks in a frame"),
        (file(0, [0xff, 4], &[&[]]), "byte 12: 1 frames a second; expected 24, 25, 29 or 30"),
        (file(0, TEN, &[&[0, 60, 90]]), "byte 22, track 1: an event that cannot be read"),
        (file(0, TEN, &[&[0, 0xff, 1, 0x8f, 0xff, 0xff, 0x7f]]), "byte 22, track 1: an event"),
    ] {
        let said = refused(&bytes);
        assert!(said.contains(words) && said.contains("expected"), "{said}");
    }
}

#[test]
fn a_line_of_more_than_a_day_is_refused() {
    // Some 250 million ticks of half a second.
    let track = [0xff, 0xff, 0xff, 0x7f, 0x90, 60, 90];
    assert!(refused(&file(0, [0, 1], &[&track])).contains("a line of at most a day"));
}
