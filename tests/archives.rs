//! Compressed scores and scores in UTF-16: what programs write is read like the plain score, and
//! what was made to harm is refused with a sentence.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "support/archive.rs"]
mod zip;

use fretloom::score_file::{self, Choice, ReadScore, ScoreFileError};
use proptest::prelude::*;
use zip::{Entry, archive, bomb, compressed, container};

/// Two notes, C4 and D♯4.
const SCORE: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?><score-partwise><part id=\"P1\">\
     <measure><attributes><divisions>1</divisions></attributes><note><pitch><step>C</step><octave>4\
     </octave></pitch><duration>1</duration></note><note><pitch><step>D</step><alter>1</alter>\
     <octave>4</octave></pitch><duration>2</duration></note></measure></part></score-partwise>";

fn read(bytes: &[u8]) -> Result<ReadScore, ScoreFileError> {
    score_file::read(bytes, &Choice::default())
}

fn refused(bytes: &[u8]) -> String {
    read(bytes).unwrap_err().to_string()
}

fn is_the_score(read: &ReadScore) -> bool {
    let sounding: Vec<u8> = read.notes().map(|note| note.sounding().midi()).collect();
    sounding == [60, 63]
}

fn utf16(text: &str, mark: &[u8], unit: fn(u16) -> [u8; 2]) -> Vec<u8> {
    mark.iter().copied().chain(text.encode_utf16().flat_map(unit)).collect()
}

#[test]
fn a_compressed_score_is_the_score() {
    let plain = read(SCORE.as_bytes()).unwrap();
    assert!(is_the_score(&plain));
    assert_eq!(read(&compressed(SCORE.as_bytes())).unwrap(), plain);
    let stored = [container("score.xml"), Entry::stored("score.xml", SCORE.as_bytes())];
    assert_eq!(read(&archive(&stored)).unwrap(), plain);
    // Programs put a kind, pictures and the score where they like.
    let score = Entry::deflated("music/a b♭.musicxml", SCORE.as_bytes());
    let mixed = [
        Entry::stored("mimetype", b"application/vnd.recordare.musicxml"),
        score,
        Entry::deflated("picture.png", &[7; 1000]),
        container("music/a b♭.musicxml"),
    ];
    let commented = [archive(&mixed), b"what a program adds".to_vec()].concat();
    assert_eq!(read(&commented).unwrap(), plain);
    let part = Choice { part: Some("2".to_owned()), ..Choice::default() };
    let said = score_file::read(&compressed(SCORE.as_bytes()), &part).unwrap_err().to_string();
    assert!(
        said.contains("there is no part 2; expected the number or the name of one: 1, 2 notes, C4"),
        "{said}"
    );
}

/// Written by Python's `zipfile`, whose sizes follow the packed bytes, as to a pipe.
#[test]
fn what_another_writer_made_is_read() {
    for bytes in [
        &include_bytes!("fuzz/corpus/mxl/zipfile.mxl")[..],
        include_bytes!("fuzz/corpus/mxl/streamed.mxl"),
        include_bytes!("fuzz/corpus/mxl/utf16.mxl"),
    ] {
        assert!(is_the_score(&read(bytes).unwrap()));
    }
}

#[test]
fn utf_16_is_read_in_both_orders_also_when_it_is_compressed() {
    let said = SCORE.replace("UTF-8", "UTF-16");
    for bytes in [
        utf16(&said, b"\xff\xfe", u16::to_le_bytes),
        utf16(&said, b"\xfe\xff", u16::to_be_bytes),
        utf16(&said, b"", u16::to_be_bytes),
    ] {
        assert!(is_the_score(&read(&bytes).unwrap()));
        assert!(is_the_score(&read(&compressed(&bytes)).unwrap()));
    }
    let json = "{\"notes\":[{\"onset_s\":0,\"duration_s\":1,\"midi\":60}]}";
    assert!(read(&utf16(json, b"\xff\xfe", u16::to_le_bytes)).is_ok());
}

/// The first root file that is a score is the score, whatever stands before it.
#[test]
fn a_container_may_name_other_files_too() {
    let container = "<?xml version=\"1.0\"?><!DOCTYPE container><c:container><rootfiles>\
         <rootfile full-path=\"a.pdf\" media-type=\"application/pdf\"/>\
         <rootfile full-path=\"s.xml\" media-type=\"application/vnd.recordare.musicxml+xml\"/>\
         <rootfile full-path=\"other.xml\"/></rootfiles></c:container>";
    let container = Entry::deflated("META-INF/container.xml", container.as_bytes());
    let score = Entry::deflated("s.xml", SCORE.as_bytes());
    assert!(is_the_score(&read(&archive(&[container, score])).unwrap()));
}

#[test]
fn each_lie_is_told() {
    let score = || Entry::deflated("score.xml", SCORE.as_bytes());
    let with = |entry: Entry| archive(&[container("score.xml"), entry]);
    let long = Entry { unpacked: score().unpacked + 1, ..score() };
    let short = Entry { unpacked: 1, ..score() };
    let torn = Entry { packed: score().packed[..40].to_vec(), ..score() };
    let inner = compressed(SCORE.as_bytes());
    let huge = vec![b' '; 64 * 1024 + 1];
    for (bytes, words) in [
        (with(Entry { crc: 1, ..score() }), "score.xml in it is damaged; expected what its length"),
        (with(long), "score.xml in it is damaged"),
        (with(short), "score.xml in it is damaged"),
        (with(torn), "score.xml in it is damaged"),
        (with(bomb(200 << 20)), "score.xml in it is 209715043 bytes long; expected 33554432 at"),
        (with(Entry { unpacked: 1 << 20, ..bomb(200 << 20) }), "score.xml in it is damaged"),
        (with(Entry { flags: 1, ..score() }), "what is in it is encrypted; expected a score that"),
        (with(Entry { method: 14, ..score() }), "packed by method 14; expected method 8"),
        (with(Entry::stored("score.xml", &inner)), "score.xml in it is an archive again"),
        (
            archive(&[score()]),
            "a ZIP archive without META-INF/container.xml; expected a compressed",
        ),
        (archive(&[container("score.xml")]), "names score.xml as the score, and the archive does"),
        (
            archive(&[container("../score.xml"), Entry::stored("../score.xml", b"<a/>")]),
            "in its META-INF/container.xml: line 1, column 23: found \"../score.xml\"; expected the",
        ),
        (archive(&[container("/etc/passwd")]), "found \"/etc/passwd\"; expected the full-path of"),
        (archive(&[container("a\\..\\..\\b")]), "; expected the full-path of"),
        (archive(&[container("")]), "found \"\"; expected the full-path of a score within"),
        (
            archive(&[Entry::deflated("META-INF/container.xml", b"<container/>")]),
            "in its META-INF/container.xml: it names no score; expected a rootfile",
        ),
        (archive(&[Entry::stored("META-INF/container.xml", &huge)]), "65537 bytes long"),
        (
            with(Entry::stored("score.xml", b"<score-partwise><part>")),
            "in its score.xml: line 1, column 23: the file ends within 2 open elements",
        ),
        (with(Entry::stored("score.xml", b"MThd")), "in its score.xml: it holds no element"),
    ] {
        let said = refused(&bytes);
        assert!(said.contains(words) && said.contains("; expected "), "{said}\n{words}");
    }
}

/// Cut anywhere, an archive has lost the list at its end.
#[test]
fn whatever_is_cut_is_refused() {
    let whole = compressed(SCORE.as_bytes());
    for length in 4..whole.len() {
        assert!(refused(&whole[..length]).contains("expected"), "{length} bytes");
    }
}

/// Sixty thousand files are looked through for two.
#[test]
fn of_many_files_the_score_is_found() {
    let many = (0..60_000).map(|number| Entry::stored(&format!("{number}"), b""));
    let score = Entry::deflated("score.xml", SCORE.as_bytes());
    let all: Vec<Entry> = many.chain([score, container("score.xml")]).collect();
    assert!(is_the_score(&read(&archive(&all)).unwrap()));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// A few bytes changed anywhere: the same score, or a sentence; never another score, since its
    /// checksum would have to fit.
    #[test]
    fn what_is_changed_is_refused_or_the_same(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
    ) {
        let mut bytes = compressed(SCORE.as_bytes());
        for (at, byte) in changes {
            let length = bytes.len();
            bytes[at.index(length)] = byte;
        }
        match read(&bytes) {
            Ok(read) => prop_assert!(is_the_score(&read)),
            Err(error) => prop_assert!(error.to_string().contains("expected")),
        }
    }

    /// A thousand bytes of anything between a beginning and a list that points into them.
    #[test]
    fn anything_is_refused_with_a_sentence(
        bytes in prop::collection::vec(any::<u8>(), 0..1_000),
        (length, from) in (0..2_000u32, 0..2_000u32),
    ) {
        let end = [&b"PK\x05\x06\0\0\0\0\xff\xff\xff\xff"[..], &length.to_le_bytes(),
                   &from.to_le_bytes(), &[0, 0]].concat();
        let file = [&b"PK\x03\x04"[..], &bytes, &end].concat();
        prop_assert!(refused(&file).contains("expected"));
    }
}
