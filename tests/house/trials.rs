//! The checks tried on a few small sources.

use std::collections::BTreeSet;

use crate::arrows::{Arrows, arrows};
use crate::circles::{circles, way};
use crate::figures::Figures;
use crate::source::{Crate, House};

fn reader<'a>(files: &'a [(&str, &str)]) -> impl Fn(&str) -> Option<String> + 'a {
    move |name| files.iter().find(|file| file.0 == name).map(|file| file.1.to_owned())
}

fn house(files: &[(&str, &str)]) -> House {
    let (name, root) = ("house", "src/lib.rs");
    let first = Crate { name, root };
    let other = files.iter().any(|file| file.0 == "other/lib.rs");
    let second = other.then_some(Crate { name: "other", root: "other/lib.rs" });
    let crates: Vec<Crate> = second.into_iter().chain([first]).collect();
    House::read(&crates, &reader(files))
}

fn arrows_of(files: &[(&str, &str)]) -> Arrows {
    arrows(&house(files))
}

/// The arrows that leave one file.
fn from(name: &str, files: &[(&str, &str)]) -> Vec<String> {
    arrows_of(files)[name].iter().cloned().collect()
}

fn set(files: &[&str]) -> BTreeSet<String> {
    files.iter().map(|file| (*file).to_owned()).collect()
}

const ROOT: (&str, &str) = ("src/lib.rs", "mod a; mod b; mod c;");

#[test]
fn an_import_leads_to_the_file_that_declares() {
    let files = [
        ROOT,
        ("src/a.rs", "use crate::b::B; fn f(b: B) {}"),
        ("src/b.rs", "pub(crate) struct B; mod inner { use super::B; }"),
        ("src/c.rs", "fn f() { crate::a::f(); let b = super::b::B; }"),
    ];
    assert_eq!(from("src/a.rs", &files), ["src/b.rs"]);
    assert_eq!(from("src/b.rs", &files), Vec::<String>::new());
    assert_eq!(from("src/c.rs", &files), ["src/a.rs", "src/b.rs"]);
    assert_eq!(circles(&arrows_of(&files)), []);
}

/// `b` re-exports what `b/inner` declares; who imports it from `b` imports the inner file.
#[test]
fn a_re_export_and_a_glob_are_followed() {
    let files = [
        ROOT,
        ("src/a.rs", "use crate::b::*; fn f(it: Inner) {}"),
        ("src/b.rs", "mod inner; pub use inner::Inner;"),
        ("src/b/inner.rs", "pub struct Inner;"),
        ("src/c.rs", "use crate::b as short; fn f(it: short::Inner) {}"),
    ];
    assert_eq!(from("src/a.rs", &files), ["src/b.rs", "src/b/inner.rs"]);
    assert_eq!(from("src/b.rs", &files), ["src/b/inner.rs"]);
    assert_eq!(from("src/c.rs", &files), ["src/b/inner.rs"]);
}

#[test]
fn a_circle_through_a_re_export_is_found() {
    let files = [
        ROOT,
        ("src/a.rs", "use crate::b::Inner; pub struct A;"),
        ("src/b.rs", "mod inner; pub use inner::Inner; pub use crate::a::A;"),
        // By its parent's name, which declares nothing: the circle is that of `a` and `inner`.
        ("src/b/inner.rs", "use super::A; pub struct Inner(A);"),
        ("src/c.rs", "use crate::a::A;"),
    ];
    let arrows = arrows_of(&files);
    assert_eq!(circles(&arrows), [set(&["src/a.rs", "src/b/inner.rs"])]);
    assert_eq!(way(&arrows, "src/a.rs"), ["src/a.rs", "src/b/inner.rs", "src/a.rs"]);
}

#[test]
fn a_child_that_imports_what_its_parent_declares_and_re_exports_beside_it_is_a_circle() {
    let circle = [
        ("src/lib.rs", "mod a;"),
        ("src/a.rs", "mod child; pub use child::Child; pub struct A;"),
        ("src/a/child.rs", "use super::A; pub struct Child(A);"),
    ];
    assert_eq!(circles(&arrows_of(&circle)), [set(&["src/a.rs", "src/a/child.rs"])]);
    let none = [circle[0], ("src/a.rs", "mod child; pub struct A;"), circle[2]];
    assert_eq!(circles(&arrows_of(&none)), []);
}

#[test]
fn longer_circles_are_whole() {
    let files = [
        ROOT,
        ("src/a.rs", "pub struct A(crate::b::B);"),
        ("src/b.rs", "pub struct B(Box<super::c::C>);"),
        ("src/c.rs", "pub struct C(Vec<crate::a::A>);"),
    ];
    assert_eq!(circles(&arrows_of(&files)), [set(&["src/a.rs", "src/b.rs", "src/c.rs"])]);
}

#[test]
fn macros_attributes_functions_and_variants_are_read() {
    let files = [
        ROOT,
        ("src/a.rs", "pub enum E { One } pub fn f() {}"),
        ("src/b.rs", "fn g() { format!(\"{}\", vec![crate::a::f(), 1]); }"),
        ("src/c.rs", "fn g() { use super::a::E::*; let it = One; }"),
    ];
    assert_eq!(from("src/b.rs", &files), ["src/a.rs"]);
    assert_eq!(from("src/c.rs", &files), ["src/a.rs"]);
    let attribute =
        [files[0], files[1], ("src/b.rs", "#[arg(value = crate::a::f)] struct S;"), files[3]];
    assert_eq!(from("src/b.rs", &attribute), ["src/a.rs"]);
}

#[test]
fn another_crate_is_reached_by_its_name() {
    let files = [
        ("other/lib.rs", "mod deep; pub use deep::Deep;"),
        ("other/deep.rs", "pub struct Deep;"),
        ("src/lib.rs", "mod a;"),
        ("src/a.rs", "use other::Deep; use std::fmt; fn f(it: fmt::Error) {}"),
    ];
    assert_eq!(from("src/a.rs", &files), ["other/deep.rs"]);
}

#[test]
fn tests_are_left_out() {
    let files = [
        ROOT,
        ("src/a.rs", "#[cfg(test)] mod tests; #[cfg(test)] use crate::b::B; pub struct A;"),
        ("src/b.rs", "pub struct B; #[cfg(test)] mod tests { use crate::a::A; }"),
        ("src/c.rs", "struct C; impl C { #[cfg(test)] fn f(a: crate::a::A) {} }"),
    ];
    let arrows = arrows_of(&files);
    assert!(arrows.values().all(BTreeSet::is_empty), "{arrows:?}");
}

#[test]
fn lines_of_code_and_fields_are_counted() {
    let files = [
        ("src/lib.rs", "mod a;"),
        (
            "src/a.rs",
            "//! Head.\n\nstruct A { x: u8, y: u8 }\n\n/// Doc.\nfn f() {\n    g();\n}\n\nfn g() {}\n\
             #[cfg(test)]\nmod tests {\n    fn long() {\n\n\n\n    }\n}\n",
        ),
    ];
    let figures = Figures::of(&house(&files), &reader(&files));
    assert_eq!(figures.largest_struct, ("src/a.rs".to_owned(), "A".to_owned(), 2));
    assert_eq!(figures.largest_file, ("src/a.rs".to_owned(), 5));
    let lines: Vec<usize> = figures.functions.iter().map(|function| function.0).collect();
    assert_eq!(lines, [1, 3]);
}
