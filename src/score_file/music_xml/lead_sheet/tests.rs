//! Lead sheets by hand.

use fretloom_theory::{BarText, Chart, Meter, OptionalChords, PitchClass, Quarters};

use crate::score_file::{LeadSheet, read_lead_sheet};

/// A measure of MusicXML out of words: `D.minor-seventh` is a chord, `C5:4` a note of four quarters, `r:1`
/// a rest; `|:`, `:|`, `:|3`, `1[` and `]` are marks, `sound=dalsegno` says what is heard, `shown=coda`
/// is a sign and `words=To_Coda` words.
fn measure(number: usize, words: &str, head: &str) -> String {
    let pieces: String = words.split(' ').map(piece).collect();
    format!("<measure number=\"{number}\">{head}{pieces}</measure>")
}

fn piece(word: &str) -> String {
    let words = |text: &str| {
        format!("<direction><direction-type><words>{text}</words></direction-type></direction>")
    };
    let bar_line = |inside: &str| format!("<barline>{inside}</barline>");
    match word {
        "|:" => bar_line("<repeat direction=\"forward\"/>"),
        ":|" => bar_line("<repeat direction=\"backward\"/>"),
        "]" => bar_line("<ending type=\"stop\" number=\"1\"/>"),
        "segno" => "<direction><direction-type><segno/></direction-type></direction>".to_owned(),
        "coda" => "<direction><sound coda=\"c\"/></direction>".to_owned(),
        "tocoda" => words("To Coda"),
        "fine" => words("Fine"),
        "ds" => words("D.S. al Coda"),
        "dc" => words("D.C. al Fine"),
        _ if word.starts_with(":|") => {
            bar_line(&format!("<repeat direction=\"backward\" times=\"{}\"/>", &word[2..]))
        }
        _ if word.starts_with("sound=") => format!("<sound {}=\"yes\"/>", &word[6..]),
        _ if word.starts_with("shown=") => {
            format!("<direction><direction-type><{}/></direction-type></direction>", &word[6..])
        }
        _ if word.starts_with("words=") => words(&word[6..].replace('_', " ")),
        _ if word.starts_with('@') => format!(
            "<direction><direction-type><rehearsal>{}</rehearsal></direction-type></direction>",
            &word[1..]
        ),
        _ if word.ends_with('[') => {
            let number = word.trim_end_matches('[').replace('_', " ");
            bar_line(&format!("<ending type=\"start\" number=\"{number}\"/>"))
        }
        _ => match (word.split_once('.'), word.split_once(':')) {
            (Some((root, kind)), _) => format!(
                "<harmony><root><root-step>{root}</root-step></root><kind>{kind}</kind></harmony>"
            ),
            (_, Some(("r", length))) => {
                format!("<note><rest/><duration>{length}</duration></note>")
            }
            (_, Some((note, length))) => format!(
                "<note><pitch><step>{}</step><octave>{}</octave></pitch><duration>{length}</duration></note>",
                &note[..1],
                &note[1..]
            ),
            _ => String::new(),
        },
    }
}

/// Divisions are half a quarter.
fn sheet_of(measures: &[&str]) -> LeadSheet {
    read_lead_sheet(score(measures, "").as_bytes()).unwrap()
}

fn score(measures: &[&str], head: &str) -> String {
    let head = format!("<attributes><divisions>2</divisions>{head}</attributes>");
    let measures = measures.iter().zip(1..);
    let measures: String = measures
        .map(|(words, number)| measure(number, words, if number == 1 { &head } else { "" }))
        .collect();
    format!("<score-partwise><part id=\"P1\">{measures}</part></score-partwise>")
}

fn printed(measures: &[&str]) -> String {
    sheet_of(measures).chart.to_string()
}

#[test]
fn chords_stand_where_they_begin() {
    for (measures, expected) in [
        (&["D.minor-seventh r:8", "G.dominant r:4 C.major r:4"][..], "| Dm7 | G7 C |"),
        (&["D.minor r:6 G.dominant r:2"], "| Dm / / G7 |"),
        (&["r:8", "C.major r:8", "r:8", "r:4 F.major r:4"], "| N.C. | C | C | C F |"),
        // A push stands on the beat that it comes before, and two in one beat each have their place.
        (&["C.major r:5 F.major r:3"], "| C / / F |"),
        (&["C.major r:6 F.major r:1 G.major r:1"], "| C C C C C C F G |"),
        (&["C.none r:8", "C.Neapolitan r:8", "C.major r:8"], "| N.C. | ?CNeapolitan | C |"),
    ] {
        assert_eq!(printed(measures), expected, "{measures:?}");
    }
    let remarks = sheet_of(&["C.major r:5 F.major r:3"]).remarks;
    assert_eq!(remarks, ["one chord that begins between beats stands on the nearest beat"]);
}

#[test]
fn the_form_is_that_of_the_score() {
    let bar = |more: &str| format!("C.major r:8 {more}");
    let heard = |measures: &[String]| {
        let measures: Vec<&str> = measures.iter().map(String::as_str).collect();
        let sheet = sheet_of(&measures);
        let heard = sheet.chart.chorus(OptionalChords::Played).heard;
        let letters = heard.iter().map(|bar| char::from(b'a' + bar.written as u8));
        (sheet.chart.to_string(), letters.collect::<String>(), sheet.remarks.len())
    };
    for (measures, text, order) in [
        (vec![bar("|:"), bar(":|")], "|: C | C :|", "abab"),
        (vec![bar("|:"), bar(":|3"), bar("")], "|: C | C :|3 C |", "abababc"),
        (
            vec![bar("|:"), bar("1[ ] :|"), bar("2[ ]"), bar("")],
            "|: C | 1. C :| 2. C | C |",
            "abacd",
        ),
        (vec![bar(""), bar("fine"), bar("dc")], "| C | C Fine | C D.C.alFine |", "abcab"),
        (
            vec![bar("segno @A"), bar("tocoda"), bar("ds"), bar("coda")],
            "| [A] Segno C | C ToCoda | C D.S.alCoda | Coda C |",
            "abcabd",
        ),
    ] {
        assert_eq!(heard(&measures), (text.to_owned(), order.to_owned(), 0), "{measures:?}");
    }
}

/// By hand: which measures are heard, and as which bars they are typed.
#[test]
fn every_way_to_write_a_form_is_heard_as_players_do() {
    for (measures, text, expected) in [
        // The standard: `times` is how often all is played, twice where it is not said.
        (&["|:", ":|3", ""][..], "|: C | C :|3 C |", "abababc"),
        (&["|:", ":|1", ""], "| C | C | C |", "abc"),
        (&["|:", ":|0", ""], "|: C | C :| C |", "ababc"),
        (&["|:", ":|often", ""], "|: C | C :| C |", "ababc"),
        (&["", ":|1", "|:", ":|"], "| C | C |: C | C :|", "abcdcd"),
        (&["sound=forward-repeat", ":|", ""], "|: C | C :| C |", "ababc"),
        // Endings for several times.
        (&["|:", "1,2[ ] :|", "3[ ]", ""], "|: C | 1. 2. C :| 3. C | C |", "ababacd"),
        (&["|:", "1,_2[ ] :|3", "3[ ]", ""], "|: C | 1. 2. C :| 3. C | C |", "ababacd"),
        (&["|:", "1-2[ ] :|", "3[ ]", ""], "|: C | 1. 2. C :| 3. C | C |", "ababacd"),
        (&["|:", "1[ ] :|1", "2[ ]", ""], "|: C | 1. C :| 2. C | C |", "abacd"),
        // D.S., coda and fine, each said by a sound, shown as a sign, and in words.
        (
            &["", "sound=segno", "", "sound=dalsegno", ""],
            "| C | Segno C | C | C D.S. | C |",
            "abcdbcde",
        ),
        (
            &["sound=segno", "sound=tocoda", "sound=dalsegno", "sound=coda"],
            "| Segno C | C ToCoda | C D.S.alCoda | Coda C |",
            "abcabd",
        ),
        (
            &["shown=segno", "shown=coda", "words=D.S._al_Coda", "shown=coda"],
            "| Segno C | C ToCoda | C D.S.alCoda | Coda C |",
            "abcabd",
        ),
        (
            &["", "words=To_Coda shown=coda", "words=D.C._al_Coda", "words=Coda"],
            "| C | C ToCoda | C D.C.alCoda | Coda C |",
            "abcabd",
        ),
        (&["", "sound=fine", "sound=dacapo"], "| C | C Fine | C D.C.alFine |", "abcab"),
        (
            &["", "shown=segno words=Fine", "", "words=Dal_Segno_al_Fine"],
            "| C | Segno C Fine | C | C D.S.alFine |",
            "abcdb",
        ),
        // A jump waits for the last time through its repeat, and repeats are not taken again after it.
        (
            &["", "|:", "1[ ] :|", "2[ ]", "sound=fine", "sound=dacapo"],
            "| C |: C | 1. C :| 2. C | C Fine | C D.C.alFine |",
            "abcbdefabde",
        ),
    ] {
        let measures: Vec<String> =
            measures.iter().map(|marks| format!("C.major r:8 {marks}")).collect();
        let measures: Vec<&str> = measures.iter().map(String::as_str).collect();
        let sheet = sheet_of(&measures);
        let heard = sheet.chart.chorus(OptionalChords::Played).heard;
        let heard: String = heard.iter().map(|bar| char::from(b'a' + bar.written as u8)).collect();
        let nothing: [&str; 0] = [];
        let typed = sheet.chart.to_string().replace("|\n|", "|").replace('\n', " ");
        assert_eq!((typed.as_str(), heard.as_str()), (text, expected));
        assert_eq!(sheet.remarks, nothing, "{text}");
    }
}

/// Times that typed bars do not have are written out, and too many are refused at their bar.
#[test]
fn a_repeat_is_heard_as_often_as_it_says() {
    let heard = |times: &str| {
        let (first, last) = ("C.major r:8", format!("F.major r:8 :|{times}"));
        let read = read_lead_sheet(score(&["G.major r:8", first, &last], "").as_bytes());
        read.map(|sheet| sheet.chart.chorus(OptionalChords::Played).heard.len())
            .map_err(|error| error.to_string())
    };
    assert_eq!(heard("99"), Ok(297));
    assert_eq!(heard("300"), Ok(900));
    assert_eq!(heard("3333"), Ok(9_999));
    for (times, said) in [
        ("3334", "3334 times"),
        ("99999", "99999 times"),
        ("99999999999", "more than a million times"),
    ] {
        let told = heard(times).unwrap_err();
        let expected = "; expected 10,000 bars as they are heard";
        assert!(told.contains(&format!("is heard {said}")) && told.ends_with(expected), "{told}");
        assert!(told.starts_with("line 1, column "), "{told}");
    }
}

/// A repeat that never ends is none, and an ending alone is passed over the second time: typed bars
/// have neither.
#[test]
fn what_typed_bars_cannot_have_is_written_out() {
    let sheet = sheet_of(&["|: C.major r:8", "1[ D.minor r:8 ] :|", "E.minor r:8"]);
    assert_eq!(sheet.chart.to_string(), "| C | Dm | C | Em |");
    let names: Vec<&str> = sheet.measures.iter().map(|measure| measure.name.as_str()).collect();
    assert_eq!(names, ["1", "2", "1", "3"]);
    assert!(sheet.remarks[0].ends_with("; the bars are written out as they are heard"));
    assert_eq!(printed(&["|: C.major r:8", "D.minor r:8"]), "| C | Dm |");
}

/// In 3/4 with two flats and a pick-up of a quarter; later a bar of two quarters.
#[test]
fn meter_key_pick_up_title_and_tempo_are_those_of_the_score() {
    let head = "<key><fifths>-2</fifths><mode>minor</mode></key>\
                <time><beats>3</beats><beat-type>4</beat-type></time>";
    let measures = ["D.dominant D5:2", "G.minor G4:6", "C.minor r:4", "G.minor r:6"];
    let file = score(&measures, head).replace(
        "<score-partwise>",
        "<score-partwise><work><work-title>Two Doors</work-title></work>",
    );
    let file = file.replace("</attributes>", "</attributes><sound tempo=\"90\"/>");
    let LeadSheet { chart, melody, .. } = read_lead_sheet(file.as_bytes()).unwrap();
    assert_eq!(chart.to_string(), "pickup=1 | 3/4 D7 | Gm | 2/4 Cm | 3/4 Gm |");
    assert_eq!(chart.title.as_deref(), Some("Two Doors"));
    assert_eq!(chart.key.unwrap().to_string(), "G minor");
    assert_eq!(chart.tempo.unwrap().to_string(), "90");
    let bars = chart.chorus(OptionalChords::Played).bars;
    let held = melody.held(Quarters::ZERO, Quarters::ONE, &bars);
    assert_eq!(held.iter().map(PitchClass::number).collect::<Vec<_>>(), [2]);
}

/// The second time through the melody is heard again, in the second ending its own.
#[test]
fn the_melody_is_heard_with_the_form() {
    let sheet = sheet_of(&["|: C.major C5:8", "1[ F.major A4:8 ] :|", "2[ G.major B4:8 ]"]);
    let bars = sheet.chart.chorus(OptionalChords::Played).bars;
    let held = |bar: u32| {
        let [from, until] = [bar, bar + 1].map(|bar| Quarters::whole(4 * bar));
        sheet.melody.held(from, until, &bars).iter().map(PitchClass::number).collect::<Vec<_>>()
    };
    assert_eq!([0, 1, 2, 3].map(held), [[0], [9], [0], [11]]);
    let sheet = sheet_of(&["|: C.major C5:8", "F.major A4:8 :|3"]);
    let bars = sheet.chart.chorus(OptionalChords::Played).bars;
    let held = |bar: u32| {
        let [from, until] = [bar, bar + 1].map(|bar| Quarters::whole(4 * bar));
        sheet.melody.held(from, until, &bars).iter().map(PitchClass::number).collect::<Vec<_>>()
    };
    assert_eq!([0, 1, 2, 3, 4, 5].map(held), [[0], [9], [0], [9], [0], [9]]);
}

#[test]
fn what_is_no_lead_sheet_is_refused() {
    for (file, said) in [
        (score(&["C5:8"], ""), "it holds no chord symbols; expected a lead sheet: MusicXML with"),
        (score(&["C.Neapolitan r:8"], ""), "line 1, column 31: found \"CNeapolitan\"; expected"),
        (
            score(&["C.major"], ""),
            "none of its measures has a length; expected measures with notes",
        ),
        ("MThd".to_owned(), "it is music without chord symbols; expected a chart in TOML"),
        ("<score-partwise>".to_owned(), "expected"),
    ] {
        let error = read_lead_sheet(file.as_bytes()).unwrap_err().to_string();
        assert!(error.contains(said), "{error}");
    }
    let many = vec!["C.major r:8"; 10_001];
    let error = read_lead_sheet(score(&many, "").as_bytes()).unwrap_err().to_string();
    assert!(error.contains("its bars or their repeats are too many"), "{error}");
}

/// What is printed of a sheet is the same chart.
#[test]
fn a_sheet_prints_as_bars_that_are_read() {
    let sheet = sheet_of(&["@A |: C.major r:8", "G.dominant r:6 F.major r:2 :|", "C.major r:8"]);
    let read = BarText::read(&sheet.chart.to_string(), Meter::COMMON).unwrap();
    assert_eq!(Chart::of(read).bars, sheet.chart.bars);
}
