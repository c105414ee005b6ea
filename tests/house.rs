//! The structure of the house: no two files import one another in a circle, arrows between rooms only
//! point down, and how large things are.
//!
//! The code under `src/` is read with its `use`s and paths; see `house/arrows.rs` for what counts.
//! `cargo test --test house -- --nocapture figures` prints the figures.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "the functions of a test are a test too, and one prints what it measured"
)]

#[path = "house/arrows.rs"]
mod arrows;
#[path = "house/circles.rs"]
mod circles;
#[path = "house/figures.rs"]
mod figures;
#[path = "house/rooms.rs"]
mod rooms;
#[path = "house/source.rs"]
mod source;
#[path = "house/trials.rs"]
mod trials;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use arrows::{Arrows, arrows};
use circles::{circles, way};
use figures::Figures;
use rooms::points_up;
use source::{Crate, House};

const CRATES: &[Crate] = &[
    Crate { name: "fretloom_theory", root: "src/theory/lib.rs" },
    Crate { name: "fretloom_fretboard", root: "src/fretboard/lib.rs" },
    Crate { name: "fretloom", root: "src/lib.rs" },
    Crate { name: "the program", root: "src/main.rs" },
];

/// As cargo says it now, so that this program, once built, can be shown another tree.
fn root() -> PathBuf {
    std::env::var_os("CARGO_MANIFEST_DIR").map_or_else(|| ".".into(), PathBuf::from)
}

fn read(name: &str) -> Option<String> {
    std::fs::read_to_string(root().join(Path::new(name))).ok()
}

fn all_arrows() -> Arrows {
    arrows(&House::read(CRATES, &read))
}

#[test]
fn no_two_files_import_one_another_in_a_circle() {
    let arrows = all_arrows();
    let files = circles(&arrows).into_iter().flatten();
    let circles: Vec<String> = files.map(|file| way(&arrows, &file).join(" -> ")).collect();
    assert!(circles.is_empty(), "these must not be:\n{}\n", circles.join("\n"));
}

#[test]
fn arrows_between_rooms_only_point_down() {
    let arrows = all_arrows();
    let all = arrows.iter().flat_map(|(from, all)| all.iter().map(move |to| (from, to)));
    let up = all.filter(|(from, to)| points_up(from, to));
    let up: Vec<String> = up.map(|(from, to)| format!("{from} -> {to}")).collect();
    assert!(up.is_empty(), "these must not be:\n{}\n", up.join("\n"));
}

#[test]
fn figures() {
    let house = House::read(CRATES, &read);
    let arrows = arrows(&house);
    let circles = circles(&arrows);
    let all = arrows.iter().flat_map(|(from, all)| all.iter().map(move |to| (from, to)));
    let up = all.filter(|(from, to)| points_up(from, to)).count();
    let in_circles: usize = circles.iter().map(BTreeSet::len).sum();
    let figures = Figures::of(&house, &read);
    let (of, name, fields) = &figures.largest_struct;
    let (file, lines) = &figures.largest_file;
    let functions = &figures.functions;
    let (median, ..) = functions[functions.len() / 2];
    let (longest, there, function) = functions.last().unwrap();
    println!("files                        {:>5}", house.files.len());
    println!(
        "arrows between files         {:>5}",
        arrows.values().map(BTreeSet::len).sum::<usize>()
    );
    println!("circles                      {:>5}  ({in_circles} files)", circles.len());
    println!("arrows that run up           {up:>5}");
    println!("fields of the largest struct {fields:>5}  ({name} in {of})");
    println!("lines of the largest file    {lines:>5}  ({file})");
    println!("functions                    {:>5}", functions.len());
    println!("lines of the median function {median:>5}");
    println!("lines of the longest         {longest:>5}  ({function} in {there})");
}
