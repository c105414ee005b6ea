//! Files of source code as a tree of modules: what each declares, imports and re-exports.
//!
//! Test code is left out: whatever stands under `#[cfg(test)]` or `#[test]`, and its files.

use std::collections::HashMap;

use syn::visit::Visit;
use syn::{Attribute, Item, ItemMod, UseTree};

/// A file by its path from the root of the repository: `src/theory/chord.rs`.
pub(crate) type FileName = String;

/// The number of a module in [`House::modules`].
pub(crate) type ModuleId = usize;

/// All crates, each a tree of modules.
#[derive(Default)]
pub(crate) struct House {
    pub(crate) modules: Vec<Module>,
    /// The root of each crate that others can name.
    pub(crate) crates: HashMap<String, ModuleId>,
    /// Every file, parsed, without its test code.
    pub(crate) files: Vec<(FileName, syn::File)>,
}

/// A module: a file, or a part of one.
pub(crate) struct Module {
    pub(crate) file: FileName,
    pub(crate) root: ModuleId,
    pub(crate) parent: Option<ModuleId>,
    /// The items that it declares itself; an enum with its variants.
    pub(crate) items: HashMap<String, Vec<String>>,
    pub(crate) children: HashMap<String, ModuleId>,
    pub(crate) imports: Vec<Import>,
}

/// One leaf of a `use`.
#[derive(Clone)]
pub(crate) struct Import {
    pub(crate) path: Vec<String>,
    /// What it is called here; none for `*`.
    pub(crate) name: Option<String>,
}

/// A crate: the name by which others import it, and the file of its root.
pub(crate) struct Crate {
    pub(crate) name: &'static str,
    pub(crate) root: &'static str,
}

impl House {
    /// Reads the crates, from files that `read` gives by name.
    pub(crate) fn read(crates: &[Crate], read: &dyn Fn(&str) -> Option<String>) -> House {
        let mut house = House::default();
        for Crate { name, root } in crates {
            let id = house.modules.len();
            house.crates.insert((*name).to_owned(), id);
            let folder = root.rsplit_once('/').map_or("", |(folder, _)| folder);
            let content = parsed(root, read);
            house.add_module(None, id, root, folder, &content.items, read);
            house.files.push(((*root).to_owned(), content));
        }
        house
    }

    /// Adds a module with all below it; its child files lie in `folder`.
    fn add_module(
        &mut self,
        parent: Option<ModuleId>,
        root: ModuleId,
        file: &str,
        folder: &str,
        content: &[Item],
        read: &dyn Fn(&str) -> Option<String>,
    ) -> ModuleId {
        let id = self.modules.len();
        self.modules.push(Module {
            file: file.to_owned(),
            root,
            parent,
            items: declared(content),
            children: HashMap::new(),
            imports: imported(content),
        });
        for item in content {
            if let Item::Mod(child) = item {
                let added = self.add_child(id, root, file, folder, child, read);
                self.modules[id].children.insert(child.ident.to_string(), added);
            }
        }
        id
    }

    fn add_child(
        &mut self,
        parent: ModuleId,
        root: ModuleId,
        file: &str,
        folder: &str,
        child: &ItemMod,
        read: &dyn Fn(&str) -> Option<String>,
    ) -> ModuleId {
        let below = format!("{folder}/{}", child.ident);
        if let Some((_, content)) = &child.content {
            return self.add_module(Some(parent), root, file, &below, content, read);
        }
        let name = format!("{below}.rs");
        let content = parsed(&name, read);
        let id = self.add_module(Some(parent), root, &name, &below, &content.items, read);
        self.files.push((name, content));
        id
    }
}

/// # Panics
///
/// Where there is no such file, or it is not Rust.
fn parsed(name: &str, read: &dyn Fn(&str) -> Option<String>) -> syn::File {
    let text = read(name).unwrap_or_else(|| panic!("there is no file {name}"));
    let mut file = syn::parse_file(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
    file.items = without_tests(file.items);
    file
}

fn without_tests(items: Vec<Item>) -> Vec<Item> {
    let kept = items.into_iter().filter(|item| !is_test(attributes(item)));
    kept.map(|item| match item {
        Item::Mod(mut module) => {
            module.content = module.content.map(|(brace, items)| (brace, without_tests(items)));
            Item::Mod(module)
        }
        other => other,
    })
    .collect()
}

/// Is it there for tests alone?
pub(crate) fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let condition = || attribute.meta.require_list().map(|list| list.tokens.to_string());
        attribute.path().is_ident("test")
            || attribute.path().is_ident("cfg") && condition().is_ok_and(|cfg| cfg == "test")
    })
}

fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Const(item) => &item.attrs,
        Item::Enum(item) => &item.attrs,
        Item::Fn(item) => &item.attrs,
        Item::Impl(item) => &item.attrs,
        Item::Macro(item) => &item.attrs,
        Item::Mod(item) => &item.attrs,
        Item::Static(item) => &item.attrs,
        Item::Struct(item) => &item.attrs,
        Item::Trait(item) => &item.attrs,
        Item::Type(item) => &item.attrs,
        Item::Use(item) => &item.attrs,
        _ => &[],
    }
}

fn declared(content: &[Item]) -> HashMap<String, Vec<String>> {
    content.iter().filter_map(name_and_variants).collect()
}

fn name_and_variants(item: &Item) -> Option<(String, Vec<String>)> {
    let name = match item {
        Item::Const(item) => &item.ident,
        Item::Enum(item) => {
            let variants = item.variants.iter().map(|variant| variant.ident.to_string());
            return Some((item.ident.to_string(), variants.collect()));
        }
        Item::Fn(item) => &item.sig.ident,
        Item::Macro(item) => item.ident.as_ref()?,
        Item::Static(item) => &item.ident,
        Item::Struct(item) => &item.ident,
        Item::Trait(item) => &item.ident,
        Item::Type(item) => &item.ident,
        _ => return None,
    };
    Some((name.to_string(), Vec::new()))
}

/// Every import of the module itself, those inside its functions with them.
fn imported(content: &[Item]) -> Vec<Import> {
    struct Finder(Vec<Import>);
    impl<'a> Visit<'a> for Finder {
        fn visit_item_use(&mut self, item: &'a syn::ItemUse) {
            leaves(&item.tree, &mut Vec::new(), &mut self.0);
        }

        fn visit_item_mod(&mut self, _: &'a ItemMod) {}
    }
    let mut finder = Finder(Vec::new());
    content.iter().for_each(|item| finder.visit_item(item));
    finder.0
}

fn leaves(tree: &UseTree, path: &mut Vec<String>, found: &mut Vec<Import>) {
    match tree {
        UseTree::Path(part) => {
            path.push(part.ident.to_string());
            leaves(&part.tree, path, found);
            path.pop();
        }
        UseTree::Group(group) => group.items.iter().for_each(|tree| leaves(tree, path, found)),
        UseTree::Glob(_) => found.push(Import { path: path.clone(), name: None }),
        UseTree::Name(leaf) => leaf_of(path, leaf.ident.to_string(), None, found),
        UseTree::Rename(leaf) => {
            leaf_of(path, leaf.ident.to_string(), Some(leaf.rename.to_string()), found);
        }
    }
}

/// `{self}` names what stands before the braces.
fn leaf_of(path: &[String], last: String, name: Option<String>, found: &mut Vec<Import>) {
    let mut path = path.to_vec();
    if last != "self" {
        path.push(last);
    }
    let own = path.last().cloned();
    found.push(Import { path, name: name.or(own) });
}
