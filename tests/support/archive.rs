//! Writes ZIP archives as compressed scores are, honest and not; shares nothing with the reader.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use miniz_oxide::deflate::compress_to_vec;

/// A file that goes into an archive, with what is said of it there.
#[derive(Clone)]
pub(crate) struct Entry {
    pub(crate) name: String,
    pub(crate) packed: Vec<u8>,
    pub(crate) method: u16,
    pub(crate) flags: u16,
    pub(crate) crc: u32,
    pub(crate) unpacked: u32,
}

impl Entry {
    /// A file as programs pack it.
    pub(crate) fn deflated(name: &str, content: &[u8]) -> Entry {
        Entry { packed: compress_to_vec(content, 6), method: 8, ..Entry::stored(name, content) }
    }

    pub(crate) fn stored(name: &str, content: &[u8]) -> Entry {
        Entry {
            name: name.to_owned(),
            packed: content.to_vec(),
            method: 0,
            flags: 0,
            crc: crc(content),
            unpacked: content.len().try_into().unwrap(),
        }
    }
}

/// Bit by bit, as the definition of CRC-32 has it.
fn crc(content: &[u8]) -> u32 {
    let mut crc = u32::MAX;
    for byte in content {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { (crc >> 1) ^ 0xedb8_8320 } else { crc >> 1 };
        }
    }
    !crc
}

/// The archive of these files.
pub(crate) fn archive(entries: &[Entry]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut list = Vec::new();
    for entry in entries {
        let said = said_of(entry);
        list.extend([b"PK\x01\x02\x14\0", &said[..], &[0; 10]].concat());
        list.extend(u32::try_from(bytes.len()).unwrap().to_le_bytes());
        list.extend(entry.name.as_bytes());
        bytes.extend([b"PK\x03\x04", &said[..], entry.name.as_bytes(), &entry.packed].concat());
    }
    let (from, length) = (bytes.len() as u32, list.len() as u32);
    let count = (entries.len() as u16).to_le_bytes();
    bytes.extend(list);
    bytes.extend(b"PK\x05\x06\0\0\0\0");
    bytes.extend([count, count].concat());
    bytes.extend([length.to_le_bytes(), from.to_le_bytes()].concat());
    bytes.extend([0, 0]);
    bytes
}

/// What stands of a file before it and in the list.
fn said_of(entry: &Entry) -> Vec<u8> {
    let mut said = vec![20, 0];
    said.extend(entry.flags.to_le_bytes());
    said.extend(entry.method.to_le_bytes());
    said.extend([0; 4]);
    said.extend(entry.crc.to_le_bytes());
    said.extend((entry.packed.len() as u32).to_le_bytes());
    said.extend(entry.unpacked.to_le_bytes());
    said.extend((entry.name.len() as u16).to_le_bytes());
    said.extend([0, 0]);
    said
}

/// The container that names a score.
pub(crate) fn container(score: &str) -> Entry {
    let root = format!("<rootfile full-path=\"{score}\"/>");
    let text = format!("<container><rootfiles>{root}</rootfiles></container>");
    Entry::deflated("META-INF/container.xml", text.as_bytes())
}

/// A compressed score as programs write it.
pub(crate) fn compressed(score: &[u8]) -> Vec<u8> {
    archive(&[container("score.xml"), Entry::deflated("score.xml", score)])
}

/// What unpacks to so many zeros: a zero, then copies of the 258 bytes before, 13 bits each (RFC 1951,
/// a block of fixed codes, from memory).
pub(crate) fn bomb(zeros: u32) -> Entry {
    let mut bits = Bits::default();
    bits.push(0b011, 3);
    bits.push_code(0x30, 8);
    for _ in 0..zeros / 258 {
        bits.push_code(0b1100_0101, 8);
        bits.push_code(0, 5);
    }
    bits.push_code(0, 7);
    let unpacked = zeros / 258 * 258 + 1;
    Entry { packed: bits.bytes(), method: 8, unpacked, ..Entry::stored("score.xml", b"") }
}

/// Bits, the lowest of each byte first.
#[derive(Default)]
struct Bits {
    bytes: Vec<u8>,
    waiting: u32,
    count: u32,
}

impl Bits {
    fn push(&mut self, bits: u32, count: u32) {
        self.waiting |= bits << self.count;
        self.count += count;
        while self.count >= 8 {
            self.bytes.push(self.waiting.to_le_bytes()[0]);
            self.waiting >>= 8;
            self.count -= 8;
        }
    }

    /// A code, whose highest bit comes first.
    fn push_code(&mut self, code: u32, count: u32) {
        self.push(code.reverse_bits() >> (32 - count), count);
    }

    fn bytes(mut self) -> Vec<u8> {
        self.push(0, 7);
        self.bytes
    }
}
