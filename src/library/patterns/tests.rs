use std::collections::BTreeSet;

use super::*;

/// What sounds: for each value of the rhythm its sign and which of the two triads it is of. It shares
/// nothing with the reader of patterns. A pattern that ends on the first triad goes round twice, the
/// second time with the triads exchanged.
fn sounds(figures: &str) -> Vec<(String, u8)> {
    let mut round = Vec::new();
    let mut triad = 1;
    for _ in 0..2 {
        for group in figures.split(' ') {
            let (stays, group) = match group.strip_prefix('=') {
                Some(group) => (true, group),
                None => (false, group),
            };
            let has_figures = group.contains(|sign: char| sign.is_ascii_digit());
            if has_figures && !stays {
                triad = 1 - triad;
            }
            round.extend(signs(group).into_iter().map(|sign| (sign, triad)));
        }
        // Triad 1 was the last: the next round would begin as this one did.
        if triad == 1 {
            break;
        }
    }
    round
}

/// The signs of a group: what is in brackets and what an accent stands before is one.
fn signs(group: &str) -> Vec<String> {
    let mut signs: Vec<String> = Vec::new();
    let mut open = false;
    for sign in group.chars() {
        match signs.last_mut() {
            Some(last) if open || last == ">" => last.push(sign),
            _ => signs.push(sign.to_string()),
        }
        open = sign == '(' || open && sign != ')';
    }
    signs
}

/// The first in the order of the alphabet of all that it is called when it begins elsewhere and when
/// the two triads exchange their names.
fn canonical(figures: &str) -> Vec<(String, u8)> {
    let sounds = sounds(figures);
    let turned = (0..sounds.len()).flat_map(|begin| {
        let turned = [&sounds[begin..], &sounds[..begin]].concat();
        let renamed = turned.iter().map(|(sign, triad)| (sign.clone(), 1 - triad)).collect();
        [turned, renamed]
    });
    turned.min().unwrap()
}

#[test]
fn rotation_and_renaming_are_seen() {
    for (one, other) in [("123 321", "321 123"), ("12 3 1", "3 1 12"), (">1(23) 1_", "1_ >1(23)")] {
        assert_eq!(canonical(one), canonical(other), "{one}, {other}");
    }
    // Where the triad changes elsewhere, or an accent stands elsewhere, it is another pattern.
    for (one, other) in [("123", "231"), (">1(23)", "1>(23)"), ("123 =321", "123 321")] {
        assert_ne!(canonical(one), canonical(other), "{one}, {other}");
    }
    assert_eq!(sounds("12").len(), 4);
    assert_eq!(sounds("12 3").len(), 3);
    assert_eq!(sounds("123 =321 a").len(), 14);
}

#[test]
fn built_in_patterns_all_differ() {
    let built_in = LoadedPatterns::load(None);
    assert!(built_in.problems().is_empty(), "{:?}", built_in.problems());
    assert!(built_in.patterns().len() >= 24);
    let mut different = BTreeSet::new();
    let mut names = BTreeSet::new();
    for pattern in built_in.patterns() {
        let figures = pattern.figures.to_string();
        assert!(different.insert(canonical(&figures)), "{figures} is there twice");
        assert!(names.insert(&pattern.id) && names.insert(&pattern.name), "{}", pattern.id);
        assert_eq!(sounds(&figures).len(), pattern.figures.period(), "{figures}");
        // So that a line of the list fits 80 columns.
        assert!(pattern.id.len() <= 15 && pattern.name.chars().count() <= 26, "{}", pattern.name);
    }
}

/// What teachers write, each of them there: the kinds of cycles by how they are written.
#[test]
fn each_kind_of_pattern_is_there() {
    let built_in = LoadedPatterns::load(None);
    let figures: Vec<String> =
        built_in.patterns().iter().map(|pattern| pattern.figures.to_string()).collect();
    for kind in ["123", "321", "123 321", "132 32", "1232 321", "1413", "1233", "135"] {
        assert!(figures.iter().any(|figures| figures == kind), "{kind}");
    }
    for sign in ["-", "_", "a", "A", "s", "p", ">", "=", "(", "0", "6"] {
        assert!(figures.iter().any(|figures| figures.contains(sign)), "{sign}");
    }
    for length in [5, 6, 7, 8] {
        assert!(built_in.patterns().iter().any(|p| p.figures.length() == length), "{length}");
    }
}

#[test]
fn a_players_pattern_takes_the_place_of_a_built_in_one() {
    let mut loaded = LoadedPatterns::load(None);
    let count = loaded.patterns().len();
    let file = Source::File("patterns.toml".into());
    loaded.add(
        "patterns.toml",
        "[threes-up]\nname = \"mine\"\nfigures = \"1 23\"\n\
         cell = { name = \"Own cell\", figures = \"12 3_\", note = \"slowly\" }\n",
        &file,
    );
    // A key below a section is of that section.
    assert_eq!(loaded.problems().len(), 1);
    loaded.add("patterns.toml", "cell = { name = \"Own cell\", figures = \"12 3_\" }\n", &file);
    assert_eq!(loaded.patterns().len(), count + 1);
    let threes = loaded.by_id_or_name("Threes-Up").unwrap();
    assert_eq!((threes.figures.to_string().as_str(), &threes.source), ("1 23", &file));
    let cell = loaded.by_id_or_name("own cell").unwrap();
    assert_eq!((cell.id.as_str(), cell.note.as_deref()), ("cell", None));
    assert!(loaded.by_id_or_name("twos").is_none());
}

#[test]
fn a_bad_entry_costs_itself_and_is_told_by_place() {
    let loaded = LoadedPatterns::of_text(
        "patterns.toml",
        "good = { name = \"good\", figures = \"12\" }\n\
         number = 3\n\
         [Big]\nname = \"big\"\nfigures = \"12\"\n\
         [no-figures]\nname = \"none\"\nfigure = \"12\"\n\
         [foreign]\nname = \"foreign\"\nfigures = \"12 8\"\nnote = 1\n\
         [broken]\nname = \"broken\nfigures = \"12\"\n",
    );
    let ids: Vec<&str> = loaded.patterns().iter().map(|pattern| &*pattern.id).collect();
    assert_eq!(ids, ["good"]);
    let places: Vec<(usize, usize)> =
        loaded.problems().iter().map(|problem| (problem.line, problem.column)).collect();
    assert_eq!(places, [(2, 10), (3, 2), (6, 2), (8, 1), (11, 11), (12, 8), (13, 2), (14, 1)]);
}
