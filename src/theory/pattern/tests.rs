use super::*;

fn pattern(text: &str) -> Pattern {
    text.parse().unwrap()
}

#[test]
fn patterns_print_as_they_are_read() {
    for text in ["123", "132 32", "132 =32", "1232 321 a", "0(13)2 >1_-p", "s2 A1 456"] {
        assert_eq!(pattern(text).to_string(), text);
    }
    assert_eq!(pattern("  12 \t 3 ").to_string(), "12 3");
    assert_eq!(pattern("(31)").to_string(), "(13)");
}

/// By hand: a group alone swaps the triads each time round; two groups, or one that stays, do not.
#[test]
fn an_odd_number_of_turns_takes_two_rounds() {
    for (text, length, period) in [
        ("123", 3, 6),
        ("132 32", 5, 5),
        ("132 =32", 5, 10),
        ("1232 321 a", 8, 8),
        ("12 3 21", 5, 10),
    ] {
        assert_eq!((pattern(text).length(), pattern(text).period()), (length, period), "{text}");
    }
}

#[test]
fn a_wrong_sign_is_pointed_at() {
    for (text, at, expected) in [
        ("", 1, "at least one group"),
        ("   ", 4, "at least one group"),
        ("a -", 4, "at least one group"),
        ("12 8", 4, "from 0 to 6"),
        ("12x", 3, "a figure from 0 to 6, - _"),
        ("12 ♭3", 4, "a figure from 0 to 6, - _"),
        ("_12", 1, "a note before it"),
        ("1-_", 3, "a note before it"),
        ("-p1", 2, "a note before it"),
        ("1>-", 3, "a note after the accent"),
        ("1>", 3, "a figure from 0 to 6, - _"),
        ("1>>2", 3, "a figure from 0 to 6, - _"),
        ("12 =", 4, "figures right after ="),
        ("12 =a", 4, "figures right after ="),
        ("1=2", 2, "a figure from 0 to 6, - _"),
        ("(1", 3, "two or three"),
        ("(1)", 3, "two or three"),
        ("(11)", 3, "two or three"),
        ("(1234)", 5, "two or three"),
        ("(1 3)", 3, "two or three"),
        ("()", 2, "two or three"),
    ] {
        let error = text.parse::<Pattern>().unwrap_err();
        assert_eq!(error.at(), at, "{text}: {error}");
        assert!(error.expected().contains(expected), "{text}: {error}");
    }
}

#[test]
fn a_million_groups_are_refused() {
    let said = "123 ".repeat(1_000_000).parse::<Pattern>().unwrap_err().to_string();
    assert!(said.contains("at most 256 signs") && said.len() < 200, "{said}");
    let said = "1".repeat(1_000_000).parse::<Pattern>().unwrap_err().to_string();
    assert!(said.contains("at most") && said.len() < 200, "{said}");
}
