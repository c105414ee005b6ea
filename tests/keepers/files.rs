//! Files of every format, of players and of other versions.

use std::fs;

use fretloom::store::{
    Asked, KeeperChange, KeeperId, KeepersError, KeptThing, KeyAway, TriedBy, Try, Unit, Verdict,
};
use jiff::civil::date;

use crate::folder::{Folder, TODAY, ids, pair};

const FORMAT_1: &str = include_str!("format-1.toml");
const BY_HAND: &str = include_str!("by-hand.toml");

fn id(number: u32) -> KeeperId {
    KeeperId::new(number).unwrap()
}

/// This file is read for ever.
#[test]
fn a_file_of_format_1_is_read() {
    let folder = Folder::holding(FORMAT_1);
    let keepers = folder.load();
    assert_eq!(ids(&keepers), [1, 2, 3, 5, 7]);
    assert_eq!((keepers.remarks.len(), keepers.may_change), (0, true));
    let words: Vec<&str> = keepers.list.iter().map(|keeper| keeper.kept.what.word()).collect();
    assert_eq!(words, ["pair", "shape", "ladder", "line", "plan"]);
    let first = &keepers.list[0];
    assert_eq!(first.title(), "bridge, second time");
    assert_eq!(first.notes, "Begin on the low inversion.\nLeave the 7 to the bass.");
    assert_eq!(first.kept.on, Some(date(2026, 5, 4)));
    assert_eq!(first.kept.scale_notes.as_deref(), Some("G A B C# D E F#"));
    let practice = &first.practice;
    assert_eq!(practice.best().unwrap().a_minute(), 92);
    assert_eq!(
        (practice.last(), practice.next()),
        (Some(date(2026, 5, 6)), Some(date(2026, 5, 6)))
    );
    assert_eq!(practice.tries[0].verdict, Verdict::Again);
    assert_eq!(practice.tries[2].unit.key.semitones(), 5);
    // Where a try by ear does not say what was asked, it was the pair.
    assert_eq!(practice.tries[3].unit.by, TriedBy::Ear(Asked::Pair));
    let KeptThing::Shape(shape) = &keepers.list[1].kept.what else { panic!() };
    let places: Vec<String> = shape
        .places()
        .iter()
        .map(|place| format!("{}:{}", place.string.number(), place.fret.number()))
        .collect();
    assert_eq!(places, ["4:9", "3:7", "2:8"]);
    let capo = keepers.list[1].kept.tuning.as_ref().unwrap().capo();
    assert_eq!(capo.to_string(), "capo at 2 on 5-4-3");
    let KeptThing::Line(notes) = &keepers.list[3].kept.what else { panic!() };
    assert_eq!((notes[1].onset.to_f64(), notes[1].finger), (0.5, None));
    assert!(keepers.list[3].kept.tuning.as_ref().unwrap().has_courses());
    let KeptThing::Plan(plan) = &keepers.list[4].kept.what else { panic!() };
    assert!(plan.chart.starts_with("title = \"Slow lamp\"\n\n[[section]]"));
}

#[test]
fn an_answer_by_ear_is_written_beside_the_tries_and_newer_ones_stay() {
    let newer = "format = 1\nnext_id = 2\nchanged = 2026-11-28\n\n[[keeper]]\nid = 1\nchord = \"C\"\n\
                 tries = [\n  { on = 2026-05-04, by = \"ear\", asked = \"cadence\", verdict = \
                 \"got\" },\n  { on = 2026-05-04, by = \"foot\", verdict = \"got\" },\n]\n";
    let folder = Folder::holding(newer);
    assert_eq!(folder.load().list[0].practice.tries, [], "nobody knows what was tried");
    let mut said = Vec::new();
    for asked in Asked::ALL {
        let unit = Unit { key: KeyAway::up(7), by: TriedBy::Ear(asked), ..Unit::default() };
        let tried = Try {
            on: TODAY,
            unit,
            tempo: None,
            verdict: Verdict::Got,
            next: Some(date(2026, 11, 29)),
        };
        said.push(tried.clone());
        folder.store().change(id(1), &KeeperChange::Tried(tried), TODAY).unwrap();
    }
    assert_eq!(folder.load().list[0].practice.tries, said);
    let lines = "  { on = 2026-11-28, up = 7, by = \"ear\", verdict = \"got\", next = 2026-11-29 },\n  \
                 { on = 2026-11-28, up = 7, by = \"ear\", asked = \"qualities\", verdict = \"got\", \
                 next = 2026-11-29 },\n  { on = 2026-11-28, up = 7, by = \"ear\", asked = \
                 \"left-out\", verdict = \"got\", next = 2026-11-29 },\n]\n";
    let expected = newer.strip_suffix("]\n").unwrap().to_owned() + lines;
    assert_eq!(folder.keepers(), expected);
}

/// Nothing but what was changed is written otherwise.
#[test]
fn a_change_leaves_every_other_sign_of_the_file() {
    let folder = Folder::holding(FORMAT_1);
    let renamed = KeeperChange::Name(Some("outro".to_owned()));
    folder.store().change(id(7), &renamed, date(2026, 5, 6)).unwrap();
    let expected = FORMAT_1.replace("tags = [\"gig\"]\n", "tags = [\"gig\"]\nname = \"outro\"\n");
    assert_eq!(folder.keepers(), expected);
    folder.store().change(id(7), &KeeperChange::Name(None), date(2026, 5, 6)).unwrap();
    assert_eq!(folder.keepers(), FORMAT_1);
}

#[test]
fn a_list_written_by_hand_is_read_numbered_and_kept_beside() {
    let folder = Folder::holding(BY_HAND);
    let keepers = folder.load();
    assert_eq!(ids(&keepers), [1, 2]);
    assert_eq!(keepers.list[1].tags, ["later"]);
    assert_eq!(folder.keepers(), BY_HAND, "reading changes nothing");
    let tag = KeeperChange::Tag("tonight".to_owned());
    let after = folder.store().change(id(2), &tag, TODAY).unwrap();
    assert_eq!(after.keepers.list[1].tags, ["later", "tonight"]);
    assert_eq!(
        folder.keepers(),
        "# My own list, written on the train.\nformat = 1\nnext_id = 3\nchanged = 2026-11-28\n\n\
         [[keeper]]\nchord = \"Dm7\"\npair = \"F & G\" # the first that everybody learns\nid = 1\n\n\
         [[keeper]]\nscale = 'C whole tone'\npair = \"C+ & D+\"\ntags = [\n  \"later\", # when I have \
         the stretch\n  \"tonight\",\n]\nid = 2\n"
    );
    assert_eq!(folder.names(), ["keepers.backup.toml", "keepers.format-0.toml", "keepers.toml"]);
    assert_eq!(folder.text("keepers.format-0.toml"), BY_HAND);
    folder.store().add(pair("C"), TODAY).unwrap();
    assert_eq!(folder.ids(), [1, 2, 3]);
    assert_eq!(folder.text("keepers.format-0.toml"), BY_HAND, "that of the first time");
}

#[test]
fn what_is_not_understood_is_carried_along_word_for_word() {
    let strange = "format = 1\nnext_id = 4\nmetronome = 'wood'\n\n\
                   # a groove\n[[keeper]] # of a later version\nid = 1\nwhat = \"groove\"\n\
                   bars = '''\n[[keeper]]\n'''\n\n\
                   [later.table]\nx=1e3\n\n\
                   [[keeper]]\nid = 2\nchord = \"C\"\nfeel = [ 1,2 ]\ntries = [ { on = 2026-05-04, \
                   verdict = \"nearly\" } ]\nlimits = [\"one-position\", \"blindfolded\"]\n";
    let folder = Folder::holding(strange);
    assert_eq!(folder.ids(), [2]);
    assert_eq!(
        folder.said(),
        ["2 entries of the keepers are not understood; they stay as they are"]
    );
    let limits = KeeperChange::Limits(Vec::new());
    folder.store().change(id(2), &limits, TODAY).unwrap();
    folder.store().add(pair("D"), TODAY).unwrap();
    let tried = folder.load().list[1].practice.tries.len();
    assert_eq!(tried, 0);
    let now = folder.keepers();
    for piece in strange.split("\n\n").skip(1).take(2) {
        assert!(now.contains(piece), "{now}");
    }
    assert!(now.contains("metronome = 'wood'\n"), "{now}");
    assert!(
        now.contains("feel = [ 1,2 ]\ntries = [ { on = 2026-05-04, verdict = \"nearly\" } ]\n")
    );
    assert!(
        now.contains("limits = [ \"blindfolded\"]") || now.contains("limits = [\"blindfolded\"]")
    );
    assert_eq!(folder.ids(), [2, 4]);
}

#[test]
fn a_newer_file_can_be_read_and_is_left_alone() {
    for newer in [
        "format = 2\nnext_id = 9\n\n[[keeper]]\nid = 1\nchord = \"C\"\n",
        "format = 2\n[[keeper]]\nid = 1\nchord = \"C\"\n[[keeper]]\nid = ~ a sign of later TOML ~\n",
        "format = 2\nkeeper = \"elsewhere\"\n",
    ] {
        let folder = Folder::holding(newer);
        let keepers = folder.load();
        assert!(!keepers.may_change);
        assert_eq!(keepers.list.len(), usize::from(newer.contains("\"C\"")));
        let said = folder.said();
        assert!(said[0].starts_with("the keepers are of format 2, expected 1"), "{said:?}");
        let refused = folder.store().add(pair("D"), TODAY).unwrap_err();
        assert!(matches!(refused, KeepersError::Newer { format: 2, known: 1 }));
        assert_eq!(
            (folder.keepers().as_str(), folder.names()),
            (newer, vec!["keepers.toml".to_owned()])
        );
    }
}

#[test]
fn a_file_that_cannot_be_parsed_is_moved_and_the_backup_is_loaded() {
    let folder = Folder::holding(FORMAT_1);
    folder.store().add(pair("C"), TODAY).unwrap();
    assert_eq!(folder.text("keepers.backup.toml"), FORMAT_1);
    for (count, broken) in
        [(1, "id = 41\n[[keeper]\n".as_bytes()), (2, b"next_id = 77\n\xff"), (3, b"")]
    {
        if count == 3 {
            break;
        }
        folder.put("keepers.toml", broken);
        let keepers = folder.load();
        assert_eq!(ids(&keepers), [1, 2, 3, 5, 7]);
        let said = folder.in_words(&keepers);
        let why = ["line 2, column 10", "it is not UTF-8 text"][count - 1];
        assert!(said[0].contains(why), "{said:?}");
        assert!(said[0].ends_with(&format!("that file is now keepers.unread-{count}.toml")));
        assert_eq!(said[1], "5 keepers come from the backup keepers.backup.toml");
        let aside = format!("keepers.unread-{count}.toml");
        assert_eq!(fs::read(folder.path().join(aside)).unwrap(), broken);
        assert_eq!(folder.said(), [""; 0], "it is said once");
    }
    // No number of the files that were lost is given again.
    assert_eq!(folder.store().add(pair("C"), TODAY).unwrap().done.number(), 77);
}

#[test]
fn without_a_backup_one_begins_anew_and_nothing_is_lost() {
    let folder = Folder::holding("[[keeper]]\nid = 12\nchord = \"C\n");
    let keepers = folder.load();
    assert_eq!(keepers.list, []);
    assert_eq!(
        folder.in_words(&keepers)[1],
        "there is no backup that can be read; nothing is kept now"
    );
    assert_eq!(folder.text("keepers.unread-1.toml"), "[[keeper]]\nid = 12\nchord = \"C\n");
    assert_eq!(folder.store().add(pair("C"), TODAY).unwrap().done.number(), 13);
}

#[test]
fn the_backup_is_that_of_the_first_change_of_a_day() {
    let folder = Folder::new();
    folder.store().add(pair("C"), TODAY).unwrap();
    assert_eq!(folder.names(), ["keepers.toml"], "there was nothing before");
    let first = folder.keepers();
    let tomorrow = TODAY.tomorrow().unwrap();
    for chord in ["D", "E"] {
        folder.store().add(pair(chord), tomorrow).unwrap();
        assert_eq!(folder.text("keepers.backup.toml"), first);
    }
    let second = folder.keepers();
    // A clock that is set back makes another day too.
    folder.store().add(pair("F"), TODAY).unwrap();
    assert_eq!(folder.text("keepers.backup.toml"), second);
}

#[test]
fn two_keepers_by_one_number_both_stay() {
    let folder = Folder::holding(
        "format = 1\n[[keeper]]\nid = 3\nchord = \"C\"\n[[keeper]]\nid = 3\nchord = \"D\"\n",
    );
    assert_eq!(folder.ids(), [3, 4]);
    folder.store().add(pair("E"), TODAY).unwrap();
    assert_eq!(folder.ids(), [3, 4, 5]);
    assert!(folder.keepers().contains("id = 4\nchord = \"D\""), "{}", folder.keepers());
}

#[test]
fn numbers_at_the_edge_are_refused_and_not_wrapped() {
    let folder = Folder::holding("format = 1\nnext_id = 4294967295\n");
    assert!(matches!(folder.store().add(pair("C"), TODAY), Err(KeepersError::NoNumberLeft)));
    for next in ["-1", "0", "99999999999", "\"x\"", "1.5"] {
        let folder = Folder::holding(&format!("format = 1\nnext_id = {next}\n"));
        assert_eq!(folder.store().add(pair("C"), TODAY).unwrap().done.number(), 1, "{next}");
    }
}
