//! The checksum of ZIP archives: CRC-32 of ISO 3309 (as in PKWARE's APPNOTE 4.4.7, from memory).

/// The remainders of all bytes.
const TABLE: [u32; 256] = table();

const fn table() -> [u32; 256] {
    let mut table = [0; 256];
    let mut byte = 0;
    while byte < 256 {
        let mut remainder = byte as u32;
        let mut bit = 0;
        while bit < 8 {
            let is_odd = remainder & 1 == 1;
            remainder = if is_odd { (remainder >> 1) ^ 0xedb8_8320 } else { remainder >> 1 };
            bit += 1;
        }
        table[byte] = remainder;
        byte += 1;
    }
    table
}

/// The checksum of some bytes.
pub(super) fn crc(bytes: &[u8]) -> u32 {
    let step = |crc: u32, byte: &u8| {
        // A byte is always an index of the table.
        let index = usize::from(crc.to_le_bytes()[0] ^ byte);
        (crc >> 8) ^ TABLE.get(index).copied().unwrap_or_default()
    };
    !bytes.iter().fold(u32::MAX, step)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value of the catalogues of checksums, and that of nothing.
    #[test]
    fn known_sums_are_found() {
        assert_eq!(crc(b"123456789"), 0xcbf4_3926);
        assert_eq!(crc(b""), 0);
    }
}
