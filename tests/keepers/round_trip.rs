//! What is kept comes back.

use fretloom::store::{Beats, Changed, Keeper, KeeperChange, Kept, Limit};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::folder::{Folder, TODAY};
use crate::made_up::{keeper, one_try, words};

fn change() -> impl Strategy<Value = KeeperChange> {
    prop_oneof![
        proptest::option::of(words()).prop_map(KeeperChange::Name),
        words().prop_map(KeeperChange::Notes),
        words().prop_map(KeeperChange::Tag),
        words().prop_map(KeeperChange::Untag),
        Just(KeeperChange::Start(Beats::new(66))),
        Just(KeeperChange::Start(None)),
        Just(KeeperChange::Keys(Some("tones".to_owned()))),
        Just(KeeperChange::Sets(vec!["5-4-3".parse().unwrap()])),
        Just(KeeperChange::Sets(Vec::new())),
        Just(KeeperChange::Limits(vec![Limit::OnePosition])),
        one_try().prop_map(KeeperChange::Tried),
    ]
}

/// What a change means, without a file.
fn by_hand(mut keeper: Keeper, change: &KeeperChange) -> Keeper {
    match change.clone() {
        KeeperChange::Name(name) => keeper.name = name,
        KeeperChange::Notes(notes) => keeper.notes = notes,
        KeeperChange::Tag(tag) if keeper.tags.contains(&tag) => {}
        KeeperChange::Tag(tag) => keeper.tags.push(tag),
        KeeperChange::Untag(tag) => keeper.tags.retain(|known| *known != tag),
        KeeperChange::Start(start) => keeper.practice.start = start,
        KeeperChange::Keys(keys) => keeper.practice.keys = keys,
        KeeperChange::Sets(sets) => keeper.practice.sets = sets,
        KeeperChange::Limits(limits) => keeper.practice.limits = limits,
        KeeperChange::Tried(tried) => keeper.practice.tries.push(tried),
        KeeperChange::Untried(tried) => {
            let last = keeper.practice.tries.iter().rposition(|known| *known == tried);
            last.into_iter().for_each(|index| {
                keeper.practice.tries.remove(index);
            });
        }
    }
    keeper
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_kind_of_keeper_comes_back_as_it_was(all in vec(keeper(), 1..4)) {
        let folder = Folder::new();
        let mut expected = Vec::new();
        for new in all {
            let after = folder.store().add(new.clone(), TODAY).unwrap();
            let kept = Kept { on: Some(TODAY), ..new.kept.clone() };
            expected.push(Keeper::new(after.done, fretloom::store::NewKeeper { kept, ..new }));
            prop_assert_eq!(&after.keepers.list, &expected);
        }
        let loaded = folder.load();
        prop_assert_eq!(loaded.list, expected);
        prop_assert_eq!(loaded.remarks, vec![]);
        // Whoever reads TOML reads it.
        prop_assert!(folder.keepers().parse::<toml::Table>().is_ok());
    }

    #[test]
    fn a_change_does_what_it_says_and_can_be_taken_back(new in keeper(), change in change()) {
        let folder = Folder::new();
        let store = folder.store();
        store.add(new.clone(), TODAY).unwrap();
        let id = store.add(new, TODAY).unwrap().done;
        let before = folder.load();
        let after = store.change(id, &change, TODAY).unwrap();
        prop_assert_eq!(&after.keepers.list[0], &before.list[0]);
        let expected = by_hand(before.list[1].clone(), &change);
        prop_assert_eq!(&after.keepers.list[1], &expected);
        let Changed::Done { before: was } = after.done else { panic!("it is there") };
        prop_assert_eq!(&*was, &before.list[1]);
        let undone = store.change(id, &change.undone(&was), TODAY).unwrap();
        let mut back = undone.keepers.list;
        // A tag that comes back stands last.
        back[1].tags.sort();
        let mut was = *was;
        was.tags.sort();
        prop_assert_eq!(&back[1], &was);
    }
}
