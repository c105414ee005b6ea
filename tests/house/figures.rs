//! How large things are: of code alone, without tests, comments and empty lines.

use std::collections::BTreeSet;

use proc_macro2::Span;
use syn::spanned::Spanned;
use syn::visit::{self, Visit};

use crate::source::{FileName, House, is_test};

/// What was measured over all files.
pub(crate) struct Figures {
    /// The struct with the most fields: file, name, fields.
    pub(crate) largest_struct: (FileName, String, usize),
    /// The file with the most lines.
    pub(crate) largest_file: (FileName, usize),
    /// Functions by their lines, from `fn` to the closing brace, the shortest first.
    pub(crate) functions: Vec<(usize, FileName, String)>,
}

impl Figures {
    /// Measures the house; `read` gives the text of each file.
    pub(crate) fn of(house: &House, read: &dyn Fn(&str) -> Option<String>) -> Figures {
        let mut measures = Measures::default();
        let mut files: Vec<(usize, FileName)> = Vec::new();
        for (name, file) in &house.files {
            measures.file.clone_from(name);
            measures.visit_file(file);
            let lines: Vec<String> =
                read(name).unwrap_or_default().lines().map(str::to_owned).collect();
            let spans = file.items.iter().map(Spanned::span);
            let used: BTreeSet<usize> =
                spans.flat_map(lines_of).filter(|line| is_code(&lines[line - 1])).collect();
            files.push((used.len(), name.clone()));
        }
        measures.functions.sort();
        let (lines, file) = files.into_iter().max().unwrap_or_default();
        let (fields, of, name) = measures.structs.into_iter().max().unwrap_or_default();
        Figures {
            largest_struct: (of, name, fields),
            largest_file: (file, lines),
            functions: measures.functions,
        }
    }
}

fn lines_of(span: Span) -> std::ops::RangeInclusive<usize> {
    span.start().line..=span.end().line
}

fn is_code(line: &str) -> bool {
    let line = line.trim_start();
    !line.is_empty() && !line.starts_with("//")
}

#[derive(Default)]
struct Measures {
    file: FileName,
    structs: Vec<(usize, FileName, String)>,
    functions: Vec<(usize, FileName, String)>,
}

impl Measures {
    fn add_function(&mut self, name: &syn::Ident, from: Span, to: Span) {
        let lines = to.end().line - from.start().line + 1;
        self.functions.push((lines, self.file.clone(), name.to_string()));
    }
}

impl<'a> Visit<'a> for Measures {
    fn visit_item_struct(&mut self, item: &'a syn::ItemStruct) {
        self.structs.push((item.fields.len(), self.file.clone(), item.ident.to_string()));
    }

    fn visit_item_fn(&mut self, item: &'a syn::ItemFn) {
        self.add_function(&item.sig.ident, item.sig.span(), item.block.span());
        visit::visit_item_fn(self, item);
    }

    fn visit_impl_item_fn(&mut self, item: &'a syn::ImplItemFn) {
        if !is_test(&item.attrs) {
            self.add_function(&item.sig.ident, item.sig.span(), item.block.span());
            visit::visit_impl_item_fn(self, item);
        }
    }

    fn visit_trait_item_fn(&mut self, item: &'a syn::TraitItemFn) {
        if let Some(block) = &item.default {
            self.add_function(&item.sig.ident, item.sig.span(), block.span());
        }
    }
}
