//! The player's own files: `check`, `settings`, what wins over what, and every mistake of
//! `tests/bad/` with the message that it gets.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/mistakes.rs"]
mod mistakes;
#[path = "support/program.rs"]
mod program;

use std::fs;

use mistakes::{Mistake, mistakes};
use program::{Home, Said};
use serde_json::Value;

/// What `check` prints of a player who has this one file.
fn checked(mistake: &Mistake) -> String {
    let home = Home::new();
    let put = home.put(&format!("fretloom/{}", mistake.place), &mistake.content);
    let said = home.run(&["check"]);
    assert_eq!((said.status, said.err.as_str()), (Some(1), ""), "{}", mistake.name);
    said.out.replace(put.to_str().unwrap(), "FILE")
}

fn is_asked_to_write() -> bool {
    std::env::var_os("FRETLOOM_MISTAKES").is_some_and(|wish| wish == "write")
}

/// `FRETLOOM_MISTAKES=write cargo test --test own_files` writes what is said; read it before it is
/// kept.
#[test]
fn each_mistake_has_its_message() {
    for mistake in mistakes() {
        let said = checked(&mistake);
        // Those of tunings stand there as a command says them on standard error.
        let expected = fs::read_to_string(&mistake.message).unwrap_or_default();
        let expected = expected.replace("fretloom: ", "");
        if said != expected && is_asked_to_write() {
            fs::write(&mistake.message, &said).unwrap();
            continue;
        }
        assert_eq!(said, expected, "{}", mistake.name);
        for line in said.lines() {
            assert!(line.starts_with("FILE:") && line.contains("expected "), "{line}");
        }
    }
}

#[test]
fn check_tells_the_same_to_programs() {
    for mistake in mistakes() {
        let home = Home::new();
        let put = home.put(&format!("fretloom/{}", mistake.place), &mistake.content);
        let said = home.run(&["check", "--json"]);
        assert_eq!((said.status, said.err.as_str()), (Some(1), ""), "{}", mistake.name);
        assert!(said.out.starts_with("{\"format\":1,\"problems\":[{\"file\":"), "{}", said.out);
        let answer: Value = serde_json::from_str(&said.out).unwrap();
        for problem in answer["problems"].as_array().unwrap() {
            assert_eq!(problem["file"], put.to_str().unwrap());
            assert!(problem["line"].as_u64() >= Some(1) && problem["column"].as_u64() >= Some(1));
            assert!(problem["text"].is_string());
            assert_ne!(problem["expected"], "");
        }
    }
}

#[test]
fn sound_files_have_no_problem() {
    let home = Home::new();
    let sound = "nothing is wrong in your files\n";
    assert_eq!(home.run(&["check"]).printed(), sound);
    assert_eq!(home.run(&["check", "--json"]).printed(), "{\"format\":1,\"problems\":[]}\n");
    home.put("fretloom/settings.toml", "theme = \"mine\"\ntuning = \"my-tuning\"\n");
    home.put("fretloom/themes/mine.toml", "first = \"green\"\n");
    home.put("fretloom/keys.toml", "[explore]\nclimb = [\"f12\"]\n");
    home.put("fretloom/scales.toml", "\"six bright notes\" = \"1 2 3 5 6 7\"\n");
    home.put("fretloom/patterns.toml", "mine = { name = \"mine\", figures = \"132 2\" }\n");
    let strings = "strings = [\"E2\", \"A2\", \"D3\"]\nfrets = 22\nscale_mm = 648\n";
    let tuning = format!("name = \"Mine\"\ninstrument = \"guitar\"\n{strings}");
    home.put("fretloom/tunings/my-tuning.toml", &tuning);
    assert_eq!(home.run(&["check"]).printed(), sound);
}

/// No built-in scale is usual over maj7♭9, so the player's own stands first wherever the chord is
/// asked for.
#[test]
fn own_scales_rank_for_pairs_and_necks_as_in_scales() {
    let home = Home::new();
    home.put("fretloom/scales.toml", "\"bright minor\" = \"1 b9 3 4 5 6 7\"\n");
    let scales = home.run(&["scales", "Cmaj7b9"]).printed();
    assert!(scales.contains("\n  1  C bright minor"), "{scales}");
    let pairs = home.run(&["pairs", "Cmaj7b9", "--json"]).printed();
    assert!(pairs.contains("\"scale\":{\"name\":\"C bright minor\""), "{pairs}");
    // D♭ F A: the double harmonic scale, the first of the built-in ones, has no A.
    let neck = home.run(&["neck", "Cmaj7b9", "--json"]).printed();
    assert!(neck.contains("\"pair\":\"C & Db+\""), "{neck}");
}

/// A name with a slip is never read, and nothing else would tell.
#[test]
fn files_that_nobody_reads_are_told() {
    let home = Home::new();
    let mut expected = String::new();
    for (name, near) in [
        ("key.toml", "; did you mean keys.toml?"),
        ("my-band.toml", ""),
        ("setings.toml", "; did you mean settings.toml?"),
        ("theme/dark.toml", "; did you mean themes?"),
    ] {
        home.put(&format!("fretloom/{name}"), "");
        let file = home.folder().join("fretloom").join(name.split('/').next().unwrap());
        let all = "one of settings.toml, keys.toml, scales.toml, patterns.toml, themes, tunings, charts; nothing reads this";
        expected += &format!("{}:1:1: expected {all}{near}\n", file.display());
    }
    home.put("fretloom/README.md", "what I changed");
    let said = home.run(&["check"]);
    assert_eq!((said.status, said.out), (Some(1), expected));
}

#[test]
fn the_sample_is_printed_and_written_and_never_written_over() {
    let home = Home::new();
    let sample = home.run(&["settings", "--sample"]).printed();
    let written = home.run(&["settings", "--write"]).printed();
    let file = written.trim_end();
    assert!(file.ends_with("settings.toml"), "{file}");
    assert_eq!(fs::read_to_string(file).unwrap(), sample);
    assert_eq!(home.run(&["check"]).printed(), "nothing is wrong in your files\n");
    fs::write(file, "theme = \"dark\"\n").unwrap();
    let again = home.run(&["settings", "--write"]);
    let message = format!(
        "fretloom: cannot write the file {file}: it is there already, and is left as it is; \
         expected a place for a new file\n"
    );
    assert_eq!((again.status, again.out.as_str(), again.err), (Some(1), "", message));
    assert_eq!(fs::read_to_string(file).unwrap(), "theme = \"dark\"\n");
}

/// Each is what is built in, so it changes nothing until it is changed.
#[test]
fn keys_and_a_theme_can_be_begun_too() {
    for (file, name) in [("keys", "keys.toml"), ("theme", "themes/mine.toml")] {
        let home = Home::new();
        let sample = home.run(&["settings", &format!("--sample={file}")]).printed();
        let written = home.run(&["settings", &format!("--write={file}")]).printed();
        assert!(written.trim_end().ends_with(name), "{written}");
        assert_eq!(fs::read_to_string(written.trim_end()).unwrap(), sample);
        assert_eq!(home.run(&["check"]).printed(), "nothing is wrong in your files\n");
    }
}

#[test]
fn settings_in_force_are_told() {
    let home = Home::new();
    let text = home.run(&["settings"]).printed();
    assert!(text.contains("settings.toml is not there; fretloom settings --write begins one\n"));
    let file = home.put("fretloom/settings.toml", "labels = \"degree\"\nreach_mm = 97.5\n");
    let text = home.run(&["settings"]).printed();
    assert!(text.starts_with(&format!("{}\n\n", file.display())), "{text}");
    assert!(text.contains("\nlabels            degree\n"), "{text}");
    let answer: Value = serde_json::from_str(&home.run(&["settings", "--json"]).printed()).unwrap();
    assert_eq!((&answer["format"], &answer["exists"]), (&Value::from(1), &Value::from(true)));
    let reach = answer["settings"].as_array().unwrap().iter().find(|one| one["name"] == "reach_mm");
    assert_eq!(reach.unwrap()["value"], "97.5");
}

#[test]
fn how_sound_is_played_is_told_and_why_not_otherwise() {
    let home = Home::new();
    let text = home.run(&["settings"]).printed();
    let nothing = "\nno sound can be played here; fretloom line --wav FILE writes a line to a file\n  \
                   sound server: neither XDG_RUNTIME_DIR nor PULSE_SERVER says where one is\n  \
                   pacat: is not on the PATH\n  pw-cat: is not on the PATH\n  \
                   aplay: is not on the PATH\n";
    if cfg!(target_os = "linux") {
        assert!(text.ends_with(nothing), "{text}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_program_that_plays_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let home = Home::new();
    for (name, script) in [("pacat", "exit 1"), ("aplay", "exit 0")] {
        let path = home.put(name, &format!("#!/bin/sh\n{script}\n"));
        fs::set_permissions(path, fs::Permissions::from_mode(0o755)).unwrap();
    }
    let run = |arguments: &[&str]| {
        let mut program = home.program();
        program.env("PATH", home.folder()).env("PULSE_SERVER", "unix:/nowhere/native");
        Said::by(program.args(arguments)).printed()
    };
    let aplay = home.folder().join("aplay").display().to_string();
    let why = [
        ("sound server", "/nowhere/native cannot be reached: there is no such file"),
        ("pacat", "cannot play: it ends with status 1"),
        ("pw-cat", "is not on the PATH"),
    ];
    let lines: String = why.iter().map(|(what, why)| format!("  {what}: {why}\n")).collect();
    let text = run(&["settings"]);
    let expected = format!("\nsound is played by the program {aplay}\n{lines}");
    assert!(text.ends_with(&expected), "{text}");
    let answer: Value = serde_json::from_str(&run(&["settings", "--json"])).unwrap();
    assert_eq!(answer["sound"]["in_use"]["kind"], "program");
    assert_eq!(answer["sound"]["in_use"]["name"], aplay);
    let others = answer["sound"]["others"].as_array().unwrap();
    assert_eq!(others.len(), 3);
    for (other, (what, why)) in others.iter().zip(why) {
        assert_eq!((&other["what"], &other["why"]), (&what.into(), &why.into()));
    }
}

/// A command's answer under settings, and what the same command says with options instead.
#[test]
fn settings_are_options_that_need_not_be_typed_and_typed_ones_win() {
    let usual = Home::new();
    for (setting, command, option) in [
        ("tuning = \"guitar-dadgad\"", &["shapes", "G"][..], "--tuning=guitar-dadgad"),
        ("spelling = \"strict\"", &["pairs", "B7alt"], "--spelling=strict"),
        ("ascii = \"always\"", &["chord", "Bb7"], "--ascii"),
        ("labels = \"member\"", &["neck", "Dm7"], "--labels=member"),
        ("families = \"tertian,sus\"", &["pairs", "C7"], "--families=tertian,sus"),
        ("reach_mm = 40", &["ladder", "F", "G"], "--reach=40"),
        ("left_handed = true", &["neck", "Dm7"], "--left-handed"),
        ("upside_down = true", &["neck", "Dm7"], "--upside-down"),
        ("fret_widths = \"true\"", &["neck", "Dm7"], "--fret-widths=true"),
    ] {
        let home = Home::new();
        home.put("fretloom/settings.toml", setting);
        let settled = home.run(command).printed();
        let optional = usual.run(&[command, &[option]].concat()).printed();
        assert_eq!(settled, optional, "{setting}");
        let plain = usual.run(command).printed();
        assert_ne!(settled, plain, "{setting}");
        let back = match option.split_once('=').map_or(option, |(name, _)| name) {
            "--tuning" => "--tuning=guitar-standard",
            "--spelling" => "--spelling=plain",
            "--ascii" => "--ascii=never",
            "--labels" => "--labels=note",
            "--families" => "--families=tertian",
            "--reach" => "--reach=120",
            "--left-handed" => "--left-handed=false",
            "--fret-widths" => "--fret-widths=even",
            _ => "--upside-down=false",
        };
        assert_eq!(home.run(&[command, &[back]].concat()).printed(), plain, "{back}");
    }
}

#[test]
fn a_wrong_setting_is_told_beside_the_answer() {
    let home = Home::new();
    let file = home.put("fretloom/settings.toml", "theme = \"drak\"\nspelling = \"strict\"\n");
    let said = home.run(&["pairs", "B7alt"]);
    let strict = Home::new().run(&["pairs", "B7alt", "--spelling", "strict"]).printed();
    assert_eq!((said.status, &said.out), (Some(0), &strict));
    assert!(said.err.starts_with(&format!("fretloom: {}:1:9: ", file.display())), "{}", said.err);
    assert!(said.err.contains("did you mean \"dark\"?"), "{}", said.err);
    assert_eq!(said.err.lines().count(), 1);
}

#[test]
fn the_folder_may_be_named_by_the_environment() {
    let (home, other) = (Home::new(), Home::new());
    let file = other.put("settings.toml", "ascii = \"always\"\n");
    let folder = file.parent().unwrap();
    let mut program = home.program();
    let program = program.env("FRETLOOM_CONFIG", folder).args(["chord", "Bb7"]);
    assert!(Said::by(program).printed().is_ascii());
}

#[test]
fn shells_get_their_completions() {
    for (shell, words) in [
        ("bash", "complete -F _fretloom"),
        ("zsh", "#compdef fretloom"),
        ("fish", "complete -c fretloom"),
        ("powershell", "Register-ArgumentCompleter"),
        ("elvish", "edit:completion:arg-completer[fretloom]"),
    ] {
        let script = Home::new().run(&["completions", shell]).printed();
        assert!(script.contains(words) && script.contains("capo-strings"), "{shell}");
    }
}

#[test]
fn the_manual_has_a_page_for_the_program_and_for_each_command() {
    let home = Home::new();
    let page = home.run(&["manual"]).printed();
    assert!(page.contains(".TH fretloom 1"), "{page}");
    assert!(page.contains("fretloom\\-pairs(1)"), "{page}");
    let page = home.run(&["manual", "pairs"]).printed();
    assert!(page.contains(".TH fretloom-pairs 1") && page.contains("families"), "{page}");
    let said = home.run(&["manual", "pars"]);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
    assert!(
        said.err.starts_with("fretloom: there is no command \"pars\"; expected one of pairs, ")
    );
    assert!(said.err.ends_with("; did you mean pairs?\n"), "{}", said.err);
}

#[test]
fn a_dry_look_at_the_completions_is_what_bash_accepts() {
    let Ok(bash) = std::process::Command::new("bash").arg("--version").output() else { return };
    assert!(bash.status.success());
    let home = Home::new();
    let script = home.run(&["completions", "bash"]).printed();
    let file = home.put("completions.bash", &script);
    let read = std::process::Command::new("bash").arg("-n").arg(file).output().unwrap();
    assert_eq!((read.status.code(), read.stderr.as_slice()), (Some(0), &b""[..]));
}
