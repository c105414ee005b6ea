//! Who imports whom: from a file to each file that declares what it names.
//!
//! Each `use` and each path in code, types, patterns and macros is followed through re-exports and
//! globs to the declaration. A module that is only named on the way counts for nothing. Methods
//! are found by the compiler and not here; `Type::function` counts as its type.

use std::collections::{BTreeMap, BTreeSet, HashSet};

use proc_macro2::{TokenStream, TokenTree};
use syn::visit::{self, Visit};

use crate::source::{FileName, House, Import, ModuleId, is_test};

/// The files that each file imports; every file is a key.
pub(crate) type Arrows = BTreeMap<FileName, BTreeSet<FileName>>;

/// What a path leads to.
#[derive(Clone, PartialEq, Eq, Hash)]
enum Target {
    Module(ModuleId),
    /// An item that this module declares, and its name.
    Item(ModuleId, String),
}

impl Target {
    /// The module itself, or the one that declares the item.
    fn module(&self) -> ModuleId {
        match self {
            Target::Module(module) | Target::Item(module, _) => *module,
        }
    }
}

/// The arrows of all files.
pub(crate) fn arrows(house: &House) -> Arrows {
    let mut arrows: Arrows =
        house.files.iter().map(|(name, _)| (name.clone(), BTreeSet::new())).collect();
    for (id, module) in house.modules.iter().enumerate() {
        let mut add = |path: &[String]| {
            let from = arrows.entry(module.file.clone()).or_default();
            from.extend(house.files_of(id, path).into_iter().filter(|to| *to != module.file));
        };
        module.imports.iter().for_each(|import| add(&import.path));
        // A glob imports all that the module declares.
        let globs = module.imports.iter().filter(|import| import.name.is_none());
        let all = globs.flat_map(|glob| house.targets(id, &glob.path, &mut HashSet::new()));
        let files = all.map(|target| house.modules[target.module()].file.clone());
        let files = files.filter(|file| *file != module.file);
        arrows.entry(module.file.clone()).or_default().extend(files);
    }
    for (name, file) in &house.files {
        let root = house.modules.iter().position(|module| module.file == *name);
        let mut paths = Paths { house, module: root.unwrap_or_default(), found: BTreeSet::new() };
        paths.visit_file(file);
        paths.found.remove(name);
        arrows.entry(name.clone()).or_default().extend(paths.found);
    }
    arrows
}

impl House {
    /// The files that declare what a path names, seen from a module.
    fn files_of(&self, module: ModuleId, path: &[String]) -> BTreeSet<FileName> {
        let targets = self.targets(module, path, &mut HashSet::new());
        let items = targets.into_iter().filter_map(|target| match target {
            Target::Module(_) => None,
            Target::Item(module, _) => Some(self.modules[module].file.clone()),
        });
        items.collect()
    }

    fn targets(
        &self,
        module: ModuleId,
        path: &[String],
        seen: &mut HashSet<(ModuleId, String)>,
    ) -> HashSet<Target> {
        let Some((first, rest)) = path.split_first() else { return HashSet::new() };
        let mut targets = self.first(module, first, seen);
        for name in rest {
            let next = targets.into_iter().flat_map(|target| match target {
                Target::Module(above) if name == "super" => self.above(above),
                Target::Module(id) => self.named(id, name, seen),
                item @ Target::Item(..) => HashSet::from([item]),
            });
            targets = next.collect();
        }
        targets
    }

    /// Where the first name of a path leads.
    fn first(
        &self,
        module: ModuleId,
        name: &str,
        seen: &mut HashSet<(ModuleId, String)>,
    ) -> HashSet<Target> {
        match name {
            "crate" => HashSet::from([Target::Module(self.modules[module].root)]),
            "self" => HashSet::from([Target::Module(module)]),
            "super" => self.above(module),
            _ => {
                let named = self.named(module, name, seen);
                let other = self.crates.get(name).map(|root| Target::Module(*root));
                if named.is_empty() { other.into_iter().collect() } else { named }
            }
        }
    }

    fn above(&self, module: ModuleId) -> HashSet<Target> {
        self.modules[module].parent.map(Target::Module).into_iter().collect()
    }

    /// What a name means in a module: declared there, imported, or brought by a glob.
    fn named(
        &self,
        id: ModuleId,
        name: &str,
        seen: &mut HashSet<(ModuleId, String)>,
    ) -> HashSet<Target> {
        let module = &self.modules[id];
        let mut found: HashSet<Target> = HashSet::new();
        found.extend(module.children.get(name).map(|child| Target::Module(*child)));
        found.extend(module.items.get(name).map(|_| Target::Item(id, name.to_owned())));
        // A name may be imported from where it is imported from here.
        if !seen.insert((id, name.to_owned())) {
            return found;
        }
        for Import { path, .. } in module.imports.iter().filter(|i| i.name.as_deref() == Some(name))
        {
            found.extend(self.targets(id, path, seen));
        }
        if found.is_empty() {
            let globs = module.imports.iter().filter(|import| import.name.is_none());
            found.extend(globs.flat_map(|glob| self.in_glob(id, &glob.path, name, seen)));
        }
        seen.remove(&(id, name.to_owned()));
        found
    }

    /// What a name means that may come by a glob: of a module, or of an enum's variants.
    fn in_glob(
        &self,
        id: ModuleId,
        path: &[String],
        name: &str,
        seen: &mut HashSet<(ModuleId, String)>,
    ) -> HashSet<Target> {
        let targets = self.targets(id, path, seen).into_iter().flat_map(|target| match target {
            Target::Module(module) => self.named(module, name, seen),
            Target::Item(module, item) => {
                let is_variant = self.modules[module].items[&item].iter().any(|v| v == name);
                is_variant.then_some(Target::Item(module, item)).into_iter().collect()
            }
        });
        targets.collect()
    }
}

/// Finds the paths of a file, each seen from the module it stands in.
struct Paths<'a> {
    house: &'a House,
    module: ModuleId,
    found: BTreeSet<FileName>,
}

impl Paths<'_> {
    fn add(&mut self, path: &[String]) {
        self.found.extend(self.house.files_of(self.module, path));
    }

    /// Names joined by `::` in the text of a macro or of an attribute.
    fn add_tokens(&mut self, tokens: TokenStream) {
        let mut path: Vec<String> = Vec::new();
        let mut colons = 0;
        let mut after_dot = false;
        for token in tokens {
            match token {
                TokenTree::Ident(name) => {
                    if colons != 2 {
                        self.add(&std::mem::take(&mut path));
                    }
                    if !after_dot {
                        path.push(name.to_string());
                    }
                    (colons, after_dot) = (0, false);
                }
                TokenTree::Punct(sign) => {
                    colons = if sign.as_char() == ':' { colons + 1 } else { 0 };
                    after_dot = sign.as_char() == '.';
                    if colons == 0 {
                        self.add(&std::mem::take(&mut path));
                    }
                }
                TokenTree::Group(group) => {
                    self.add(&std::mem::take(&mut path));
                    self.add_tokens(group.stream());
                    (colons, after_dot) = (0, false);
                }
                TokenTree::Literal(_) => (colons, after_dot) = (0, false),
            }
        }
        self.add(&path);
    }
}

impl<'a> Visit<'a> for Paths<'_> {
    fn visit_item_mod(&mut self, item: &'a syn::ItemMod) {
        let outside = self.module;
        let child = self.house.modules[outside].children.get(&item.ident.to_string());
        if let (Some(child), Some(_)) = (child, &item.content) {
            self.module = *child;
            visit::visit_item_mod(self, item);
            self.module = outside;
        }
    }

    fn visit_impl_item_fn(&mut self, item: &'a syn::ImplItemFn) {
        if !is_test(&item.attrs) {
            visit::visit_impl_item_fn(self, item);
        }
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        let names: Vec<String> = path.segments.iter().map(|part| part.ident.to_string()).collect();
        self.add(&names);
        visit::visit_path(self, path);
    }

    fn visit_item_use(&mut self, _: &'a syn::ItemUse) {}

    fn visit_macro(&mut self, call: &'a syn::Macro) {
        self.visit_path(&call.path);
        self.add_tokens(call.tokens.clone());
    }

    fn visit_meta_list(&mut self, list: &'a syn::MetaList) {
        self.add_tokens(list.tokens.clone());
    }
}
