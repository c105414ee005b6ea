//! The files of pages: whole or not at all, never over another one unasked.

use crate::program::Home;

const CALLS: [&[&str]; 4] = [
    &["neck", "Gmaj7#11"],
    &["shapes", "G"],
    &["shapes", "G", "--arpeggio", "2"],
    &["ladder", "F", "G"],
];

#[test]
fn pages_are_written_beside_the_answer() {
    let home = Home::new();
    for (call, index) in CALLS.iter().zip(0..) {
        let plain = home.run(call).printed();
        let [pdf, svg] = ["pdf", "svg"].map(|kind| format!("{index}.{kind}"));
        let files = ["--pdf", &pdf, "--svg", &svg];
        let words: Vec<&str> = call.iter().copied().chain(files).collect();
        let expected = format!("{plain}written: {pdf}\nwritten: {svg}\n");
        assert_eq!(home.run(&words).printed(), expected, "{call:?}");
        let read = |name: &str| std::fs::read(home.folder().join(name)).unwrap();
        let (first_pdf, first_svg) = (read(&pdf), read(&svg));
        assert!(first_pdf.starts_with(b"%PDF-1.7") && first_pdf.ends_with(b"%%EOF"));
        let again = home.run(&words);
        assert_eq!((again.status, again.out.as_str()), (Some(1), ""));
        assert!(
            again.err.contains("it is there already; expected a name that is free, or --overwrite")
        );
        let over: Vec<&str> = words.iter().copied().chain(["--overwrite"]).collect();
        home.run(&over).printed();
        assert_eq!(
            (read(&pdf), read(&svg)),
            (first_pdf, first_svg),
            "the same pages, the same bytes"
        );
        let letter: Vec<&str> = over.iter().copied().chain(["--paper", "letter"]).collect();
        home.run(&letter).printed();
        assert!(String::from_utf8(read(&svg)).unwrap().contains("width=\"215.9mm\""));
    }
}

/// The player's own paper, unless another one is asked for.
#[test]
fn the_paper_is_a_setting() {
    let home = Home::new();
    home.put("fretloom/settings.toml", "paper = \"letter\"\n");
    let width = |more: &[&str]| {
        let words: Vec<&str> = ["sheet", "Dm7", "--svg", "x.svg", "--overwrite"]
            .into_iter()
            .chain(more.iter().copied())
            .collect();
        home.run(&words).printed();
        let svg = std::fs::read_to_string(home.folder().join("x.svg")).unwrap();
        svg.split("width=\"").nth(1).unwrap().split('"').next().unwrap().to_owned()
    };
    // US Letter is 8.5 inches wide, ISO A4 210 mm.
    assert_eq!(width(&[]), "215.9mm");
    assert_eq!(width(&["--paper", "a4"]), "210mm");
}

#[test]
fn what_cannot_be_written_is_refused() {
    let home = Home::new();
    std::fs::create_dir(home.folder().join("folder")).unwrap();
    for (file, expected) in [
        ("folder", "it is a folder; expected the name of a file"),
        ("no/x.pdf", "there is no folder no; expected a folder that is there"),
        ("-", "standard output is for the answer itself; expected the name of a file"),
    ] {
        let said = home.run(&["neck", "C7", "--pdf", file]);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{file}");
        assert!(said.err.contains(expected), "{file}: {}", said.err);
    }
    let twice = home.run(&["neck", "C7", "--pdf", "x", "--svg", "x"]);
    assert!(
        twice.err.contains("it is named twice; expected another name for each file"),
        "{}",
        twice.err
    );
    let paper = home.run(&["neck", "C7", "--pdf", "x", "--paper", "a3"]);
    assert_eq!(paper.status, Some(2));
    assert!(paper.err.contains("\"a3\" is no paper: expected a4 or letter"), "{}", paper.err);
    let alone = home.run(&["neck", "C7", "--paper", "letter"]);
    assert_eq!(alone.status, Some(2), "{}", alone.out);
    assert!(std::fs::read_dir(home.folder()).unwrap().count() == 1);
}
