//! Key files, right and wrong.

use super::Keymap;
use crate::library::Problem;

const COMMANDS: [(&str, &str, u8); 6] = [
    ("always", "leave", 5),
    ("everywhere", "quit", 0),
    ("everywhere", "help", 1),
    ("explore", "next-pair", 2),
    ("explore", "previous-pair", 3),
    ("explore", "keep", 4),
];

const BUILT_IN: &str = r#"
[always]
leave = ["ctrl-c"]

[everywhere]
quit = ["q", "f10"]
help = ["?"]

[explore]
next-pair = ["down", "j"]
previous-pair = ["up", "k"]
"#;

fn built_in() -> Keymap<u8> {
    let together = [["always", "everywhere"], ["always", "explore"], ["explore", "everywhere"]];
    let mut map = Keymap::new(COMMANDS).hearing_together(together).keeping("always", 5);
    assert_eq!(map.overlay("keys.toml", BUILT_IN), []);
    map
}

fn command(map: &Keymap<u8>, section: &str, key: &str) -> Option<u8> {
    map.command(section, key.parse().unwrap())
}

fn keys(map: &Keymap<u8>, section: &str, command: u8) -> String {
    let keys = map.keys(section, command).iter().map(ToString::to_string);
    keys.collect::<Vec<_>>().join(" ")
}

/// The messages of a player's file, and what the map is afterwards.
fn own(text: &str) -> (Keymap<u8>, Vec<String>) {
    let mut map = built_in();
    let problems = map.overlay("own.toml", text);
    (map, problems.iter().map(Problem::to_string).collect())
}

#[test]
fn keys_find_commands_and_commands_find_keys() {
    let map = built_in();
    assert_eq!(command(&map, "explore", "j"), Some(2));
    assert_eq!(command(&map, "everywhere", "j"), None);
    assert_eq!(command(&map, "nowhere", "j"), None);
    assert_eq!(keys(&map, "explore", 2), "down j");
    assert_eq!(keys(&map, "explore", 4), "");
}

#[test]
fn a_later_file_replaces_the_keys_of_what_it_names() {
    let (map, problems) = own("[explore]\nnext-pair = [\"n\"]\nkeep = [\"k\"]\n");
    assert_eq!(problems, [""; 0]);
    assert_eq!(keys(&map, "explore", 2), "n");
    // Taken from the command that had it before.
    assert_eq!(command(&map, "explore", "k"), Some(4));
    assert_eq!(keys(&map, "explore", 3), "up");
    assert_eq!(keys(&map, "everywhere", 0), "q f10");
}

#[test]
fn two_commands_can_exchange_their_keys() {
    let (map, problems) = own("[explore]\nprevious-pair = [\"j\"]\nnext-pair = [\"k\"]\n");
    assert_eq!(problems, [""; 0]);
    assert_eq!(keys(&map, "explore", 2), "k");
    assert_eq!(keys(&map, "explore", 3), "j");
}

/// `help` is left without a key, `quit` has another one.
#[test]
fn a_key_is_taken_from_what_is_heard_at_the_same_time() {
    let (map, problems) = own("[explore]\nkeep = [\"q\"]\nnext-pair = [\"n\", \"?\"]\n");
    assert_eq!(keys(&map, "everywhere", 0), "f10");
    assert_eq!(keys(&map, "everywhere", 1), "");
    let expected = "own.toml:3:19: found `?`, expected a key for `help` of [everywhere] too, which \
                    is left without one";
    assert_eq!(problems, [expected]);
    for text in ["help = []", "help = [\"f1\"]"] {
        let (_, problems) = own(&format!("[everywhere]\n{text}\n[explore]\nkeep = [\"?\"]\n"));
        assert_eq!(problems, [""; 0]);
    }
}

#[test]
fn a_file_gives_a_key_once_to_what_is_heard_at_the_same_time() {
    let (map, problems) = own("[everywhere]\nhelp = [\"h\"]\n[explore]\nkeep = [\"h\", \"K\"]\n");
    let expected = "own.toml:4:9: found `h`, expected a key not yet used in [everywhere]; `help` has \
                    it (line 2)";
    assert_eq!(problems, [expected]);
    assert_eq!((keys(&map, "everywhere", 1), keys(&map, "explore", 4)), ("h".into(), "K".into()));
}

#[test]
fn what_must_keep_a_key_gets_it_back() {
    let (map, problems) = own("[always]\nleave = []\n");
    let expected =
        "own.toml:1:1: expected a key for `leave` of [always]; `ctrl-c` keeps its meaning";
    assert_eq!(problems, [expected]);
    assert_eq!(command(&map, "always", "ctrl-c"), Some(5));
    let (map, problems) = own("[explore]\nnext-pair = [\"ctrl-c\"]\n");
    let expected = "own.toml:2:14: found `ctrl-c`, expected another key; this one is for `leave` of \
                    [always]";
    assert_eq!(problems, [expected]);
    assert_eq!(command(&map, "always", "ctrl-c"), Some(5));
    // The mistake costs itself only.
    assert_eq!(keys(&map, "explore", 2), "down j");
    let given = own("[always]\nleave = [\"f9\"]\n[explore]\nkeep = [\"ctrl-c\"]\n");
    assert_eq!(given.1, [""; 0]);
    assert_eq!(command(&given.0, "explore", "ctrl-c"), Some(4));
}

#[test]
fn one_key_more_is_the_last_one_and_nobody_elses() {
    let mut map = built_in();
    map.add("explore", 4, "k".parse().unwrap());
    map.add("explore", 2, "down".parse().unwrap());
    let found = [2, 3, 4].map(|command| keys(&map, "explore", command));
    assert_eq!(found, ["j down", "up", "k"]);
}

#[test]
fn an_empty_list_takes_the_keys_away_and_a_mistake_does_not() {
    let (map, problems) = own("[explore]\nnext-pair = []\nprevious-pair = [\"upp\"]\n");
    assert_eq!(keys(&map, "explore", 2), "");
    assert_eq!(keys(&map, "explore", 3), "up k");
    assert_eq!(problems.len(), 1);
}

#[test]
fn one_message_for_each_mistake_and_the_rest_is_read() {
    let (map, problems) = own(concat!(
        "[explor]\n",
        "next-pair = [\"n\"]\n",
        "[everywhere]\n",
        "halp = [\"f1\"]\n",
        "zzz = [\"f1\"]\n",
        "help = [\"dwon\", 3, \"f1\"]\n",
        "quit = \"x\"\n",
        "[explore]\n",
        "keep = [\"é\", \"K\"]\n",
        "next-pair = [\"K\", \"n\", \"n\"]\n",
    ));
    let key = "a character or the name of a key, as in `q`, `S`, `pageup`, `f1`, `ctrl-c`, \
               `shift-left`";
    assert_eq!(
        problems,
        [
            "own.toml:1:2: found `explor`, expected a section; did you mean `explore`?".to_owned(),
            "own.toml:4:1: found `halp`, expected a command of [everywhere]; did you mean `help`?"
                .to_owned(),
            "own.toml:5:1: found `zzz`, expected a command of [everywhere]: `quit`, `help`".to_owned(),
            format!("own.toml:6:9: found `dwon`, expected {key}; did you mean `down`?"),
            "own.toml:6:17: found `3`, expected a key in quotes, as in \"j\"".to_owned(),
            "own.toml:7:8: found `x`, expected a list of keys, as in [\"down\", \"j\"]".to_owned(),
            "own.toml:10:14: found `K`, expected a key not yet used in [explore]; `keep` has it \
             (line 9)"
                .to_owned(),
            "own.toml:10:24: found `n`, expected a key not yet used in [explore]; `next-pair` has it \
             (line 10)"
                .to_owned(),
        ]
    );
    assert_eq!(keys(&map, "everywhere", 1), "f1");
    assert_eq!(keys(&map, "everywhere", 0), "q f10");
    assert_eq!(keys(&map, "explore", 4), "é K");
    assert_eq!(keys(&map, "explore", 2), "n");
}

#[test]
fn a_command_of_another_section_is_sent_there() {
    let (_, problems) = own("[explore]\nhelp = [\"f1\"]\n");
    let expected = "own.toml:2:1: found `help`, expected a command of [explore]; `help` is of \
                    [everywhere]";
    assert_eq!(problems, [expected]);
}

#[test]
fn a_section_is_a_table() {
    let (_, problems) = own("explore = 3\n");
    assert_eq!(problems, ["own.toml:1:11: found `3`, expected a section, written [explore]"]);
}

#[test]
fn a_broken_line_costs_that_line() {
    let cases = [
        ("next-pair [\"n\"]", "key with no value, expected `=`"),
        ("next-pair = j", "string values must be quoted, expected literal string"),
        ("next-pair = [\"n\"", "missing comma between array elements, expected `,`"),
        ("next-pair = [\"n]", "missing comma between array elements, expected `,`"),
        ("keep = [\"L\"]", "duplicate key"),
    ];
    for (line, message) in cases {
        let text = format!("[explore]\nkeep = [\"K\"]\n{line}\n[everywhere]\nhelp = [\"h\"]\n");
        let (map, problems) = own(&text);
        let expected = format!("own.toml:3:1: found `{line}`, expected valid TOML ({message})");
        assert_eq!(problems, [expected]);
        assert_eq!(keys(&map, "explore", 4), "K");
        assert_eq!(keys(&map, "explore", 2), "down j");
        assert_eq!(keys(&map, "everywhere", 1), "h");
    }
}

#[test]
fn a_file_of_another_kind_is_given_up_soon() {
    let (map, problems) = own(&"not a key file\n".repeat(10_000));
    assert_eq!(problems.len(), 50);
    assert_eq!(keys(&map, "explore", 2), "down j");
}

#[test]
fn no_text_is_too_strange() {
    for text in [
        "",
        "\u{feff}",
        "[",
        "[explore",
        "[explore]\nkeep = [\"",
        "\0",
        "=",
        "é = ",
        "[[explore]]\n",
    ] {
        let (map, _) = own(text);
        assert_eq!(keys(&map, "everywhere", 0), "q f10");
    }
}
