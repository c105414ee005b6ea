//! Scores that were made to take all memory and time, read and fingered by the program itself with
//! little of both: 512 MiB of addresses and a minute of the processor. None is to take a tenth of
//! that minute; the limit only ends what has none.
//!
//! `FRETLOOM_BOUNDS=whole cargo test --release --test score_bounds` makes them as long as a file may
//! be (200,000 notes, 16 MiB) and gives 1 GiB and ten minutes; see `tests/fuzz/README.md`.

#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;
#[path = "support/archive.rs"]
mod zip;

use std::fmt::Write;
use std::fs;
use std::process::Command;

use program::{Home, Said};
use zip::{Entry, archive, bomb, compressed, container};

/// How much a run has and how long the scores are.
struct Bounds {
    memory_kib: usize,
    processor_s: usize,
    notes: usize,
    bytes: usize,
}

impl Bounds {
    fn of_this_run() -> Bounds {
        if std::env::var_os("FRETLOOM_BOUNDS").is_some_and(|wish| wish == "whole") {
            let (notes, bytes) = (200_000, 16 * 1024 * 1024 - 1024);
            return Bounds { memory_kib: 1024 * 1024, processor_s: 600, notes, bytes };
        }
        Bounds { memory_kib: 512 * 1024, processor_s: 60, notes: 2_000, bytes: 256 * 1024 }
    }

    /// What `finger` says of a file of these bytes, within the bounds.
    fn finger(&self, bytes: &[u8], more: &[&str]) -> Said {
        let home = Home::new();
        let file = home.put("score", "");
        fs::write(&file, bytes).unwrap();
        let mut limited = Command::new("sh");
        let script = "ulimit -v \"$1\" && ulimit -t \"$2\" && shift 2 && exec \"$@\"";
        limited.args(["-c", script, "sh"]);
        limited.args([self.memory_kib.to_string(), self.processor_s.to_string()]);
        limited.arg(env!("CARGO_BIN_EXE_fretloom")).arg("finger").arg(&file).args(more);
        limited.env_clear().env("XDG_CONFIG_HOME", home.folder()).env("LANG", "C.UTF-8");
        Said::by(limited.env("PATH", "/usr/bin:/bin"))
    }

    fn is_fingered(&self, what: &str, bytes: &[u8], more: &[&str]) {
        let said = self.finger(bytes, more);
        assert_eq!(said.status, Some(0), "{what}: {}", said.err);
    }

    /// Fingered, or refused with a sentence; nothing that a limit of the system ended.
    fn is_answered(&self, what: &str, bytes: &[u8]) {
        let said = self.finger(bytes, &[]);
        assert!(matches!(said.status, Some(0 | 1)), "{what}: {:?} {}", said.status, said.err);
        assert!(said.status == Some(0) || said.err.starts_with("fretloom: "), "{what}");
        assert!(said.err.len() < 20_000, "{what}: {} bytes of errors", said.err.len());
    }
}

/// Numbers from 0 up to `below` without an order, the same every time.
fn scattered(below: u32) -> impl Iterator<Item = u32> {
    let mut seed = 88_172_645_463_325_252_u64;
    std::iter::from_fn(move || {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        u32::try_from(seed % u64::from(below)).ok()
    })
}

/// Our JSON, with `together` notes at each time.
fn json(notes: usize, together: usize, midi: impl Iterator<Item = u32>) -> Vec<u8> {
    let mut text = String::from("{\"notes\":[");
    for (index, midi) in (0..notes).zip(midi) {
        let comma = if index == 0 { "" } else { "," };
        let onset_s = (index / together) as f64 * 0.25;
        write!(text, "{comma}{{\"onset_s\":{onset_s},\"duration_s\":0.2,\"midi\":{midi}}}")
            .unwrap();
    }
    text.push_str("]}");
    text.into_bytes()
}

const UNISON: &str = "E3 E3 E3 E3 E3 E3 E3 E3 E3 E3 E3 E3";

#[test]
fn lines_without_end_are_fingered() {
    let bounds = Bounds::of_this_run();
    let notes = bounds.notes;
    let guitar = || scattered(41).map(|up| 42 + up);
    bounds.is_fingered("a line", &json(notes, 1, guitar()), &[]);
    bounds.is_fingered("the most ways of a line", &json(notes, 1, guitar()), &["--ways", "20"]);
    bounds.is_fingered("chords of six", &json(notes, 6, guitar()), &[]);
    bounds.is_fingered("all at one time", &json(notes, notes, guitar()), &[]);
    bounds.is_fingered("one pitch at one time", &json(notes, notes, [64].into_iter().cycle()), &[]);
    let twelve = || scattered(25).map(|up| 52 + up);
    let tuned = ["--tuning", UNISON];
    bounds.is_fingered("a line on unison strings", &json(notes, 1, twelve()), &tuned);
    bounds.is_fingered("chords on unison strings", &json(notes / 4, 12, twelve()), &tuned);
}

/// As players found them: each took gigabytes.
#[test]
fn seventy_notes_at_once_and_two_strings_of_one_pitch() {
    let bounds = Bounds::of_this_run();
    bounds.is_fingered("70 at once", &json(70, 70, [64].into_iter().cycle()), &[]);
    let arpeggio = [40, 52, 64, 57, 45].into_iter().cycle();
    let tuned = ["--tuning", "E2 E2 E3 E3 E4 E4"];
    bounds.is_fingered("two strings of each pitch", &json(200, 1, arpeggio), &tuned);
}

#[test]
fn json_without_end_is_answered() {
    let bounds = Bounds::of_this_run();
    let fill = |unit: &str| unit.repeat(bounds.bytes / unit.len());
    bounds.is_answered("deep", fill("[").as_bytes());
    bounds.is_answered("deep notes", format!("{{\"notes\":{}", fill("[{\"notes\":")).as_bytes());
    bounds.is_answered("a long key", format!("{{\"{}\":1}}", fill("k")).as_bytes());
    bounds.is_answered("a long number", format!("{{\"notes\":{}}}", fill("9")).as_bytes());
    bounds.is_answered("empty notes", format!("{{\"notes\":[{}{{}}]}}", fill("{},")).as_bytes());
    bounds.is_answered("many keys", format!("{{{}\"a\":1}}", fill("\"a\":1,")).as_bytes());
}

/// A MIDI file of one track with these events.
fn midi(events: &[u8]) -> Vec<u8> {
    let track = [events, &[0, 0xff, 0x2f, 0]].concat();
    let mut file = b"MThd\0\0\0\x06\0\0\0\x01\0\x60MTrk".to_vec();
    file.extend(u32::try_from(track.len()).unwrap().to_be_bytes());
    file.extend(track);
    file
}

#[test]
fn midi_without_end_is_answered() {
    let bounds = Bounds::of_this_run();
    let fill = |unit: &[u8]| midi(&unit.repeat(bounds.bytes / unit.len()));
    bounds.is_answered("notes that never end", &fill(&[0, 0x90, 64, 100]));
    bounds.is_answered("notes that end at once", &fill(&[0, 0x90, 64, 100, 1, 0x80, 64, 0]));
    bounds.is_answered("tempi", &fill(&[1, 0xff, 0x51, 3, 7, 0xa1, 0x20]));
    bounds.is_answered("meters", &fill(&[1, 0xff, 0x58, 4, 4, 2, 24, 8]));
    bounds.is_answered("names", &fill(&[0, 0xff, 0x03, 4, b'n', b'a', b'm', b'e']));
    let note = [0x90, 64, 100, 1, 0x80, 64, 0];
    let far = [&[0xff, 0xff, 0xff, 0x7f][..], &note].concat();
    bounds.is_answered("far apart", &fill(&far));
    let empty = [&b"MTrk\0\0\0\x04\0\xff\x2f\0"[..]].concat();
    let mut tracks = b"MThd\0\0\0\x06\0\x01\xff\xff\0\x60".to_vec();
    tracks.extend(empty.repeat(65_535.min(bounds.bytes / 12)));
    bounds.is_answered("tracks", &tracks);
}

/// A score of one part with this in its only measure.
fn music_xml(attributes: &str, measure: &str) -> Vec<u8> {
    let head = "<score-partwise><part-list><score-part id=\"P1\"/></part-list><part id=\"P1\">";
    let divisions = "<attributes><divisions>4</divisions></attributes>";
    format!("{head}<measure{attributes}>{divisions}{measure}</measure></part></score-partwise>")
        .into_bytes()
}

#[test]
fn music_xml_without_end_is_answered() {
    let bounds = Bounds::of_this_run();
    let fill = |unit: &str| unit.repeat(bounds.bytes / unit.len());
    let note = "<note><pitch><step>E</step><octave>4</octave></pitch><duration>1</duration>";
    bounds.is_answered("notes", &music_xml("", &fill(&format!("{note}</note>"))));
    bounds.is_answered("a chord", &music_xml("", &fill(&format!("<chord/>{note}</note>"))));
    let tied = format!("{note}<tie type=\"start\"/><tie type=\"stop\"/></note>");
    bounds.is_answered("ties", &music_xml("", &fill(&tied)));
    let grace = "<note><grace/><pitch><step>E</step><octave>4</octave></pitch></note>";
    bounds.is_answered("grace notes", &music_xml("", &fill(grace)));
    let voice = (0..bounds.bytes / 120).fold(String::new(), |mut text, number| {
        write!(text, "{note}<voice>{number}</voice><staff>{number}</staff></note>").unwrap();
        text
    });
    bounds.is_answered("voices and staves", &music_xml("", &voice));
    bounds
        .is_answered("tempi", &music_xml("", &fill("<direction><sound tempo=\"1\"/></direction>")));
    let harmony = "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>";
    bounds.is_answered("chord symbols", &music_xml("", &fill(harmony)));
    bounds.is_answered(
        "steps back",
        &music_xml("", &fill("<backup><duration>0</duration></backup>")),
    );
    bounds.is_answered("deep", &music_xml("", &fill("<a>")));
    bounds.is_answered("a long text", &music_xml("", &format!("<a>{}</a>", fill("x"))));
    bounds.is_answered("entities", &music_xml("", &fill("<a>&amp;</a>")));
    let attributes = (0..bounds.bytes / 12).fold(String::new(), |mut text, number| {
        write!(text, " a{number}=\"\"").unwrap();
        text
    });
    bounds.is_answered("attributes", &music_xml(&attributes, ""));
    let measures = fill("</measure><measure>");
    bounds.is_answered("measures", &music_xml("", &measures));
    let all: Vec<String> = (1..=255).map(|pass| pass.to_string()).collect();
    for (what, passes) in [("endings", "1"), ("endings for every time", &all.join(","))] {
        let ending = format!("<barline><ending number=\"{passes}\" type=\"start\"/></barline>");
        let repeat = "<barline><repeat/></barline><sound dalsegno=\"s\" segno=\"s\"/>";
        let endings = format!("{ending}{note}</note>{repeat}</measure><measure>").repeat(9_000);
        bounds.is_answered(what, &music_xml("", &endings));
    }
}

/// A gibibyte of zeros in six million bytes, told and hidden; the longest score there may be; files
/// without end; archives in one another.
#[test]
fn archives_without_end_are_answered() {
    let bounds = Bounds::of_this_run();
    let with = |score: Entry| archive(&[container("score.xml"), score]);
    bounds.is_answered("a bomb", &with(bomb(1 << 30)));
    for told in [0, 1 << 20, 32 << 20] {
        bounds.is_answered("a hidden bomb", &with(Entry { unpacked: told, ..bomb(1 << 30) }));
    }
    bounds.is_answered("zeros", &with(bomb(32 << 20)));
    let note = "<note><pitch><step>E</step><octave>4</octave></pitch><duration>1</duration></note>";
    let notes = note.repeat(((32 << 20) - 1000) / note.len());
    bounds.is_answered("notes", &compressed(&music_xml("", &notes)));
    bounds.is_answered("deep", &compressed("<a>".repeat(10 << 20).as_bytes()));
    let many = (0..60_000).map(|number| Entry::stored(&format!("{number}"), b"x"));
    let many: Vec<Entry> = many.chain([container("score.xml")]).collect();
    bounds.is_answered("files", &archive(&many));
    let nested = (0..50).fold(music_xml("", ""), |inner, _| compressed(&inner));
    bounds.is_answered("archives in one another", &nested);
    bounds.is_answered("ends", &[b"PK\x03\x04".to_vec(), b"PK\x05\x06".repeat(250_000)].concat());
    let entity = "<!DOCTYPE a [<!ENTITY a \"xxxxxxxxxx\"><!ENTITY b \"&a;&a;&a;&a;\">]><a>&b;</a>";
    bounds.is_answered("entities", &compressed(entity.as_bytes()));
}
