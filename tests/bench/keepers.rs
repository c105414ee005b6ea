//! Ten thousand keepers: read from their file, beside parsing it as bare TOML; filtered and sorted.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

use std::fs;
use std::path::PathBuf;

use divan::{Bencher, black_box};
use fretloom::answer::{KeeperOrder, KeepersQuestion};
use fretloom::store::{KeeperStore, KeptKeepers};
use ratio::Ratios;
use toml::de::DeTable;

const COUNT: usize = 10_000;

/// One of each kind, with practice, in a file as it is written.
const KINDS: &str = include_str!("../keepers/format-1.toml");

/// A file of so many keepers, of every kind in turn.
fn file_of(count: usize) -> String {
    let mut kinds = KINDS.split("\n[[keeper]]\n").skip(1).cycle();
    let mut text = format!("format = 1\nnext_id = {}\nchanged = 2026-05-06\n", count + 1);
    for id in 1..=count {
        let keys = kinds.next().unwrap().trim_end();
        let (_, keys) = keys.split_once('\n').unwrap();
        text += &format!("\n[[keeper]]\nid = {id}\n{keys}\n");
    }
    text
}

/// A data folder with that file, gone at the end.
struct Folder(PathBuf);

impl Folder {
    fn new(text: &str) -> Folder {
        let name = format!("fretloom-bench-keepers-{}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("keepers.toml"), text).unwrap();
        Folder(folder)
    }

    fn load(&self) -> KeptKeepers {
        KeeperStore::in_folder(black_box(&self.0)).load().unwrap()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// The hardest that a list is asked for: words that nothing has and some have, an order by name, a kind of chord.
fn questions() -> [(&'static str, KeepersQuestion); 3] {
    let question = KeepersQuestion::default();
    [
        (
            "two words, by name",
            KeepersQuestion {
                words: "low bridge".to_owned(),
                order: KeeperOrder::Name,
                ..question.clone()
            },
        ),
        (
            "what serves m7b5, by its day",
            KeepersQuestion {
                serves: "m7b5".parse().ok(),
                order: KeeperOrder::Due,
                ..question.clone()
            },
        ),
        ("all, by name", KeepersQuestion { order: KeeperOrder::Name, ..question }),
    ]
}

#[divan::bench]
fn loaded(bencher: Bencher<'_, '_>) {
    let folder = Folder::new(&file_of(COUNT));
    bencher.bench_local(|| folder.load());
}

fn main() {
    divan::main();
    let text = file_of(COUNT);
    let folder = Folder::new(&text);
    let kept = folder.load();
    assert_eq!((kept.list.len(), kept.remarks.len()), (COUNT, 0));
    let mut ratios = Ratios::to("the same text as bare TOML", || DeTable::parse(&text).unwrap())
        .and("read and made keepers of", || folder.load());
    for (name, question) in questions() {
        let list = &kept.list;
        ratios = ratios.and(name, move || question.among(black_box(list)));
    }
    ratios.print(&format!("{COUNT} keepers, {} KiB", text.len() / 1024));
}
