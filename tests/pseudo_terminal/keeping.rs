//! What is kept from a real terminal, by two programs at once, and by one that is left at once.

use super::program::{Home, Said};
use super::pty::{DEADLINE, Session};
use super::{FIRST_CHORD, wait_until_gone};

fn start(home: &Home) -> Session {
    let data = home.folder().join("data");
    let session = Session::start(&[], 24, 80, &[("XDG_DATA_HOME", data.to_str().unwrap())]);
    session.wait_for(FIRST_CHORD, DEADLINE);
    session
}

fn listed(home: &Home) -> Said {
    home.run(&["keepers"])
}

/// It is told as kept when it is on the disk, and each program sees what the other one has kept.
#[test]
fn two_programs_keep_at_once() {
    let home = Home::new();
    let (mut one, mut other) = (start(&home), start(&home));
    one.send("!");
    one.wait_for("kept as 1: G & A over Gmaj7", DEADLINE);
    assert!(listed(&home).out.contains("G & A over Gmaj7#11"), "{}", listed(&home).out);
    other.send("j!");
    other.wait_for("kept as 2:", DEADLINE);
    one.send(";");
    one.wait_for("2 kept", DEADLINE);
    // Each takes back its own.
    other.send("z");
    other.wait_for("keeper 2 is removed again", DEADLINE);
    one.send(";;");
    one.wait_for("1 kept", DEADLINE);
    one.send("q");
    other.send("q");
    assert_eq!([one.wait_exit(DEADLINE), other.wait_exit(DEADLINE)], [0, 0]);
}

/// Who keeps something and leaves with the next key has kept it.
#[test]
fn what_is_kept_last_is_kept() {
    let home = Home::new();
    for count in 1..=5 {
        let mut session = start(&home);
        session.send("!q");
        assert_eq!(session.wait_exit(DEADLINE), 0);
        let lines = listed(&home).out.lines().filter(|line| line.contains("pair")).count();
        assert_eq!(lines, count, "{}", listed(&home).out);
    }
}

/// A turn of practice begins and ends; nothing sounds before it is asked for.
#[test]
fn the_list_of_today_is_practised() {
    let home = Home::new();
    let mut session = start(&home);
    session.send("!;");
    session.wait_for("1 kept", DEADLINE);
    session.send("p");
    session.wait_for("Space begins", DEADLINE);
    session.wait_for("Warm up, rest, and stop when it hurts", DEADLINE);
    session.send(" ");
    wait_until_gone(&session, "Space begins");
    session.send(" ");
    session.wait_for("got it 1 of 1", DEADLINE);
    session.send("\x1b");
    session.wait_for("1 kept", DEADLINE);
    assert!(listed(&home).out.contains("pair"), "{}", listed(&home).out);
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
}
