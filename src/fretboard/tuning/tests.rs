use super::*;

fn strings(notes: &[&str]) -> Vec<OpenString> {
    let open = |note: &&str| OpenString::new(note.parse().unwrap());
    notes.iter().map(open).collect()
}

fn refusal(notes: &[&str], frets: u32, scale_mm: f64) -> String {
    let tuning = Tuning::new(strings(notes), frets, scale_mm);
    tuning.unwrap_err().to_string()
}

#[test]
fn what_cannot_be_an_instrument_is_refused_in_words() {
    let three = ["G2", "D3", "G3"];
    for (said, expected) in [
        (refusal(&["G2", "D3"], 22, 648.0), "3 to 12 strings, not 2"),
        (refusal(&["E2"; 13], 22, 648.0), "3 to 12 strings, not 13"),
        (refusal(&three, 37, 648.0), "0 to 36 frets, not 37"),
        (refusal(&three, 22, 99.0), "a scale length of 100 to 1500 mm, not 99"),
        (refusal(&three, 22, f64::NAN), "a scale length of 100 to 1500 mm, not NaN"),
        (
            refusal(&["G2", "D3", "G8"], 22, 648.0),
            "string 1 lower than G8, to sound at most G9 at fret 22",
        ),
    ] {
        let expected = format!("cannot use this tuning: expected {expected}");
        assert_eq!(said, expected);
    }
}

#[test]
fn a_string_cannot_start_above_the_last_fret() {
    let mut strings = strings(&["G4", "D3", "G3"]);
    strings[0] = OpenString::starting_at(strings[0].note(), Fret::new(5).unwrap());
    assert!(Tuning::new(strings.clone(), 5, 670.0).is_ok());
    assert_eq!(
        Tuning::new(strings, 4, 670.0).unwrap_err().to_string(),
        "cannot use this tuning: expected string 3 to start at fret 4, the last one, at most, \
         not at 5"
    );
}

#[test]
fn a_capo_lies_on_strings_and_frets_that_are_there() {
    let tuning = || Tuning::new(strings(&["G4", "C4", "E4", "A4"]), 15, 345.0).unwrap();
    let refused = |fret, strings| {
        let capo = Capo::read(fret, strings).unwrap();
        tuning().with_capo(capo).unwrap_err().to_string()
    };
    assert_eq!(
        refused("16", None),
        "cannot use this tuning: expected a capo at fret 15, the last one, at most, not at 16"
    );
    assert_eq!(
        refused("2", Some("5-4-3")),
        "cannot use this tuning: expected a capo on strings from 1 to 4, not on 5-4-3"
    );
    assert!(tuning().with_capo(Capo::read("15", None).unwrap()).is_ok());
    let none = tuning().with_capo(Capo::read("0", Some("4-3")).unwrap()).unwrap();
    assert_eq!(none, tuning());
    // The next capo takes the place of the last; the two do not add up.
    let third = tuning().with_capo(Capo::read("3", None).unwrap()).unwrap();
    let second = Capo::read("2", None).unwrap();
    assert_eq!(third.with_capo(second), tuning().with_capo(second));
}

#[test]
fn courses_are_checked() {
    let tuning = || Tuning::new(strings(&["G4", "C4", "E4"]), 12, 345.0).unwrap();
    let notes = |texts: &[&str]| texts.iter().map(|text| text.parse().unwrap()).collect();
    let refused = |beside: Vec<Vec<NamedPitch>>| tuning().with_courses(beside).unwrap_err();
    assert_eq!(
        refused(vec![notes(&["G3"])]).expected(),
        "a list of further notes for each of 3 strings, not 1 lists"
    );
    assert_eq!(
        refused(vec![notes(&["G3", "G3", "G4"]), vec![], vec![]]).expected(),
        "a course of 3 strings at most on string 3, not of 4"
    );
    assert_eq!(
        refused(vec![vec![], vec![], notes(&["G#8"])]).expected(),
        "string 1 lower than G♯8, to sound at most G9 at fret 12"
    );
    let with = tuning().with_courses(vec![notes(&["G3"]), vec![], vec![]]).unwrap();
    assert!(with.has_courses());
    assert_eq!(with.doublings(StringNumber::new(3).unwrap()), &notes(&["G3"])[..]);
    assert_eq!(with.doublings(StringNumber::FIRST), []);
    assert_eq!(with.doublings(StringNumber::HIGHEST), []);
    assert_eq!(tuning().with_courses(vec![vec![]; 3]), Ok(tuning()));
}

#[test]
fn strings_that_do_not_rise_are_reentrant() {
    for (tuning, reentrant) in
        [("E2 A2 D3", false), ("G4 C4 E4 A4", true), ("A3 D4 F#4 B3", true), ("D3 D3 A3", false)]
    {
        assert_eq!(Tuning::read(tuning).unwrap().is_reentrant(), reentrant, "{tuning}");
    }
}

#[test]
fn a_neck_may_have_no_frets_and_the_highest_notes_are_allowed() {
    assert!(Tuning::new(strings(&["G9", "G9", "G9"]), 0, 100.0).is_ok());
    assert!(Tuning::new(strings(&["C-1", "C-1", "G6"]), 36, 1500.0).is_ok());
}

#[test]
fn strings_are_found_by_number() {
    let tuning = Tuning::new(strings(&["G4", "C4", "E4", "A4"]), 15, 345.0).unwrap();
    let by_number: Vec<(u8, String)> =
        tuning.strings().map(|(number, open)| (number.number(), open.note().to_string())).collect();
    let expected = [(4, "G4"), (3, "C4"), (2, "E4"), (1, "A4")];
    assert_eq!(by_number, expected.map(|(n, note)| (n, note.to_owned())));
    assert_eq!(tuning.string(StringNumber::new(5).unwrap()), None);
    for (number, open) in tuning.strings() {
        assert_eq!(tuning.string(number), Some(open));
    }
}
