//! Operations of one program, of several at once, and on a disk that takes nothing.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::thread;

use fretloom::store::{Changed, KeeperChange, KeepersError, Moved, Removed, Restored};

use crate::folder::{Folder, TODAY, ids, pair};

fn name(name: &str) -> KeeperChange {
    KeeperChange::Name(Some(name.to_owned()))
}

#[test]
fn what_is_removed_comes_back_by_its_number_and_in_its_place() {
    let folder = Folder::new();
    let store = folder.store();
    for chord in ["C", "D", "E"] {
        store.add(pair(chord), TODAY).unwrap();
    }
    for index in 0..3 {
        let before = folder.load();
        let text = folder.keepers();
        let Removed::Done(removed) = store.remove(&before.list[index], TODAY).unwrap().done else {
            panic!("nobody else is there")
        };
        assert_eq!(folder.load().list.len(), 2);
        assert_eq!(store.remove(&before.list[index], TODAY).unwrap().done, Removed::Gone);
        assert_eq!(store.restore(&removed, TODAY).unwrap().done, Restored::Done);
        assert_eq!(folder.keepers(), text);
        assert_eq!(store.restore(&removed, TODAY).unwrap().done, Restored::There);
    }
    let last = folder.load().list.pop().unwrap();
    store.remove(&last, TODAY).unwrap();
    assert_eq!(store.add(pair("F"), TODAY).unwrap().done.number(), 4, "3 is never given again");
}

#[test]
fn one_that_another_program_has_changed_is_removed_only_when_it_has_been_seen() {
    let folder = Folder::new();
    let (here, there) = (folder.store(), folder.store());
    here.add(pair("C"), TODAY).unwrap();
    let seen = folder.load().list.remove(0);
    there.change(seen.id, &name("mine"), TODAY).unwrap();
    let Removed::ChangedMeanwhile(now) = here.remove(&seen, TODAY).unwrap().done else { panic!() };
    assert_eq!(now.name.as_deref(), Some("mine"));
    assert_eq!(folder.ids(), [1]);
    assert!(matches!(here.remove(&now, TODAY).unwrap().done, Removed::Done(_)));
    assert_eq!(there.change(seen.id, &name("late"), TODAY).unwrap().done, Changed::Gone);
}

#[test]
fn two_programs_change_different_fields_and_both_changes_stay() {
    let folder = Folder::new();
    let (here, there) = (folder.store(), folder.store());
    let id = here.add(pair("C"), TODAY).unwrap().done;
    here.change(id, &name("mine"), TODAY).unwrap();
    there.change(id, &KeeperChange::Notes("slowly".to_owned()), TODAY).unwrap();
    here.change(id, &KeeperChange::Tag("a".to_owned()), TODAY).unwrap();
    there.change(id, &KeeperChange::Tag("b".to_owned()), TODAY).unwrap();
    let kept = folder.load().list.remove(0);
    assert_eq!(kept.name.as_deref(), Some("mine"));
    assert_eq!((kept.notes.as_str(), kept.tags), ("slowly", vec!["a".to_owned(), "b".to_owned()]));
}

#[test]
fn the_order_is_the_players() {
    let folder = Folder::new();
    let store = folder.store();
    let mut all = Vec::new();
    for chord in ["C", "D", "E", "F"] {
        all.push(store.add(pair(chord), TODAY).unwrap().done);
    }
    for (moved, before, expected) in [
        (3, Some(0), [4, 1, 2, 3]),
        (0, None, [4, 2, 3, 1]),
        (1, Some(1), [4, 2, 3, 1]),
        (1, Some(0), [4, 2, 3, 1]),
        (3, Some(2), [2, 4, 3, 1]),
    ] {
        let after = store.move_before(all[moved], before.map(|index| all[index]), TODAY).unwrap();
        assert_eq!((after.done, folder.ids()), (Moved::Done, ids(&after.keepers)));
        if (moved, before) != (1, Some(0)) {
            assert_eq!(ids(&after.keepers), expected);
        } else {
            assert_eq!(ids(&after.keepers), [4, 3, 2, 1]);
            store.move_before(all[1], Some(all[2]), TODAY).unwrap();
        }
    }
}

#[test]
fn what_two_programs_keep_at_once_all_survives() {
    let folder = Folder::new();
    let given: BTreeSet<u32> = thread::scope(|scope| {
        let threads: Vec<_> = (0..4)
            .map(|number| {
                let store = folder.store();
                scope.spawn(move || {
                    let keep = |turn: u32| {
                        let kept = store.add(pair(&format!("C{number}{turn}")), TODAY).unwrap();
                        kept.done.number()
                    };
                    (0..25).map(keep).collect::<Vec<u32>>()
                })
            })
            .collect();
        threads.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    });
    assert_eq!(given, (1..=100).collect());
    assert_eq!(folder.ids().into_iter().collect::<BTreeSet<u32>>(), given);
}

#[test]
fn whoever_finds_the_lock_taken_waits_two_seconds_and_says_so() {
    let folder = Folder::new();
    folder.store().add(pair("C"), TODAY).unwrap();
    let lock = File::options().write(true).open(folder.path().join("keepers.lock")).unwrap();
    fs4::FileExt::lock(&lock).unwrap();
    let asked = std::time::Instant::now();
    let refused = folder.store().add(pair("D"), TODAY).unwrap_err();
    assert!(matches!(refused, KeepersError::Busy), "{refused}");
    let waited = asked.elapsed().as_secs_f64();
    assert!((2.0..10.0).contains(&waited), "{waited} s");
    assert_eq!(folder.ids(), [1], "reading waits for nobody");
    thread::scope(|scope| {
        scope.spawn(|| {
            thread::sleep(std::time::Duration::from_millis(300));
            drop(lock);
        });
        folder.store().add(pair("D"), TODAY).unwrap();
    });
    assert_eq!(folder.ids(), [1, 2]);
}

#[test]
fn a_file_that_is_too_long_is_neither_read_nor_written() {
    let folder = Folder::new();
    let mut long = pair("C");
    long.notes = "x".repeat(32 * 1024 * 1024);
    let said = folder.store().add(long, TODAY).unwrap_err().to_string();
    assert!(said.ends_with("expected a file of at most 32 MiB"), "{said}");
    assert_eq!(folder.names(), [""; 0]);
    folder.put("keepers.toml", "#".repeat(32 * 1024 * 1024 + 1));
    let said = folder.store().load().unwrap_err().to_string();
    assert!(said.contains("it is longer than 32 MiB"), "{said}");
    assert_eq!(folder.names(), ["keepers.toml"]);
}

#[test]
fn what_is_no_file_is_told_and_left() {
    let folder = Folder::new();
    fs::create_dir(folder.path().join("keepers.toml")).unwrap();
    for said in [
        folder.store().load().map(|_| ()).unwrap_err(),
        folder.store().add(pair("C"), TODAY).map(|_| ()).unwrap_err(),
    ] {
        assert!(said.to_string().contains("it is not a file"), "{said}");
    }
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_rights_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let (folder, elsewhere) = (Folder::new(), Folder::new());
    folder.store().add(pair("C"), TODAY).unwrap();
    let (link, real) = (folder.path().join("keepers.toml"), elsewhere.path().join("mine.toml"));
    fs::rename(&link, &real).unwrap();
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).unwrap();
    symlink(&real, &link).unwrap();
    folder.store().add(pair("D"), TODAY).unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o640);
    assert_eq!(folder.ids(), [1, 2]);
    assert_eq!(elsewhere.names(), ["mine.toml"]);
}
