//! Reads TOML as keepers are written, and nothing else.
//!
//! A player may have ten thousand keepers, and the parser of all TOML takes a tenth of a second for
//! them. Nearly every entry is as the program wrote it: `key = value`, a line each, with strings in double quotes.
//! That is read here, many times faster. Whatever looks otherwise is `None`, and left to
//! the parser; what is read here means the same to both.

use std::borrow::Cow;

use jiff::civil::Date;

use super::item::{Entries, Item};

/// The entries of a text of plain lines, which may begin with `[[keeper]]`; `None` where anything
/// needs the parser of all TOML.
pub(super) fn entries(text: &str) -> Option<Entries<'_>> {
    let mut reader = Reader { text, at: 0 };
    reader.pass_lines();
    reader.take("[[keeper]]\n");
    let mut entries = Entries::with_capacity(24);
    loop {
        reader.pass_lines();
        if reader.rest().is_empty() {
            return Some(entries);
        }
        entry(&mut reader, &mut entries, 0)?;
        reader.pass_spaces();
        if !reader.take("\n") {
            return None;
        }
    }
}

/// How deep lists and tables may stand in one another.
const DEEPEST: usize = 4;

struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Reader<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn take(&mut self, sign: &str) -> bool {
        let is_there = self.rest().starts_with(sign);
        self.at += if is_there { sign.len() } else { 0 };
        is_there
    }

    fn take_while(&mut self, wanted: impl Fn(u8) -> bool) -> &'a str {
        let rest = self.rest();
        let length = rest.bytes().position(|byte| !wanted(byte)).unwrap_or(rest.len());
        self.at += length;
        // Only ASCII is wanted anywhere, so this is no middle of a character.
        rest.get(..length).unwrap_or_default()
    }

    fn pass_spaces(&mut self) {
        self.take_while(|byte| byte == b' ');
    }

    fn pass_blanks(&mut self) {
        self.take_while(|byte| matches!(byte, b' ' | b'\n'));
    }

    /// Passes empty lines.
    fn pass_lines(&mut self) {
        self.take_while(|byte| byte == b'\n');
    }
}

fn entry<'a>(reader: &mut Reader<'a>, entries: &mut Entries<'a>, depth: usize) -> Option<()> {
    let key = reader.take_while(|byte| byte == b'_' || byte.is_ascii_alphanumeric());
    if key.is_empty() || !reader.take(" = ") || entries.iter().any(|(known, _)| known == key) {
        return None;
    }
    entries.push((Cow::Borrowed(key), item(reader, depth)?));
    Some(())
}

fn item<'a>(reader: &mut Reader<'a>, depth: usize) -> Option<Item<'a>> {
    match reader.byte()? {
        b'"' => text(reader).map(Item::Text),
        b'0'..=b'9' => number(reader),
        b'[' if depth < DEEPEST => list(reader, depth + 1),
        b'{' if depth < DEEPEST => table(reader, depth + 1),
        b't' => reader.take("true").then_some(Item::Truth(true)),
        b'f' => reader.take("false").then_some(Item::Truth(false)),
        _ => None,
    }
}

/// A string in double quotes.
fn text<'a>(reader: &mut Reader<'a>) -> Option<Cow<'a, str>> {
    reader.at += 1;
    let rest = reader.rest();
    let end = rest.bytes().position(|byte| byte < b' ' || matches!(byte, b'"' | b'\\' | 0x7f))?;
    if rest.as_bytes().get(end) == Some(&b'"') {
        // Three quotes begin a string of several lines.
        let is_long = end == 0 && rest.starts_with("\"\"");
        reader.at += end + 1;
        return if is_long { None } else { rest.get(..end).map(Cow::Borrowed) };
    }
    escaped(reader).map(Cow::Owned)
}

/// The rest of a string with signs that are written otherwise.
fn escaped(reader: &mut Reader<'_>) -> Option<String> {
    let mut text = String::new();
    let mut chars = reader.rest().char_indices();
    loop {
        let (at, char) = chars.next()?;
        match char {
            '"' => {
                reader.at += at + 1;
                return Some(text);
            }
            '\\' => text.push(match chars.next()?.1 {
                'n' => '\n',
                't' => '\t',
                'r' => '\r',
                '"' => '"',
                '\\' => '\\',
                'u' => unicode(&mut chars)?,
                _ => return None,
            }),
            char if char < ' ' || char == '\u{7f}' => return None,
            char => text.push(char),
        }
    }
}

/// The character of four hexadecimal digits.
fn unicode(chars: &mut std::str::CharIndices<'_>) -> Option<char> {
    let mut code = 0;
    for _ in 0..4 {
        code = code * 16 + chars.next()?.1.to_digit(16)?;
    }
    char::from_u32(code)
}

/// A whole number, a number with a fraction, or a day.
fn number<'a>(reader: &mut Reader<'a>) -> Option<Item<'a>> {
    let written = reader
        .take_while(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'.' | b':'));
    let is_number = |text: &str| {
        let all_digits = text.bytes().all(|byte| byte.is_ascii_digit());
        all_digits && (1..=15).contains(&text.len())
    };
    let has_no_needless_zero = written.len() == 1 || !written.starts_with('0');
    if is_number(written) && has_no_needless_zero {
        return written.parse().ok().map(Item::Whole);
    }
    if let Some((whole, part)) = written.split_once('.') {
        let starts_well = whole == "0" || !whole.starts_with('0');
        let is_decimal = starts_well && is_number(whole) && is_number(part);
        return if is_decimal { written.parse().ok().map(Item::Decimal) } else { None };
    }
    // A time may follow a day after a space.
    let is_alone = !reader.rest().as_bytes().get(1).is_some_and(u8::is_ascii_digit);
    day(written).filter(|_| is_alone).map(Item::Day)
}

/// `2026-05-04`
fn day(written: &str) -> Option<Date> {
    let bytes: &[u8; 10] = written.as_bytes().try_into().ok()?;
    let [a, b, c, d, b'-', e, f, b'-', g, h] = *bytes else { return None };
    let number = |digits: &[u8]| {
        digits.iter().try_fold(0i16, |number, digit| {
            digit.is_ascii_digit().then(|| number * 10 + i16::from(digit - b'0'))
        })
    };
    let (month, day) = (number(&[e, f])?, number(&[g, h])?);
    Date::new(number(&[a, b, c, d])?, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

fn list<'a>(reader: &mut Reader<'a>, depth: usize) -> Option<Item<'a>> {
    reader.at += 1;
    let mut items = Vec::new();
    loop {
        reader.pass_blanks();
        if reader.take("]") {
            return Some(Item::List(items));
        }
        items.push(item(reader, depth)?);
        reader.pass_blanks();
        if !reader.take(",") && reader.byte() != Some(b']') {
            return None;
        }
    }
}

fn table<'a>(reader: &mut Reader<'a>, depth: usize) -> Option<Item<'a>> {
    if !reader.take("{ ") {
        return None;
    }
    let mut entries = Entries::with_capacity(8);
    loop {
        entry(reader, &mut entries, depth)?;
        if reader.take(" }") {
            return Some(Item::Table(entries));
        }
        if !reader.take(", ") {
            return None;
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::store::keepers::all_toml;

    fn slowly(text: &str) -> Option<Entries<'_>> {
        all_toml::entries(text).ok()
    }

    #[test]
    fn plain_lines_are_read_as_the_parser_reads_them() {
        for value in [
            "1",
            "0",
            "648.5",
            "0.25",
            "\"\"",
            "\"Dm7 ♭\"",
            "\"a \\\"b\\\" \\\\ \\n\\t\\u00e9\"",
            "true",
            "false",
            "2026-05-04",
            "2024-02-29",
            "[]",
            "[1, 2]",
            "[\n  \"a\",\n  \"b\",\n]",
            "{ a = 1, b = [\"x\"] }",
            "[{ on = 2026-05-04, tempo = 92 }]",
            "[[1], []]",
        ] {
            let text = format!("[[keeper]]\nid = 1\nx = {value}\n\n");
            let plain = entries(&text);
            assert!(plain.is_some(), "{value}");
            assert_eq!(plain, slowly(&text), "{value}");
        }
    }

    #[test]
    fn what_is_not_plain_is_left_to_the_parser() {
        for line in [
            "x = 'a'",
            "x = \"\"\"a\"\"\"",
            "x = +1",
            "x = 1_000",
            "x = 0x1f",
            "x = 007",
            "x = 1e3",
            "x = 2026-02-30",
            "x = 2026-05-04T10:00:00",
            "x = 2026-05-04 10:00:00",
            "x = 10:00:00",
            "x=1",
            "\"x\" = 1",
            "x.y = 1",
            "x = 1 # note",
            "# note",
            "x = {}",
            "x = \"a",
            "x = [1",
            "x = 1\nx = 2",
            "[keeper.shape]",
            "x = \"\\u12\"",
            "x = \"\\e\"",
            "x = nan",
            "x = -1",
            "x = 1.",
            "x = 00.5",
            "x = 1\r",
            "x = {a = 1}",
            "x = [[[[[[1]]]]]]",
        ] {
            assert_eq!(entries(&format!("{line}\n")), None, "{line}");
        }
        assert_eq!(entries("x = 1"), None);
    }

    fn almost_plain() -> impl Strategy<Value = String> {
        let value = "([0-9]{1,3}|[0-9.:-]{1,11}|\"[a-z\\\\\"\\n#]{0,4}\"|\\[[0-9, \n]{0,5}\\]|\
                     \\{ a = [0-9],? b? = 1 \\}|20[0-9]{2}-[01][0-9]-[0-3][0-9]( [0-9]+)?|true|fals)";
        proptest::collection::vec(("[a-c_]{1,2}", value), 0..4).prop_map(|lines| {
            let lines = lines.into_iter().map(|(key, value)| format!("{key} = {value}\n"));
            format!("[[keeper]]\n{}", lines.collect::<String>())
        })
    }

    proptest! {
        #[test]
        fn what_is_read_means_the_same_to_the_parser(text in almost_plain()) {
            if let Some(plain) = entries(&text) {
                prop_assert_eq!(Some(plain), slowly(&text));
            }
        }
    }
}
