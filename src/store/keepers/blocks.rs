//! Takes a file apart at the heads of its tables, without reading what stands between them.
//!
//! Each keeper then has a text of its own. What is not changed is written back as it stands, and
//! what this version does not understand is carried along word for word.

use std::ops::Range;

/// A stretch of the file: what stands before the first table, a keeper, or another table.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Block {
    pub(super) text: Range<usize>,
    pub(super) kind: BlockKind,
}

/// What a stretch of the file is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum BlockKind {
    /// The keys before the first table.
    Head,
    /// A `[[keeper]]` with the tables under it.
    Keeper,
    /// Any other table.
    Foreign,
}

/// The blocks of a text, in order; together they are all of it, and the first is the head.
///
/// Of a text that is TOML every block is TOML by itself.
pub(super) fn blocks(text: &str) -> Vec<Block> {
    let mut scan = Scan { bytes: text.as_bytes(), at: 0, depth: 0 };
    let mut blocks = vec![Block { text: 0..0, kind: BlockKind::Head }];
    while scan.at < scan.bytes.len() {
        let line = scan.at;
        if scan.depth == 0
            && let Some(kind) = head_of_table(text, line, &blocks)
        {
            begin(&mut blocks, above(text, line), kind);
        }
        scan.pass_line();
    }
    if let Some(last) = blocks.last_mut() {
        last.text.end = text.len();
    }
    blocks
}

fn begin(blocks: &mut Vec<Block>, at: usize, kind: BlockKind) {
    if let Some(last) = blocks.last_mut() {
        last.text.end = at;
    }
    blocks.push(Block { text: at..at, kind });
}

/// Which block the line at this place begins, if it begins one.
fn head_of_table(text: &str, line: usize, blocks: &[Block]) -> Option<BlockKind> {
    let rest = text.get(line..)?.trim_start_matches([' ', '\t']);
    let inside = rest.strip_prefix('[')?;
    let (is_list, inside) = match inside.strip_prefix('[') {
        Some(inside) => (true, inside),
        None => (false, inside),
    };
    let name = inside.trim_start_matches([' ', '\t']);
    let after = ["keeper", "\"keeper\"", "'keeper'"]
        .into_iter()
        .find_map(|keeper| name.strip_prefix(keeper))
        .map(|after| after.trim_start_matches([' ', '\t']));
    match after {
        Some(after) if is_list && after.starts_with("]]") => Some(BlockKind::Keeper),
        // A table under the keeper before it.
        Some(after) if after.starts_with('.') && is_keeper(blocks.last()) => None,
        _ => Some(BlockKind::Foreign),
    }
}

fn is_keeper(block: Option<&Block>) -> bool {
    block.is_some_and(|block| block.kind == BlockKind::Keeper)
}

/// Where the comments begin that stand right above a line; they belong to it.
fn above(text: &str, line: usize) -> usize {
    let mut from = line;
    while let Some(before) = text.get(..from.saturating_sub(1)) {
        let start = before.rfind('\n').map_or(0, |end| end + 1);
        // A first comment is that of the file.
        let is_comment = before.get(start..).is_some_and(|line| line.trim_start().starts_with('#'));
        if from == 0 || start == 0 || !is_comment {
            break;
        }
        from = start;
    }
    from
}

/// Goes through TOML line by line, and knows where a value goes on over several of them.
struct Scan<'a> {
    bytes: &'a [u8],
    at: usize,
    /// How many brackets are open.
    depth: usize,
}

impl Scan<'_> {
    /// Goes on behind the end of the line on which the value here ends.
    fn pass_line(&mut self) {
        while let Some(byte) = self.next() {
            match byte {
                b'\n' => return,
                b'#' => self.pass_comment(),
                b'"' | b'\'' => self.pass_string(byte),
                b'[' | b'{' => self.depth += 1,
                b']' | b'}' => self.depth = self.depth.saturating_sub(1),
                _ => {}
            }
        }
    }

    fn next(&mut self) -> Option<u8> {
        let byte = self.bytes.get(self.at).copied();
        self.at += usize::from(byte.is_some());
        byte
    }

    fn pass_comment(&mut self) {
        while self.bytes.get(self.at).is_some_and(|byte| *byte != b'\n') {
            self.at += 1;
        }
    }

    /// The rest of a string whose first quote has been passed.
    fn pass_string(&mut self, quote: u8) {
        let twice = [quote, quote];
        if self.bytes.get(self.at..).is_some_and(|rest| rest.starts_with(&twice)) {
            self.at += 2;
            return self.pass_long_string(quote);
        }
        while let Some(byte) = self.next() {
            match byte {
                b'\\' if quote == b'"' => self.at += 1,
                // A string that is never closed ends with its line, so that what follows is read.
                b'\n' => {
                    self.at -= 1;
                    return;
                }
                byte if byte == quote => return,
                _ => {}
            }
        }
    }

    /// A string of several lines; its last quotes may be four or five, of which it keeps some.
    fn pass_long_string(&mut self, quote: u8) {
        let mut quotes = 0;
        while let Some(byte) = self.next() {
            match byte {
                b'\\' if quote == b'"' => {
                    self.at += 1;
                    quotes = 0;
                }
                byte if byte == quote => quotes += 1,
                _ => quotes = 0,
            }
            let more = self.bytes.get(self.at) == Some(&quote);
            if quotes >= 3 && (!more || quotes == 5) {
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> Vec<(BlockKind, &str)> {
        let blocks = blocks(text);
        assert_eq!(blocks.first().unwrap().text.start, 0);
        assert_eq!(blocks.last().unwrap().text.end, text.len());
        assert!(blocks.windows(2).all(|two| two[0].text.end == two[1].text.start));
        blocks.into_iter().map(|block| (block.kind, &text[block.text])).collect()
    }

    #[test]
    fn a_file_is_cut_at_its_keepers_and_foreign_tables() {
        use BlockKind::{Foreign, Head, Keeper};
        let text = "# Keepers\nformat = 1\n\n[[keeper]]\nid = 1\n\n[keeper.shape]\nfrets = [3]\n\
                    # mine\n# too\n[[ \"keeper\" ]] # two\nid = 2\n[later]\nx = 1\n[[keeper]]\n";
        let expected = [
            (Head, "# Keepers\nformat = 1\n\n"),
            (Keeper, "[[keeper]]\nid = 1\n\n[keeper.shape]\nfrets = [3]\n"),
            (Keeper, "# mine\n# too\n[[ \"keeper\" ]] # two\nid = 2\n"),
            (Foreign, "[later]\nx = 1\n"),
            (Keeper, "[[keeper]]\n"),
        ];
        assert_eq!(cut(text), expected);
    }

    #[test]
    fn what_only_looks_like_a_table_is_none() {
        for value in [
            "\"\"\"\n[[keeper]]\n\"\"\"",
            "'''\n[[keeper]]\n'''",
            "\"\"\"\\\"\"\"\n[[keeper]]\n\"\"\"\"\"",
            "[\n[\"keeper\"],\n[[1]],\n]",
            "[ # ]\n[[2]]\n]",
            "\"a # ] \\\" [\" # [",
            "'\\'",
            "\"\"",
        ] {
            let text = format!("[[keeper]]\nx = {value}\ny = 1\n[[keeper]]\n");
            assert_eq!(text.parse::<toml::Table>().unwrap()["keeper"].as_array().unwrap().len(), 2);
            let kinds: Vec<BlockKind> = cut(&text).into_iter().map(|(kind, _)| kind).collect();
            assert_eq!(kinds, [BlockKind::Head, BlockKind::Keeper, BlockKind::Keeper], "{value}");
        }
    }

    #[test]
    fn every_text_is_cut_into_all_of_itself() {
        for text in ["", "[[keeper]]", "\"", "\"\"\"", "x = [", "[", "\\", "#", "[[keeper]]\n\"\\"]
        {
            assert_eq!(cut(text).into_iter().map(|(_, text)| text).collect::<String>(), text);
        }
    }
}
