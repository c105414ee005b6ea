//! Themes that can be read, by every eye.

use ratatui::style::{Color, Modifier, Style};

use super::*;

const DEPTHS: [Depth; 4] = [Depth::None, Depth::Sixteen, Depth::TwoHundredFiftySix, Depth::Full];

fn built_in(name: &str, depth: Depth) -> Theme {
    Theme::built_in(name, depth).unwrap()
}

/// Every style in which text or a mark is drawn, over the screen.
fn drawn(theme: &Theme) -> Vec<(&'static str, Style)> {
    let Theme { text, muted, title, first, second, held, string, chosen, key, error, .. } = *theme;
    let styles = [
        ("text", text),
        ("muted", muted),
        ("title", title),
        ("first", first),
        ("second", second),
        ("first held", first.patch(held)),
        ("second held", second.patch(held)),
        ("string", string),
        ("chosen", chosen),
        ("first chosen", chosen.patch(first)),
        ("second chosen", chosen.patch(second)),
        ("key", key),
        ("error", error),
    ];
    styles.map(|(name, style)| (name, theme.screen.patch(style))).to_vec()
}

/// The relative luminance of WCAG 2.2, W3C Recommendation, section “relative luminance”.
fn luminance(colour: Option<Color>) -> f64 {
    let Some(Color::Rgb(red, green, blue)) = colour else { panic!("{colour:?}") };
    let linear = |channel: u8| {
        let channel = f64::from(channel) / 255.0;
        if channel <= 0.04045 { channel / 12.92 } else { ((channel + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
}

/// The contrast ratio of WCAG 2.2, the same whichever of the two is in front.
fn contrast(style: Style) -> f64 {
    let (one, other) = (luminance(style.fg), luminance(style.bg));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[test]
fn the_measure_of_contrast_is_that_of_the_guideline() {
    let style = |fg, bg| Style::new().fg(fg).bg(bg);
    let (white, black) = (Color::Rgb(255, 255, 255), Color::Rgb(0, 0, 0));
    assert!((contrast(style(white, black)) - 21.0).abs() < 1e-9);
    assert!((contrast(style(black, white)) - 21.0).abs() < 1e-9);
    // The grey that designers know as the lightest of 4.5:1 on white: common practice, no source.
    let grey = |level| contrast(style(Color::Rgb(level, level, level), white));
    assert!(grey(0x76) >= 4.5 && grey(0x77) < 4.5);
}

/// 4.5:1 is level AA of WCAG 2.2 (1.4.3) for text of any size, 7:1 its level AAA (1.4.6).
#[test]
fn every_text_and_mark_stands_out_from_its_background() {
    for (name, least) in [("dark", 4.5), ("light", 4.5), ("high-contrast", 7.0)] {
        for (role, style) in drawn(&built_in(name, Depth::Full)) {
            let contrast = contrast(style);
            assert!(contrast >= least, "{name}: {role} has {contrast:.2}:1");
            assert!(!style.add_modifier.contains(Modifier::DIM), "{name}: {role} is dimmed");
        }
    }
}

#[test]
fn mapped_to_256_colours_everything_can_still_be_read() {
    let rgb = |colour: Option<Color>| match colour {
        Some(Color::Indexed(index)) => colour::rgb_of(index),
        other => panic!("{other:?}"),
    };
    let back = |[red, green, blue]: colour::Rgb| Color::Rgb(red, green, blue);
    for name in ["dark", "light", "high-contrast"] {
        for (role, style) in drawn(&built_in(name, Depth::TwoHundredFiftySix)) {
            let style = Style::new().fg(back(rgb(style.fg))).bg(back(rgb(style.bg)));
            assert!(contrast(style) >= 4.5, "{name}: {role} has {:.2}:1", contrast(style));
        }
    }
}

#[test]
fn no_role_is_told_by_colour_alone() {
    for name in Themes::load(None, Depth::Full).names() {
        let plain = |style: Style| style.add_modifier;
        let theme = built_in(name, Depth::Full);
        let Theme { text, title, first, second, held, chosen, key, error, .. } = theme;
        for (role, one, other) in [
            ("first", first, second),
            ("first held", first.patch(held), first),
            ("second held", second.patch(held), second),
            ("title", title, text),
            ("chosen", chosen, text),
            ("key", key, text),
            ("error", error, text),
        ] {
            assert_ne!(plain(one), plain(other), "{name}: {role}");
        }
    }
}

#[test]
fn the_two_triads_differ_at_every_depth() {
    for name in Themes::load(None, Depth::Full).names() {
        for depth in DEPTHS {
            let theme = built_in(name, depth);
            assert_ne!(theme.first, theme.second, "{name} at {depth:?}");
            assert_ne!(theme.first.patch(theme.held), theme.first, "{name} at {depth:?}");
        }
    }
}

/// The one difference is the colour: everything else is there at every depth.
#[test]
fn without_colours_the_modifiers_stay() {
    for name in Themes::load(None, Depth::Full).names() {
        let (with, without) = (built_in(name, Depth::Full), built_in(name, Depth::None));
        for ((role, with), (_, without)) in drawn(&with).into_iter().zip(drawn(&without)) {
            assert_eq!((without.fg, without.bg), (None, None), "{name}: {role}");
            assert_eq!(without.add_modifier, with.add_modifier, "{name}: {role}");
        }
    }
}

#[test]
fn a_role_that_is_not_given_has_its_fallback() {
    let (theme, problems) =
        read::read("t.toml", "text = \"green\"\nfirst = \"red\"\n", Depth::Full);
    assert_eq!(problems, []);
    let green = Style::new().fg(Color::Green);
    assert_eq!((theme.second, theme.string, theme.muted), (green, green, green));
    assert_eq!((theme.title, theme.error), (green.bold(), green.bold()));
    assert_eq!(theme.first, Style::new().fg(Color::Red));
}

#[test]
fn a_wrong_line_costs_its_role_and_is_told_by_place() {
    let content = "title = \"bold\"\n\
                   frist = \"red\"\n\
                   first = \"redd bold\"\n\
                   second = 3\n\
                   key = \"red on\"\n\
                   error = \"red blue\"\n\
                   muted = \n";
    let (theme, problems) = read::read("t.toml", content, Depth::Full);
    assert_eq!(theme.first, theme.title);
    let said: Vec<String> = problems.iter().map(ToString::to_string).collect();
    let colour = "expected a colour (#RRGGBB, or a name as `cyan`, `bright-blue`), or bold, dim, \
                  italic, underline, reverse, instead of";
    assert_eq!(
        said[0],
        "t.toml:2:1: found `frist`, expected `first`, perhaps; this key is not used"
    );
    assert_eq!(
        said[1],
        format!("t.toml:3:9: found `\"redd bold\"`, {colour} `redd`; did you mean `red`?")
    );
    assert!(
        said[2].starts_with("t.toml:4:10: found `3`, expected colours and modifiers in quotes")
    );
    assert_eq!(said[3], "t.toml:5:7: found `\"red on\"`, expected a colour after `on`");
    assert!(said[4].contains("`blue` is too many"), "{}", said[4]);
    assert!(said[5].starts_with("t.toml:7:1: found `muted =`, expected TOML ("), "{}", said[5]);
    assert_eq!(said.len(), 6);
}

#[test]
fn a_players_theme_takes_the_place_of_a_built_in_one() {
    let folder = std::env::temp_dir().join(format!("fretloom-themes-{}", std::process::id()));
    std::fs::create_dir_all(folder.join("themes")).unwrap();
    for name in ["dark", "mine"] {
        std::fs::write(folder.join(format!("themes/{name}.toml")), "first = \"green\"").unwrap();
    }
    let themes = Themes::load(Some(&folder), Depth::Full);
    std::fs::remove_dir_all(&folder).unwrap();
    assert_eq!(themes.problems(), []);
    assert_eq!(themes.names().count(), 6);
    let green = Style::new().fg(Color::Green);
    for name in ["dark", "mine"] {
        assert_eq!(themes.get(name).unwrap().first, green, "{name}");
    }
}
