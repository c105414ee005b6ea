//! Laws: nothing panics, what is printed is read as the same, and time adds up.

use proptest::prelude::*;

use super::*;

/// Words that make bars, in any order.
const WORDS: &[&str] = &[
    "|",
    "|",
    "|",
    "|",
    "||",
    "|:",
    ":|",
    ":|",
    ":|3",
    ":|:",
    "C",
    "Dm7",
    "G7",
    "Bbmaj7#11/F",
    "(A7)",
    "(N.C.)",
    "N.C.",
    "F#m7b5",
    "/",
    "%",
    "%%",
    "[A]",
    "[B2]",
    "3/4",
    "6/8",
    "4/4",
    "1.",
    "2.",
    "Segno",
    "Coda",
    "ToCoda",
    "Fine",
    "D.C.",
    "D.S.",
    "D.C.alFine",
    "D.S.alCoda",
    "pickup=1",
    "\n",
    "\n# so\n",
    "x",
    "||:",
];

fn soup() -> impl Strategy<Value = String> {
    prop::collection::vec(prop::sample::select(WORDS), 0..40).prop_map(|words| words.join(" "))
}

fn bar() -> impl Strategy<Value = String> {
    prop_oneof![
        5 => prop::collection::vec(prop::sample::select(vec!["C", "Dm7", "(G7)", "N.C.", "Eb/G"]), 1..5)
            .prop_map(|chords| chords.join(" ")),
        1 => Just("C / Dm7 /".to_owned()),
        1 => Just("%".to_owned()),
        1 => Just("[C] F".to_owned()),
    ]
}

/// One to four bars, and how they are repeated: not, so often, or with so many endings.
fn piece() -> impl Strategy<Value = String> {
    let bars = || prop::collection::vec(bar(), 1..5).prop_map(|bars| bars.join(" | "));
    prop_oneof![
        bars().prop_map(|bars| format!("Bb | {bars} |")),
        (bars(), 2..5).prop_map(|(bars, times)| format!("|: Bb | {bars} :|{times} ")),
        (bars(), 2..5).prop_map(|(bars, endings)| {
            let closed: String = (1..endings).map(|number| format!("{number}. F :| ")).collect();
            format!("|: Bb | {bars} | {closed} {endings}. G |")
        }),
    ]
}

fn form() -> impl Strategy<Value = String> {
    let pieces = prop::collection::vec(piece(), 1..5).prop_map(|pieces| pieces.join("\n"));
    (any::<bool>(), pieces, prop::sample::select(vec!["", "D.C.", "C D.C.alFine"])).prop_map(
        |(pick_up, pieces, jump)| {
            let pick_up = if pick_up { "pickup=1 | N.C. |\n" } else { "" };
            let fine = if jump.ends_with("Fine") { "| C Fine |\n" } else { "" };
            format!("{pick_up} {fine} {pieces} {jump}")
        },
    )
}

fn check(text: &BarText) {
    for print in [text.to_string(), format!("{text:#}")] {
        let again =
            BarText::read(&print, text.meter()).unwrap_or_else(|error| panic!("{print}: {error}"));
        assert_eq!(&again, text, "{print}");
        assert_eq!(again.to_string(), text.to_string());
    }
    for optional in [OptionalChords::Played, OptionalChords::LeftOut] {
        let chorus = text.unfolded(optional);
        let mut end = Quarters::ZERO;
        for (index, bar) in chorus.heard.iter().enumerate() {
            assert_eq!(bar.from, end);
            let length = chorus.bars.bar(index as u64).unwrap().length;
            end = end.checked_add(length).unwrap();
            assert!(bar.written < text.bars().len());
        }
        assert_eq!(chorus.end, end);
        assert!(chorus.chords.changes().iter().all(|(at, _)| *at < end));
        assert!(chorus.optional.iter().all(|at| chorus.chords.at(*at).is_some()));
    }
}

/// What is marked prints and is read again, with the same faults.
fn check_marked(text: &str) {
    let marked =
        |text: &str| BarText::read_marking(&[BarSection::unnamed(text)], Meter::COMMON, None);
    let Ok((read, faults)) = marked(text) else {
        assert!(BarText::read(text, Meter::COMMON).is_err(), "{text}");
        return;
    };
    assert_eq!(faults.is_empty(), BarText::read(text, Meter::COMMON).is_ok(), "{text}");
    let unread = |bar: &&WrittenBar| matches!(bar.content, BarContent::Unread(_));
    assert_eq!(read.bars().iter().filter(unread).count(), faults.len(), "{text}");
    let print = read.to_string();
    let (again, faults_again) = marked(&print).unwrap_or_else(|error| panic!("{print}: {error}"));
    assert_eq!(again, read, "{print}");
    assert_eq!(faults_again.len(), faults.len(), "{print}");
    for (fault, again) in faults.iter().zip(faults_again) {
        assert_eq!((&fault.word, fault.error.expected()), (&again.word, again.error.expected()));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn what_is_read_of_any_words_prints_and_is_read_again(text in soup()) {
        if let Ok(text) = BarText::read(&text, Meter::COMMON) {
            check(&text);
        }
    }

    #[test]
    fn what_is_marked_of_any_words_prints_and_is_read_again(text in soup()) {
        check_marked(&text);
        check_marked(&format!("| Dm7 | {text}"));
        check_marked(&format!("| [A b] Dm7 | {text} | x G | C | % |"));
    }

    #[test]
    fn nothing_panics(text in "\\PC{0,60}") {
        check_marked(&text);
        if let Ok(text) = BarText::read(&text, Meter::COMMON) {
            check(&text);
        }
    }

    #[test]
    fn forms_print_and_are_read_again(text in form(), meter in prop::sample::select(vec!["4/4", "12/8"])) {
        check(&read_in(&text, meter));
    }
}
