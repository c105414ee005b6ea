//! Bars of several lines as one line, for a field.

/// Bars of several lines as one line: between two lines stands one bar line, whichever of them it is
/// written in. Comments are left out.
pub(super) fn in_one_line(bars: &str) -> String {
    let lines = bars.lines().map(str::trim);
    let mut joined = String::new();
    for line in lines.filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let mut line = line;
        if ends_a_repeat(&joined) {
            // The bar line is that of the repeat, unless another one begins.
            line = if line.starts_with("|:") { line } else { line.trim_start_matches('|') };
        } else if line.starts_with('|') {
            joined.truncate(joined.trim_end_matches('|').trim_end().len());
        } else if !joined.is_empty() && !joined.ends_with('|') {
            joined.push_str(" |");
        }
        joined.push(' ');
        joined.push_str(line.trim_start());
    }
    joined.trim().to_owned()
}

/// `:|` or `:|3`
fn ends_a_repeat(text: &str) -> bool {
    text.trim_end_matches(|sign: char| sign.is_ascii_digit()).ends_with(":|")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_end_of_a_line_is_one_bar_line() {
        for (bars, line) in [
            ("Dm7 | G7\nC | %\n", "Dm7 | G7 | C | %"),
            ("| Dm7 | G7 |\n| C |", "| Dm7 | G7 | C |"),
            ("|: Dm7 :|3\r\n# twice\n\n C", "|: Dm7 :|3 C"),
            ("Dm7\n|: G7 :|", "Dm7 |: G7 :|"),
            ("| Dm7 |\n|: G7 :|\n| C ||\n| F |", "| Dm7 |: G7 :| C | F |"),
            ("|: Dm7 :|3\n|: G7 :|\n|: C :|", "|: Dm7 :|3 |: G7 :| |: C :|"),
            ("| Dm7 |\n[B] G7 |\n[C] | C", "| Dm7 | [B] G7 | [C] | C"),
            ("", ""),
        ] {
            assert_eq!(in_one_line(bars), line);
        }
    }
}
