//! Bars that cannot be read are marked, and the rest is read; sections are one text.

use super::*;

fn marked(text: &str) -> (BarText, Vec<BarFault>) {
    BarText::read_marking(&[BarSection::unnamed(text)], Meter::COMMON, None)
        .unwrap_or_else(|fault| panic!("{text}: {fault}"))
}

fn refused(sections: &[BarSection<'_>]) -> BarFault {
    BarText::read_marking(sections, Meter::COMMON, None).unwrap_err()
}

/// Text, what becomes of it, and of each fault the word and its place.
#[test]
fn a_bar_with_a_mistake_is_kept_as_it_is_written() {
    for (text, printed, faults) in [
        ("| Dm7 | G7x | C |", "| Dm7 | G7x | C |", vec![("G7x", 11)]),
        ("| Dm7  Hm7 G7y | C |", "| Dm7 Hm7 G7y | C |", vec![("Hm7", 8)]),
        ("Dm7 G7x C", "| Dm7 | G7x | C |", vec![("G7x", 7)]),
        ("| C F / | G |", "| C F / | G |", vec![("C", 3)]),
        ("| C / / / / | G |", "| C / / / / | G |", vec![("C", 3)]),
        ("| % | C |", "| % | C |", vec![("%", 3)]),
        ("| C % | D |", "| C % | D |", vec![("%", 5)]),
        ("| C [B] F | G |", "| C [B] F | G |", vec![("[B]", 5)]),
        ("| (Dm7 G7) | C |", "| (Dm7 G7) | C |", vec![("(Dm7", 3)]),
        ("|: [A] C | 3/4 Xy :| 4/4 F |", "|: [A] C | 3/4 Xy :| 4/4 F |", vec![("Xy", 16)]),
        ("| C | 3/4 % | Hm |", "| C | 3/4 % | Hm |", vec![("%", 11), ("Hm", 15)]),
    ] {
        let (read, found) = marked(text);
        assert_eq!(read.to_string(), printed);
        let found: Vec<(&str, usize)> =
            found.iter().map(|fault| (&*fault.word, fault.error.at())).collect();
        assert_eq!(found, faults, "{text}");
    }
}

/// Four beats with the text in place of its chords, and the rest where it would be.
#[test]
fn a_marked_bar_keeps_its_time() {
    let (text, _) = marked("| Dm7 | G7x G7 | % | C D.C.alFine | F Fine |");
    let sounds = "0 Dm7, 4 G7x G7, 12 C, 16 Dm7, 20 G7x G7, 28 C, 32 F; 36";
    assert_eq!(sounding(&text, OptionalChords::Played), sounds);
    let (text, _) = marked("| Dm7 | 3/4 G7x | C |");
    assert_eq!(sounding(&text, OptionalChords::Played), "0 Dm7, 4 G7x, 7 C; 10");
}

/// Of 64 chords one is too many. What sounds is cut, what is written is not.
#[test]
fn a_bar_with_too_many_chords_is_marked() {
    let bar = "C F ".repeat(33);
    let (text, faults) = marked(&format!("| {bar} | G |"));
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].error.expected(), "a bar line: a bar holds 64 chords at most");
    assert_eq!(text.to_string(), format!("| {bar}| G |"));
    let chorus = text.unfolded(OptionalChords::Played);
    let (_, symbol) = &chorus.chords.changes()[0];
    assert_eq!(symbol.to_string().chars().count(), 80);
}

/// Without its marks nobody knows the form.
#[test]
fn a_mark_with_a_mistake_is_refused() {
    for (text, word) in [
        ("| C | segno F |", "segno"),
        ("| C D.C. al Coda | F |", "al"),
        ("| [A C | F |", "[A"),
        ("| 5/3 C | F |", "5/3"),
        ("|: C | F |", "|:"),
        ("| C ||| F |", "|||"),
        ("| C | | F |", "|"),
        ("pickup=9 | C | F |", "pickup=9"),
    ] {
        let fault = refused(&[BarSection::unnamed(text)]);
        assert_eq!(&*fault.word, word, "{text}: {fault}");
    }
}

#[test]
fn what_holds_no_bar_that_can_be_read_is_refused() {
    let fault = refused(&[BarSection::unnamed("# a comment\nHello world\nthis is it\n")]);
    assert_eq!((&*fault.word, fault.error.line(), fault.error.at()), ("Hello", Some(2), 1));
}

#[test]
fn the_mistake_of_a_bar_is_told_by_itself() {
    let (text, _) = marked("| C |\n| Dm7   Hm7 | F |");
    let BarContent::Unread(bar) = &text.bars()[1].content else { panic!("{text}") };
    let said = "cannot read the bar \"Dm7 Hm7\" at character 5: expected a note letter, A to G; H is \
                written B here, and B is Bb";
    assert_eq!(bar.error().to_string(), said);
    let (text, _) = marked("| C |\n| F /   / | F |");
    let BarContent::Unread(bar) = &text.bars()[1].content else { panic!("{text}") };
    let said = "cannot read the bar \"F / /\" at character 1: expected one chord or / for each beat \
                of the bar: 4 in 4/4, not 3";
    assert_eq!(bar.error().to_string(), said);
}

/// A sign in the first section holds in the last.
#[test]
fn sections_are_one_text() {
    let section = |name, text| BarSection { name, text };
    let sections = [
        section(None, "N.C."),
        section(Some("A"), "|: Segno Cmaj7 | A7 | Dm7 | G7 ToCoda :|\n# and on"),
        section(Some("Solo changes"), "Dm7 G7"),
        section(Some("Out"), "| Em7 | A7 D.S.alCoda |\n| Coda C6 |"),
    ];
    let pick_up = PickUp::new(1, 1);
    let (text, faults) = BarText::read_marking(&sections, Meter::COMMON, pick_up).unwrap();
    assert_eq!(faults, []);
    let printed = "pickup=1 | N.C. |\n|: [A] Segno Cmaj7 | A7 | Dm7 | G7 ToCoda :|\n# and on\n\
                   | [Solo changes] Dm7 | G7 |\n| [Out] Em7 | A7 D.S.alCoda | Coda C6 |";
    assert_eq!(text.to_string(), printed);
    let chorus = text.unfolded(OptionalChords::Played);
    let written: Vec<usize> = chorus.heard.iter().map(|bar| bar.written).collect();
    assert_eq!(written, [0, 1, 2, 3, 4, 1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 9]);
    assert_eq!(chorus.heard[9].section.as_deref(), Some("Solo changes"));
    assert_eq!(BarText::read(printed, Meter::COMMON).unwrap(), text);
}

/// Places count in the section where they are.
#[test]
fn the_section_of_a_mistake_is_told() {
    let section = |name, text| BarSection { name, text };
    let sections = [section(Some("A"), "| C |"), section(Some("B"), "| F |\n| G7x |")];
    let (_, faults) = BarText::read_marking(&sections, Meter::COMMON, None).unwrap();
    let fault = &faults[0];
    assert_eq!((fault.section, fault.error.line(), fault.error.at()), (1, Some(2), 5));
    let sections = [section(Some("A"), "| C |"), section(Some("B"), "| F D.S. |")];
    let fault = refused(&sections);
    assert_eq!((fault.section, fault.error.line(), fault.error.at()), (1, None, 5));
    let fault = refused(&[section(Some("A"), "| C |"), section(Some("B"), " \n")]);
    assert_eq!(fault.section, 1);
    assert_eq!(fault.error.expected(), "a chord, or bars as in | Dm7 | G7 |");
    let fault = refused(&[
        section(Some("A"), "| C |:"),
        section(Some("B"), "| F :|"),
        section(Some("C"), "| [D]"),
    ]);
    assert_eq!((fault.section, fault.error.at()), (2, 3));
    let long = "| C ".repeat(30_000);
    let fault = refused(&[section(Some("A"), &long), section(Some("B"), &long)]);
    assert_eq!((fault.section, fault.error.expected()), (1, "at most 200000 characters"));
}

#[test]
fn the_name_of_a_section_may_have_spaces() {
    for (text, printed) in [
        ("| [Solo changes] C | F |", "| [Solo changes] C | F |"),
        ("|:[ Last   time ] C | F :|", "|: [Last time] C | F :|"),
        ("[Out and gone]\n| C |", "| [Out and gone] C |"),
    ] {
        assert_eq!(read(text).to_string(), printed);
    }
}
