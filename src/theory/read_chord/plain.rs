//! Symbols as they are copied from pages and typed in haste, made plain sign by sign.

use std::borrow::Cow;

/// A symbol with its superscript, subscript and full-width signs, and the other forms of slash,
/// bracket, `ø` and `°`, written plainly; each sign for one, so that places stay what they are.
pub(super) fn plain(symbol: &str) -> Cow<'_, str> {
    if symbol.chars().all(|sign| plain_sign(sign) == sign) {
        return Cow::Borrowed(symbol);
    }
    Cow::Owned(symbol.chars().map(plain_sign).collect())
}

fn plain_sign(sign: char) -> char {
    match sign {
        '⁰' | '₀' => '0',
        '¹' | '₁' => '1',
        '²' | '₂' => '2',
        '³' | '₃' => '3',
        '⁴' | '₄' => '4',
        '⁵' | '₅' => '5',
        '⁶' | '₆' => '6',
        '⁷' | '₇' => '7',
        '⁸' | '₈' => '8',
        '⁹' | '₉' => '9',
        '⁺' | '₊' => '+',
        '⁻' | '₋' => '-',
        '⁽' | '₍' => '(',
        '⁾' | '₎' => ')',
        'ᵐ' => 'm',
        'ᵇ' => 'b',
        '⁄' | '∕' | '╱' => '/',
        '∅' | '⌀' => 'ø',
        '˚' | 'ᵒ' => '°',
        // The full-width forms lie as their plain ones do.
        '！'..='～' => {
            let plain = u32::from(sign) - u32::from('！') + u32::from('!');
            char::from_u32(plain).unwrap_or(sign)
        }
        '\u{3000}' | '\u{a0}' | '\u{2009}' | '\u{202f}' => ' ',
        _ => sign,
    }
}
