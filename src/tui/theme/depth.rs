//! How many colours a terminal has.

/// How many colours a terminal has.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Depth {
    /// None: modifiers only.
    None,
    /// The sixteen colours of the terminal's own palette.
    Sixteen,
    /// The sixteen, a cube of six by six by six colours, and 24 greys.
    TwoHundredFiftySix,
    /// Any colour of 24 bits.
    Full,
}

impl Depth {
    /// The depth that the environment says.
    #[must_use]
    pub fn from_environment() -> Depth {
        Depth::find(|name| std::env::var(name).ok())
    }

    /// The depth that environment variables say; `value` gives the value of a variable.
    ///
    /// `NO_COLOR`, where it is not empty, and `TERM=dumb` ask for no colour, whatever else is set.
    /// `COLORTERM` is `truecolor` or `24bit` where any colour can be shown; else the name in `TERM`
    /// decides. Where neither says anything, the terminal's own sixteen are used.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::tui::theme::Depth;
    /// let value = |name: &str| (name == "TERM").then(|| "xterm-256color".to_owned());
    /// assert_eq!(Depth::find(value), Depth::TwoHundredFiftySix);
    /// ```
    pub fn find(value: impl Fn(&str) -> Option<String>) -> Depth {
        let value = |name: &str| value(name).unwrap_or_default();
        let term = value("TERM");
        if !value("NO_COLOR").is_empty() || term == "dumb" {
            return Depth::None;
        }
        let any = matches!(value("COLORTERM").as_str(), "truecolor" | "24bit");
        match () {
            () if any || term.ends_with("-direct") => Depth::Full,
            () if term.contains("256color") => Depth::TwoHundredFiftySix,
            () => Depth::Sixteen,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn depth(variables: &[(&str, &str)]) -> Depth {
        Depth::find(|name| {
            let set = variables.iter().find(|(variable, _)| *variable == name);
            set.map(|(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_environment_tells_how_many_colours_there_are() {
        let full = ("COLORTERM", "truecolor");
        let many = ("TERM", "xterm-256color");
        for (variables, expected) in [
            (&[][..], Depth::Sixteen),
            (&[("TERM", "xterm")], Depth::Sixteen),
            (&[("TERM", "linux")], Depth::Sixteen),
            (&[many], Depth::TwoHundredFiftySix),
            (&[("TERM", "screen-256color")], Depth::TwoHundredFiftySix),
            (&[("TERM", "xterm-direct")], Depth::Full),
            (&[full], Depth::Full),
            (&[many, ("COLORTERM", "24bit")], Depth::Full),
            (&[many, ("COLORTERM", "yes")], Depth::TwoHundredFiftySix),
            (&[many, full, ("NO_COLOR", "1")], Depth::None),
            (&[many, full, ("NO_COLOR", "")], Depth::Full),
            (&[("TERM", "dumb"), full], Depth::None),
        ] {
            assert_eq!(depth(variables), expected, "{variables:?}");
        }
    }
}
