//! What is said of readers that cannot be read, word for word.

use std::fs;
use std::path::{Path, PathBuf};

use crate::program::Home;

/// The files of readers of `tests/bad/`, by name.
fn files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad/readers");
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> =
        entries.filter(|path| path.extension().unwrap() == "toml").collect();
    files.sort();
    assert!(files.len() >= 12);
    files
}

/// `FRETLOOM_MISTAKES=write` writes what is said; read it before it is kept.
#[test]
fn each_file_of_readers_has_its_message() {
    let home = Home::new();
    for path in files() {
        let file = path.to_str().unwrap();
        let said = home.run(&["sheet", "Dm7", "--readers", file, "--pdf", "{reader}.pdf"]);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{file}: {}", said.err);
        let (said, message) = (said.err.replace(file, "FILE"), path.with_extension("txt"));
        let expected = fs::read_to_string(&message).unwrap_or_default();
        if said != expected && std::env::var_os("FRETLOOM_MISTAKES").is_some_and(|it| it == "write")
        {
            fs::write(&message, &said).unwrap();
            continue;
        }
        assert_eq!(said, expected, "{file}");
        assert!(said.contains("expected "), "{said}");
    }
    assert_eq!(fs::read_dir(home.folder()).unwrap().count(), 0);
}

#[test]
fn words_of_a_reader_that_cannot_be_read_are_told() {
    let expected = "expected a name with a letter, up to 60 characters, then a tuning, left or right, fingers or no-fingers, answers or \
                    no-answers, with commas between them, as in \"Mira,bass-4-string,left\"";
    let home = Home::new();
    for words in ["", ",left", " , , ", "?!,left", "Jo,bass-4-string,ukulele-high-g", "Jo,a,b"] {
        let said = home.run(&["sheet", "Dm7", "--reader", words]);
        assert_eq!((said.status, said.out.as_str()), (Some(2), ""), "{words:?}");
        let told = format!("\"{words}\" is no reader: {expected}");
        let plain = said.err.split_whitespace().collect::<Vec<_>>().join(" ");
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain.contains(&told), "{words:?}: {}", said.err);
    }
    let long = "x".repeat(61);
    assert!(home.run(&["sheet", "Dm7", "--reader", &long]).err.contains(expected));
    // A slip in a word is taken for a tuning, and told as one.
    let said = home.run(&["sheet", "Dm7", "--reader", "Jo,lefty"]);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
    assert!(said.err.starts_with("fretloom: cannot read the tuning \"lefty\""), "{}", said.err);
}
