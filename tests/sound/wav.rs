//! `line --wav`: what is in the file is the line that is printed.

use std::path::Path;

use serde_json::Value;

use crate::measure::{cents, hertz_near, peak};
use crate::program::{Home, Said};

/// The samples of a WAV file, read by hound, which is not what writes it.
fn read(file: &Path) -> Vec<f32> {
    let mut wav = hound::WavReader::open(file).unwrap();
    let spec = wav.spec();
    assert_eq!((spec.channels, spec.sample_rate, spec.bits_per_sample), (1, 48_000, 16));
    wav.samples::<i16>().map(|sample| f32::from(sample.unwrap()) / 32_768.0).collect()
}

/// A line in eighths at 60, with its WAV file, and the options given.
fn written(home: &Home, chords: &str, options: &[&str]) -> (Value, Vec<f32>) {
    let file = home.folder().join("line.wav");
    let words = ["line", chords, "--tempo", "60", "--exercise", "--json", "--overwrite", "--wav"];
    let words = [&words[..], &[file.to_str().unwrap()], options].concat();
    let answer = serde_json::from_str(&home.run(&words).printed()).unwrap();
    (answer, read(&file))
}

/// Onset in seconds and MIDI number of each note.
fn notes(answer: &Value) -> Vec<(f64, f64)> {
    let note = |note: &Value| (note["onset"].as_f64().unwrap(), note["midi"].as_f64().unwrap());
    answer["notes"].as_array().unwrap().iter().map(note).collect()
}

#[test]
fn every_note_of_the_file_is_in_tune() {
    let home = Home::new();
    for (a4, options) in [
        (440.0, &[][..]),
        (442.5, &["--a4", "442.5"]),
        (440.0, &["--tuning", "bass-4-string"]),
        (440.0, &["--tuning", "ukulele-tenor"]),
        (440.0, &["--tuning", "guitar-12-string"]),
    ] {
        let (answer, samples) = written(&home, "Gmaj7#11", options);
        let notes = notes(&answer);
        assert_eq!(notes.len(), 32);
        // Four bars of four seconds, and 0.11 s in which the last note is damped.
        assert_eq!(samples.len(), 16 * 48_000 + 5_280);
        assert!((0.02..0.9).contains(&peak(&samples)), "{}", peak(&samples));
        for (onset_s, midi) in notes {
            let expected = a4 * ((midi - 69.0) / 12.0).exp2();
            // The note before is silent then.
            let heard = hertz_near(expected, &samples, onset_s + 0.13);
            let off = cents(expected, heard).abs();
            assert!(off < 1.0, "{options:?}: {midi} at {onset_s} s is {off} cents off");
        }
    }
}

/// The octave string of the sixth course of a twelve-string guitar sounds with its principal: the
/// partials that only it has no part in are those of odd number.
#[test]
fn the_strings_of_a_course_sound_together() {
    let home = Home::new();
    let strength = |tuning: &str| {
        let options = ["--tuning", tuning, "--strings", "6", "--frets", "1-12", "--pair", "F & G"];
        let (answer, samples) = written(&home, "Dm7", &options);
        let (onset_s, midi) = notes(&answer)[0];
        let hertz = 440.0 * ((midi - 69.0) / 12.0).exp2();
        let from = ((onset_s + 0.13) * 48_000.0) as usize;
        let of = |partial: f64| {
            let (mut along, mut across) = (0.0, 0.0);
            for (index, sample) in samples[from..from + 12_000].iter().enumerate() {
                let angle = std::f64::consts::TAU * hertz * partial * index as f64 / 48_000.0;
                along += f64::from(*sample) * angle.cos();
                across += f64::from(*sample) * angle.sin();
            }
            f64::hypot(along, across)
        };
        of(2.0) / of(1.0)
    };
    let (six, twelve) = (strength("guitar-standard"), strength("guitar-12-string"));
    assert!(twelve > 1.5 * six, "{six} {twelve}");
}

/// What options add: a bar in front, notes off the beat later, a drone that sounds in every rest.
#[test]
fn the_file_holds_what_is_asked_for() {
    let home = Home::new();
    let (_, alone) = written(&home, "Dm7", &[]);
    let (_, counted) = written(&home, "Dm7", &["--count-in"]);
    assert_eq!(counted.len() - alone.len(), 4 * 48_000);
    assert_eq!(counted[192_000 + 2_400..], alone[2_400..]);
    let (_, swung) = written(&home, "Dm7", &["--swing", "2:1"]);
    assert_eq!(swung.len(), alone.len());
    assert_ne!(swung[24_000..25_000], alone[24_000..25_000]);
    let (_, quiet) = written(&home, "Dm7", &["--line-level", "0"]);
    assert_eq!(peak(&quiet), 0.0);
    let (_, held) = written(&home, "Dm7", &["--line-level", "0", "--drone"]);
    assert!(peak(&held) > 0.01);
    // D2, C3 and F3: the bass under a line of a guitar, third and seventh in the octave above.
    for midi in [38.0, 48.0, 53.0_f64] {
        let expected = 440.0 * ((midi - 69.0) / 12.0).exp2();
        assert!(cents(expected, hertz_near(expected, &held, 2.0)).abs() < 0.1, "{midi}");
    }
    let (_, clicked) = written(&home, "Dm7", &["--line-level", "0", "--click", "2-and-4"]);
    let beat = |beat: usize| peak(&clicked[beat * 48_000..(beat + 1) * 48_000]);
    assert_eq!([0, 2, 4].map(beat), [0.0; 3]);
    assert!([1, 3, 5].map(beat).iter().all(|peak| *peak > 0.01));
}

/// In all keys, with another file beside it.
#[test]
fn files_are_written_side_by_side() {
    let home = Home::new();
    let [midi, wav] = ["line.mid", "line.wav"].map(|name| home.folder().join(name));
    let [to_midi, to_wav] = [&midi, &wav].map(|file| file.to_str().unwrap());
    let words = ["line", "| Dm7 | G7 |", "--keys", "fourths", "--midi", to_midi, "--wav", to_wav];
    let printed = home.run(&words).printed();
    assert!(printed.contains(&format!("written: {to_midi}\nwritten: {to_wav}\n")), "{printed}");
    // Two bars at 120 in each of twelve keys.
    assert_eq!(read(&wav).len(), 12 * 2 * 4 * 24_000 + 5_280);
    assert!(midi.is_file());
}

fn refused(home: &Home, words: &[&str]) -> String {
    let said: Said = home.run(&[&["line", "Dm7"], words].concat());
    assert!(said.status != Some(0) && said.out.is_empty(), "{words:?}: {said:?}");
    said.err
}

/// A setting is the default of its option, and an option wins over it.
#[test]
fn settings_say_what_is_in_the_file() {
    let home = Home::new();
    let (_, plain) = written(&home, "Dm7", &["--count-in"]);
    home.put("fretloom/settings.toml", "count_in = true\nline_level = 35\n");
    let (_, settled) = written(&home, "Dm7", &[]);
    assert_eq!(settled.len(), plain.len());
    // After the count-in, which the level of the line does not touch.
    let line = |samples: &[f32]| peak(&samples[196_000..]);
    // Half the level is a quarter of the size.
    assert!((line(&settled) / line(&plain) - 0.25).abs() < 0.01);
    let (_, typed) = written(&home, "Dm7", &["--count-in=false", "--line-level", "70"]);
    assert_eq!(typed.len(), plain.len() - 4 * 48_000);
    assert!((peak(&typed) / line(&plain) - 1.0).abs() < 0.01);
}

#[test]
fn what_cannot_be_written_is_told_and_leaves_nothing() {
    let home = Home::new();
    let file = home.put("there.wav", "as it was");
    let name = file.to_str().unwrap();
    let error = refused(&home, &["--wav", name]);
    let expected = "it is there already; expected a name that is free, or --overwrite";
    assert!(error.contains(expected), "{error}");
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "as it was");
    let long = home.folder().join("long.wav");
    let words = ["--meter", "255/1", "--tempo", "10", "--exercise", "--bars", "10"];
    let error = refused(&home, &[&words[..], &["--wav", long.to_str().unwrap()]].concat());
    println!("{error}");
    assert!(error.contains("the line lasts longer than 12 hours"), "{error}");
    let names: Vec<_> = std::fs::read_dir(home.folder()).unwrap().collect();
    assert_eq!(names.len(), 1);
}

#[test]
fn what_is_no_choice_of_sound_is_refused() {
    let home = Home::new();
    let error = refused(&home, &["--swing", "2:1"]);
    println!("{error}");
    assert!(error.contains("--wav"), "{error}");
    for (option, value, expected) in [
        ("--a4", "300", "hertz from 380 to 480, as in 440 or 442.5"),
        ("--a4", "nan", "hertz from 380 to 480"),
        ("--swing", "4:1", "the first eighth to the second, 1:1 to 3:1"),
        ("--click", "1", "off, 2-and-4 or every-beat"),
        ("--line-level", "101", "a number from 0 to 100"),
        ("--drone-level", "-1", "a number from 0 to 100"),
        ("--click-level", "loud", "a number from 0 to 100"),
    ] {
        let error = refused(&home, &[&format!("{option}={value}"), "--wav", "a.wav"]);
        assert!(error.contains(expected) && error.contains(value), "{option} {value}: {error}");
    }
}
