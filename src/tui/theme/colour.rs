//! Colours as theme files write them, and the nearest colour that a terminal has.

use ratatui::style::Color;

use super::Depth;

/// The sixteen colours of a terminal's palette by their names, in the order of the palette.
pub(super) const NAMED: [(&str, Color); 16] = [
    ("black", Color::Black),
    ("red", Color::Red),
    ("green", Color::Green),
    ("yellow", Color::Yellow),
    ("blue", Color::Blue),
    ("magenta", Color::Magenta),
    ("cyan", Color::Cyan),
    ("white", Color::Gray),
    ("bright-black", Color::DarkGray),
    ("bright-red", Color::LightRed),
    ("bright-green", Color::LightGreen),
    ("bright-yellow", Color::LightYellow),
    ("bright-blue", Color::LightBlue),
    ("bright-magenta", Color::LightMagenta),
    ("bright-cyan", Color::LightCyan),
    ("bright-white", Color::White),
];

/// Red, green and blue.
pub(super) type Rgb = [u8; 3];

/// What xterm shows for the sixteen colours, in the order of the palette; from memory. Other
/// terminals differ, so a theme may name one of the sixteen itself.
const SIXTEEN: [Rgb; 16] = [
    [0, 0, 0],
    [205, 0, 0],
    [0, 205, 0],
    [205, 205, 0],
    [0, 0, 238],
    [205, 0, 205],
    [0, 205, 205],
    [229, 229, 229],
    [127, 127, 127],
    [255, 0, 0],
    [0, 255, 0],
    [255, 255, 0],
    [92, 92, 255],
    [255, 0, 255],
    [0, 255, 255],
    [255, 255, 255],
];

/// The six levels of red, green and blue in the colours 16 to 231; from memory.
const CUBE: [u8; 6] = [0, 95, 135, 175, 215, 255];

/// Reads a colour: `cyan`, `#56B4E9`, or `#56B4E9/cyan`, of which the name is used where the
/// terminal has only sixteen colours. `Some(None)` is a valid colour on a terminal without colours.
pub(super) fn read(word: &str, depth: Depth) -> Option<Option<Color>> {
    let (exact, stand_in) = match word.split_once('/') {
        Some((exact, name)) => (exact, Some(named(name)?)),
        None => (word, None),
    };
    let own = match (named(exact), stand_in) {
        (Some(own), None) => return Some((depth > Depth::None).then_some(own)),
        (Some(_), Some(_)) => return None,
        (None, _) => rgb(exact)?,
    };
    Some(match depth {
        Depth::None => None,
        Depth::Sixteen => stand_in.or_else(|| nearest_of_sixteen(own)),
        Depth::TwoHundredFiftySix => Some(Color::Indexed(nearest_index(own))),
        Depth::Full => Some(Color::Rgb(own[0], own[1], own[2])),
    })
}

fn named(word: &str) -> Option<Color> {
    NAMED.iter().find(|(name, _)| *name == word).map(|(_, colour)| *colour)
}

fn rgb(word: &str) -> Option<Rgb> {
    let digits = word.strip_prefix('#')?;
    if digits.len() != 6 || !digits.bytes().all(|digit| digit.is_ascii_hexdigit()) {
        return None;
    }
    let [_, red, green, blue] = u32::from_str_radix(digits, 16).ok()?.to_be_bytes();
    Some([red, green, blue])
}

fn nearest_of_sixteen(wanted: Rgb) -> Option<Color> {
    let all = SIXTEEN.iter().zip(NAMED);
    let nearest = all.min_by_key(|(rgb, _)| distance(**rgb, wanted));
    nearest.map(|(_, (_, colour))| colour)
}

/// The nearest of the colours 16 to 255. The first sixteen may be anything, since a terminal's
/// owner sets them.
fn nearest_index(wanted: Rgb) -> u8 {
    (16..=255).min_by_key(|index| distance(rgb_of(*index), wanted)).unwrap_or(16)
}

/// The colours from 16 on: a cube of six levels each, then 24 greys.
pub(super) fn rgb_of(index: u8) -> Rgb {
    if index >= 232 {
        return [8 + 10 * (index - 232); 3];
    }
    let at = index.saturating_sub(16);
    let step = |digit: u8| CUBE.get(usize::from(digit)).copied().unwrap_or_default();
    [step(at / 36), step(at / 6 % 6), step(at % 6)]
}

/// The square of the distance between two colours.
fn distance(one: Rgb, other: Rgb) -> u32 {
    one.iter().zip(other).map(|(one, other)| u32::from(one.abs_diff(other)).pow(2)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colour_is_shown_by_the_nearest_there_is() {
        let orange = "#E69F00";
        assert_eq!(read(orange, Depth::Full), Some(Some(Color::Rgb(230, 159, 0))));
        // 178 is (215, 175, 0), 172 is (215, 135, 0).
        assert_eq!(read(orange, Depth::TwoHundredFiftySix), Some(Some(Color::Indexed(178))));
        assert_eq!(read(orange, Depth::Sixteen), Some(Some(Color::Yellow)));
        assert_eq!(read(orange, Depth::None), Some(None));
        assert_eq!(read("#0072B2/blue", Depth::Sixteen), Some(Some(Color::Blue)));
        for depth in [Depth::Sixteen, Depth::TwoHundredFiftySix, Depth::Full] {
            assert_eq!(read("cyan", depth), Some(Some(Color::Cyan)));
        }
        assert_eq!(read("cyan", Depth::None), Some(None));
    }

    #[test]
    fn every_colour_that_is_there_is_its_own_nearest() {
        for index in 16..=255 {
            assert_eq!(rgb_of(nearest_index(rgb_of(index))), rgb_of(index), "{index}");
        }
        for (rgb, (name, colour)) in SIXTEEN.into_iter().zip(NAMED) {
            assert_eq!(nearest_of_sixteen(rgb), Some(colour), "{name}");
        }
    }

    #[test]
    fn what_is_no_colour_is_none() {
        for word in ["", "#", "#12345", "#1234567", "#12345G", "#+12345", "cyan/blue", "#000000/x"]
        {
            assert_eq!(read(word, Depth::Full), None, "{word}");
        }
    }
}
