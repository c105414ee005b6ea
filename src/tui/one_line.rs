//! Bars of several lines as one line, for a field.

/// Bars of several lines as one line: the end of a line is a bar line, unless one is written there.
/// Comments are left out.
pub(super) fn in_one_line(bars: &str) -> String {
    let lines = bars.lines().map(str::trim);
    let mut joined = String::new();
    for line in lines.filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let is_written = ends_with_bar_line(&joined) || line.starts_with('|');
        let between = if is_written || joined.is_empty() { " " } else { " | " };
        joined.push_str(between);
        joined.push_str(line);
    }
    joined.trim().to_owned()
}

/// `|`, `:|` or `:|3`
fn ends_with_bar_line(text: &str) -> bool {
    text.trim_end_matches(|sign: char| sign.is_ascii_digit()).ends_with('|')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_end_of_a_line_is_one_bar_line() {
        for (bars, line) in [
            ("Dm7 | G7\nC | %\n", "Dm7 | G7 | C | %"),
            ("| Dm7 | G7 |\n| C |", "| Dm7 | G7 | | C |"),
            ("|: Dm7 :|3\r\n# twice\n\n C", "|: Dm7 :|3 C"),
            ("Dm7\n|: G7 :|", "Dm7 |: G7 :|"),
            ("", ""),
        ] {
            assert_eq!(in_one_line(bars), line);
        }
    }
}
