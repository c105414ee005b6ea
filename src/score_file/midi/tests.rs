//! Files are put together by hand, byte by byte, after the Standard MIDI Files specification (from
//! memory; `tests/outside` compares with another writer).

use super::*;
use crate::score_file::{self, Choice, ReadNote};

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

fn read_score(bytes: &[u8]) -> ReadScore {
    score_file::read(bytes, &Choice::default()).unwrap()
}

fn refused(bytes: &[u8]) -> String {
    score_file::read(bytes, &Choice::default()).unwrap_err().to_string()
}

/// Onset and duration in milliseconds, and the pitch.
fn told(read: &ReadScore) -> Vec<(i64, i64, u8)> {
    let ms = |seconds: f64| (seconds * 1000.0).round() as i64;
    let told = |note: ReadNote<'_>| {
        (ms(note.time.onset_s()), ms(note.time.duration_s()), note.sounding().midi())
    };
    read.notes().map(told).collect()
}

#[test]
fn running_status_and_velocity_zero_end_notes() {
    let track = [0, 0x90, 60, 90, 10, 60, 0, 10, 64, 90, 20, 64, 0];
    assert_eq!(told(&read_score(&file(0, TEN, &[&track]))), [(0, 500, 60), (1000, 1000, 64)]);
}

#[test]
fn of_overlapping_notes_of_one_pitch_the_first_ends_first() {
    let track = [0, 0x90, 60, 90, 10, 60, 90, 10, 0x80, 60, 0, 20, 60, 0];
    assert_eq!(told(&read_score(&file(0, TEN, &[&track]))), [(0, 1000, 60), (500, 1500, 60)]);
}

#[test]
fn a_note_without_an_end_ends_with_its_track() {
    let track = [0, 0x90, 60, 90, 20, 0xc0, 1];
    assert_eq!(told(&read_score(&file(0, TEN, &[&track]))), [(0, 1000, 60)]);
}

#[test]
fn the_tempo_of_another_track_counts() {
    // A quarter is a second from tick 10 on.
    let tempo = [10, 0xff, 0x51, 3, 0x0f, 0x42, 0x40];
    let notes = [5, 0x90, 60, 90, 10, 0x80, 60, 0];
    let read = read_score(&file(1, TEN, &[&tempo, &notes]));
    assert_eq!(told(&read), [(250, 750, 60)]);
    assert_eq!(read.note(0).unwrap().source.origin.to_string(), "track 2, bar 1, beat 1.5");
    assert!(read.remarks().is_empty());
}

#[test]
fn frames_of_film_are_seconds_whatever_the_tempo() {
    let track = [0, 0xff, 0x51, 3, 1, 0, 0, 25, 0x90, 60, 90, 100, 60, 0];
    // 25 frames a second of 4 ticks.
    let read = read_score(&file(0, [0xe7, 4], &[&track]));
    assert_eq!(told(&read), [(250, 1000, 60)]);
    assert_eq!(read.note(0).unwrap().source.origin.to_string(), "track 1, second 0.25");
    assert!(!read.has_written_bars());
}

#[test]
fn several_tracks_with_notes_are_told_and_one_may_be_chosen() {
    let low = b"\x00\xff\x03\x04Bass\x00\x90\x28\x5a\x00\x2b\x5a";
    let high = [0, 0x91, 80, 90];
    let bytes = file(1, TEN, &[&[], low, &high]);
    let first = read_score(&bytes);
    assert_eq!(first.note(0).unwrap().sounding().midi(), 40);
    let all = "2 Bass, 2 notes, E2 to G2; 3, one note, Ab5";
    let took = format!("several tracks have notes; took track 2 (--track chooses: {all})");
    assert_eq!(first.remarks(), [took]);
    let chosen = |track: &str| Choice { track: Some(track.to_owned()), ..Choice::default() };
    assert_eq!(score_file::read(&bytes, &chosen("bass")).unwrap().notes().len(), 2);
    let third = score_file::read(&bytes, &chosen("3")).unwrap();
    assert_eq!((third.note(0).unwrap().sounding().midi(), third.remarks().len()), (80, 0));
    for track in ["0", "1", "4", "drums", ""] {
        let said = score_file::read(&bytes, &chosen(track)).unwrap_err().to_string();
        let expected = format!("with notes; expected the number or the name of one: {all}");
        assert_eq!(said, format!("there is no track {track} {expected}"));
    }
}

/// The first of three tracks breaks off within a note, and the file within the last.
#[test]
fn what_is_damaged_is_left_out_beside_what_is_not() {
    let broken = [0, 0x90, 50, 90, 0, 60];
    let tempo = [0, 0xff, 0x51, 3, 0x0f, 0x42, 0x40];
    let whole = [10, 0x90, 60, 90];
    let mut bytes = file(1, TEN, &[&[&tempo[..], &broken].concat(), &whole, &whole]);
    bytes.truncate(bytes.len() - 3);
    let read = read_score(&bytes);
    assert_eq!(told(&read), [(1000, 0, 60)]);
    assert_eq!(
        read.remarks(),
        [
            "left out track 1: byte 36, track 1: an event that cannot be read; expected a whole \
         MIDI event",
            "left out the end of the file: byte 55: a piece of 8 bytes, and the file has 5 more; expected a \
         length that the file holds",
        ]
    );
    let first = Choice { track: Some("1".to_owned()), ..Choice::default() };
    let said = score_file::read(&bytes, &first).unwrap_err().to_string();
    assert!(said.starts_with("byte 36, track 1: an event that cannot be read"), "{said}");
}

#[test]
fn drums_are_left_out() {
    let track = [0, 0x99, 36, 90, 0, 0x90, 60, 90];
    let read = read_score(&file(0, TEN, &[&track]));
    assert_eq!(read.notes().len(), 1);
    assert_eq!(read.remarks(), ["left out the drums of track 1, channel 10"]);
    assert!(refused(&file(0, TEN, &[&[0, 0x99, 36, 90]])).contains("no track has notes"));
}

#[test]
fn other_pieces_and_what_follows_are_passed_over() {
    let mut bytes = file(0, TEN, &[&[0, 0x90, 60, 90]]);
    let mut with_piece = bytes[..14].to_vec();
    with_piece.extend(b"XFIH\0\0\0\x02ab");
    with_piece.extend(&bytes[14..]);
    bytes.extend(b"\0\0\0");
    assert_eq!(told(&read_score(&with_piece)), told(&read_score(&bytes)));
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

/// A note by its bytes: so many ticks after the last event, for so many ticks.
fn sounding(after: u8, key: u8, ticks: u8) -> [u8; 8] {
    [after, 0x90, key, 90, ticks, 0x80, key, 0]
}

/// By hand, twelve ticks a quarter: 3/4 at 100, after two bars 6/8 at 60 in C minor. Triplets are
/// four ticks, and the last note ends a quarter before the track does.
#[test]
fn ticks_are_exact_fractions_of_a_quarter() {
    let waltz = [0, 0xff, 0x58, 4, 3, 2, 24, 8];
    let hundred = [0, 0xff, 0x51, 3, 0x09, 0x27, 0xc0]; // 600,000 microseconds
    let six_eight = [72, 0xff, 0x58, 4, 6, 3, 24, 8];
    let c_minor = [0, 0xff, 0x59, 2, 0xfd, 1];
    let sixty = [0, 0xff, 0x51, 3, 0x0f, 0x42, 0x40];
    let tune = b"\x00\xff\x03\x04Tune";
    let conductor = [&tune[..], &waltz, &hundred, &six_eight, &c_minor, &sixty].concat();
    let guitar = b"\x00\xff\x03\x06Guitar";
    let notes = [sounding(0, 61, 4), sounding(4, 63, 16), sounding(62, 66, 6)].concat();
    let notes = [&guitar[..], &notes, &[12, 0xff, 1, 0]].concat();
    let read = read_score(&file(1, [0, 12], &[&conductor, &notes]));
    let (score, part) = (read.score(), &read.score().parts[0]);
    let told = part.notes().iter();
    let told = told.map(|note| format!("{} {} {:#}", note.onset(), note.duration(), note.pitch()));
    let expected = ["0 1/3 Db4", "2/3 4/3 Eb4", "43/6 1/2 F#4"];
    assert_eq!(told.collect::<Vec<_>>(), expected);
    let at = score.bars.at(part.notes()[2].onset()).unwrap();
    assert_eq!((at.index, at.beat, at.bar.meter.to_string().as_str()), (2, 1, "6/8"));
    let tempi: Vec<String> =
        score.tempi.changes().map(|(from, tempo)| format!("{from}: {tempo}")).collect();
    assert_eq!(tempi, ["0: 100", "6: 60"]);
    let key = score.keys.at(part.notes()[2].onset()).unwrap().key();
    assert_eq!((key.to_string().as_str(), score.keys.changes().len()), ("C minor", 1));
    assert_eq!((score.title.as_deref(), part.name()), (Some("Tune"), Some("Guitar")));
    let last = part.rests().pop().unwrap();
    assert_eq!((last.from.to_string().as_str(), last.to.to_string().as_str()), ("23/3", "26/3"));
}

#[test]
fn frames_of_film_are_counted_at_120_and_keep_their_seconds() {
    let track = [25, 0x90, 60, 90, 100, 60, 0];
    let read = read_score(&file(0, [0xe7, 4], &[&track]));
    let note = &read.score().parts[0].notes()[0];
    // A quarter of a second is half a quarter, a second two.
    assert_eq!((note.onset().to_string(), note.duration().to_string()), ("1/2".into(), "2".into()));
    assert_eq!(note.recorded().map(|time| (time.onset_s(), time.duration_s())), Some((0.25, 1.0)));
}
