//! From bytes to text.

use std::borrow::Cow;

use super::error::{At, ScoreFileError};

/// The mark of text, as UTF-8 has it.
const MARK: &[u8] = b"\xef\xbb\xbf";

/// The text that some bytes are: UTF-8, UTF-16 where a mark or the first sign says so, or one byte a
/// character where XML says so of itself; without the mark.
///
/// # Errors
///
/// Where the bytes are none of these, with the first that is not.
///
/// # Example
///
/// ```
/// use fretloom::score_file::text;
/// assert_eq!(text(b"\xef\xbb\xbfDm7").unwrap(), "Dm7");
/// assert_eq!(text(b"\xff\xfeD\0m\x007\0").unwrap(), "Dm7");
/// assert!(text(b"Dm7 \xff").unwrap_err().to_string().starts_with("byte 4: it is not UTF-8"));
/// ```
pub fn text(bytes: &[u8]) -> Result<Cow<'_, str>, ScoreFileError> {
    match bytes {
        [0xff, 0xfe, rest @ ..] => utf16(rest, u16::from_le_bytes).map(Cow::Owned),
        [0xfe, 0xff, rest @ ..] => utf16(rest, u16::from_be_bytes).map(Cow::Owned),
        // A score or a list without a mark: its first sign is an ASCII one.
        [b'<' | b'{', 0, ..] => utf16(bytes, u16::from_le_bytes).map(Cow::Owned),
        [0, b'<' | b'{', ..] => utf16(bytes, u16::from_be_bytes).map(Cow::Owned),
        _ => utf8(bytes.strip_prefix(MARK).unwrap_or(bytes)),
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<String, ScoreFileError> {
    let (units, odd) = bytes.as_chunks::<2>();
    let units = units.iter().map(|two| unit(*two));
    let mut text = String::with_capacity(bytes.len() / 2);
    for (index, char) in char::decode_utf16(units).enumerate() {
        let char = char.map_err(|_| {
            let at = At::Whole;
            let wrong = format!("character {} is no UTF-16", index + 1);
            ScoreFileError::new(at, wrong, "UTF-16 text, as its mark says")
        })?;
        text.push(char);
    }
    if odd.is_empty() {
        return Ok(text);
    }
    Err(ScoreFileError::whole("it is UTF-16 text that ends within a character", "the whole text"))
}

fn utf8(bytes: &[u8]) -> Result<Cow<'_, str>, ScoreFileError> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Ok(Cow::Borrowed(text)),
        Err(_) if is_of_one_byte(bytes) => Ok(Cow::Owned(bytes.iter().map(western).collect())),
        Err(error) => {
            let at = At::Byte { offset: error.valid_up_to(), track: None };
            Err(ScoreFileError::new(at, "it is not UTF-8 there", "UTF-8 text"))
        }
    }
}

/// Does XML say of itself that a byte is a character, as western Europe had them?
fn is_of_one_byte(bytes: &[u8]) -> bool {
    let end = bytes.iter().take(200).position(|byte| *byte == b'>').unwrap_or_default();
    let head = String::from_utf8_lossy(bytes.get(..end).unwrap_or_default()).to_ascii_lowercase();
    head.starts_with("<?xml")
        && ["iso-8859-1", "latin1", "windows-1252"].iter().any(|name| head.contains(name))
}

/// The characters 0x80 to 0x9F of Windows-1252, which nearly all text has that calls itself
/// ISO-8859-1 and uses them (WHATWG Encoding, from memory).
const WINDOWS: &str = "€\u{81}‚ƒ„…†‡ˆ‰Š‹Œ\u{8d}Ž\u{8f}\u{90}‘’“”•–—˜™š›œ\u{9d}žŸ";

fn western(byte: &u8) -> char {
    let in_windows = byte.checked_sub(0x80).and_then(|index| WINDOWS.chars().nth(index.into()));
    in_windows.unwrap_or(char::from(*byte))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `<ä♭𝄞>`, by hand from the tables of Unicode.
    #[test]
    fn utf_16_is_read_in_both_orders_with_a_mark_and_without() {
        let low = b"<\0\xe4\0\x6d\x26\x34\xd8\x1e\xdd>\0";
        let high: Vec<u8> = low.chunks(2).flat_map(|two| [two[1], two[0]]).collect();
        for bytes in [&low[..], &high] {
            assert_eq!(text(bytes).unwrap(), "<ä♭𝄞>");
        }
        assert_eq!(text(&[b"\xff\xfe", &low[..]].concat()).unwrap(), "<ä♭𝄞>");
        assert_eq!(text(&[b"\xfe\xff", &high[..]].concat()).unwrap(), "<ä♭𝄞>");
    }

    #[test]
    fn what_is_no_utf_16_is_refused() {
        for (bytes, words) in [
            (&b"\xff\xfe<\0\xd8"[..], "ends within a character"),
            (b"\xff\xfe<\0\x34\xd8a\0", "character 2 is no UTF-16; expected UTF-16 text"),
        ] {
            assert!(text(bytes).unwrap_err().to_string().contains(words));
        }
    }

    #[test]
    fn one_byte_a_character_is_read_where_it_is_said() {
        let head = b"<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>";
        assert!(text(&[&head[..], b"Andr\xe9\x92s"].concat()).unwrap().ends_with("André’s"));
        assert_eq!(text(b"\xef\xbb\xbfAndr\xc3\xa9").unwrap(), "André");
        assert!(text(b"<a>Andr\xe9").unwrap_err().to_string().starts_with("byte 7: "));
    }
}
