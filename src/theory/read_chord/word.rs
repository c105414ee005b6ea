//! The words of chord symbols, in every common dialect: one table.

/// What a piece of a chord symbol means, before its place is considered.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Word {
    /// `maj`: of the seventh, where one follows.
    Major,
    /// `Δ`: the same, and a seventh by itself.
    Triangle,
    Minor,
    /// `dim`, in letters.
    Diminished,
    /// `°`
    Circle,
    /// `ø`
    HalfDiminished,
    Augmented,
    /// `dom`: says nothing that the number does not.
    Dominant,
    Sus,
    Alt,
    Add,
    Omit,
    Open,
    Close,
    Separator,
    /// `b`, `#`, `♮`, or `-` and `+` once the root's own sign is past.
    Sign {
        sharps: i8,
        letter: bool,
    },
}

/// Longer spellings stand before the shorter ones that they begin with.
#[rustfmt::skip]
const WORDS: &[(&str, Word)] = &[
    ("major", Word::Major), ("Major", Word::Major),
    ("maj.", Word::Major), ("Maj.", Word::Major),
    ("maj", Word::Major), ("Maj", Word::Major), ("MAJ", Word::Major),
    ("minor", Word::Minor), ("Minor", Word::Minor),
    ("min.", Word::Minor), ("Min.", Word::Minor),
    ("min", Word::Minor), ("Min", Word::Minor), ("MIN", Word::Minor),
    ("ma", Word::Major), ("Ma", Word::Major), ("MA", Word::Major),
    ("mi", Word::Minor), ("Mi", Word::Minor), ("MI", Word::Minor),
    ("M", Word::Major), ("m", Word::Minor),
    ("j", Word::Triangle), ("Δ", Word::Triangle), ("∆", Word::Triangle), ("△", Word::Triangle),
    ("^", Word::Triangle),
    ("half-diminished", Word::HalfDiminished), ("half diminished", Word::HalfDiminished),
    ("half dim", Word::HalfDiminished),
    ("diminished", Word::Diminished), ("Diminished", Word::Diminished),
    ("augmented", Word::Augmented), ("Augmented", Word::Augmented),
    ("suspended", Word::Sus), ("dominant", Word::Dominant), ("Dominant", Word::Dominant),
    ("flat ", Word::Sign { sharps: -1, letter: true }),
    ("flat", Word::Sign { sharps: -1, letter: true }),
    ("sharp ", Word::Sign { sharps: 1, letter: true }),
    ("sharp", Word::Sign { sharps: 1, letter: true }),
    ("dim.", Word::Diminished), ("dim", Word::Diminished), ("Dim", Word::Diminished),
    ("DIM", Word::Diminished),
    ("dom", Word::Dominant),
    ("omit", Word::Omit), ("Omit", Word::Omit), ("no", Word::Omit), ("No", Word::Omit),
    ("o", Word::Circle), ("°", Word::Circle), ("º", Word::Circle),
    ("half-dim", Word::HalfDiminished), ("halfdim", Word::HalfDiminished),
    ("hdim", Word::HalfDiminished), ("h", Word::HalfDiminished),
    ("φ", Word::HalfDiminished), ("Φ", Word::HalfDiminished),
    ("ø", Word::HalfDiminished), ("Ø", Word::HalfDiminished), ("⌀", Word::HalfDiminished),
    ("aug.", Word::Augmented), ("aug", Word::Augmented), ("Aug", Word::Augmented),
    ("AUG", Word::Augmented),
    ("sus.", Word::Sus), ("sus", Word::Sus), ("Sus", Word::Sus), ("SUS", Word::Sus),
    ("altered", Word::Alt), ("alt.", Word::Alt), ("Alt.", Word::Alt), ("alt", Word::Alt),
    ("Alt", Word::Alt), ("ALT", Word::Alt),
    ("add", Word::Add), ("Add", Word::Add), ("ADD", Word::Add),
    ("(", Word::Open), ("[", Word::Open), (")", Word::Close), ("]", Word::Close),
    (",", Word::Separator), (" ", Word::Separator),
    ("b", Word::Sign { sharps: -1, letter: true }), ("♭", Word::Sign { sharps: -1, letter: true }),
    ("♮", Word::Sign { sharps: 0, letter: true }), ("nat", Word::Sign { sharps: 0, letter: true }),
    ("#", Word::Sign { sharps: 1, letter: true }), ("♯", Word::Sign { sharps: 1, letter: true }),
    ("-", Word::Sign { sharps: -1, letter: false }),
    ("−", Word::Sign { sharps: -1, letter: false }),
    ("–", Word::Sign { sharps: -1, letter: false }),
    ("+", Word::Sign { sharps: 1, letter: false }),
];

/// The word at the beginning of `text`, and its length in bytes.
pub(super) fn first_word(text: &str) -> Option<(Word, usize)> {
    // In `Cmadd9` and `Cmalt` the a belongs to the word after the m.
    let rest = text.get(1..).unwrap_or_default();
    let m_before_a =
        text.starts_with(['m', 'M']) && (rest.starts_with("add") || rest.starts_with("alt"));
    WORDS
        .iter()
        .filter(|(spelling, _)| !m_before_a || spelling.len() == 1)
        .find(|(spelling, _)| text.starts_with(spelling))
        .map(|(spelling, word)| (*word, spelling.len()))
}
