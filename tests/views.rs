//! Arpeggios, reaches and views as the program prints them. Values are computed from open pitches,
//! outside the program; common practice, no source.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use program::Home;
use serde_json::Value;

fn text(arguments: &[&str]) -> String {
    Home::new().run(arguments).printed()
}

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&text(&[arguments, &["--json"]].concat())).unwrap()
}

fn numbers(list: &Value) -> Vec<u64> {
    list.as_array().unwrap().iter().map(|number| number.as_u64().unwrap()).collect()
}

#[test]
fn arpeggios_have_lists_as_long_as_their_notes() {
    for (per_string, count) in [("2", 6), ("3", 6)] {
        let answer = json(&["shapes", "G", "--arpeggio", per_string]);
        let shapes = answer["shapes"].as_array().unwrap();
        assert!(shapes.len() > 9);
        for shape in shapes {
            assert_eq!(shape["voicing"], "arpeggio");
            for list in ["strings", "frets", "pitches"] {
                assert_eq!(numbers(&shape[list]).len(), count);
            }
            assert!(shape["fingers"].is_null() || numbers(&shape["fingers"]).len() == count);
            assert!(numbers(&shape["pitches"]).is_sorted_by(|one, next| one < next));
        }
    }
    let two = json(&["shapes", "G", "--arpeggio", "2", "--strings", "4-3", "--frets", "0-7"]);
    assert_eq!(numbers(&two["shapes"][0]["strings"]), [4, 4, 3, 3]);
    assert_eq!(numbers(&two["shapes"][0]["frets"]), [0, 5, 4, 7]);
}

#[test]
fn a_flat_finger_is_said() {
    let answer = json(&["shapes", "G", "--strings", "4-3-2"]);
    let at = |frets: [u64; 3]| {
        let mut shapes = answer["shapes"].as_array().unwrap().iter();
        shapes.find(|shape| numbers(&shape["frets"]) == frets).unwrap()
    };
    let barre = &at([12, 12, 12])["barre"];
    assert_eq!((&barre["finger"], &barre["fret"]), (&Value::from(1), &Value::from(12)));
    assert_eq!(numbers(&barre["strings"]), [4, 3, 2]);
    assert!(at([9, 7, 8])["barre"].is_null());
    assert!(text(&["shapes", "G", "--strings", "4-3-2"]).contains("barre 4-3-2"));
    assert!(json(&["ladder", "F", "G"])["rungs"][0].get("barre").is_none());
}

/// Adim at 5-3-1 spans 126 mm of a guitar: wide for the usual hand, beyond a small one.
#[test]
fn the_reach_of_the_hand_decides_what_is_wide() {
    let low = ["shapes", "Adim", "--strings", "6-5-4", "--frets", "1-5"];
    let usual = text(&low);
    assert!(usual.contains("126 mm wide") && usual.contains("start high on the neck"), "{usual}");
    let small = text(&[&low[..], &["--reach", "80"]].concat());
    assert!(small.contains("no hand holds it at once") && small.contains("beyond"), "{small}");
    let high = text(&["shapes", "Adim", "--strings", "6-5-4", "--frets", "17-20"]);
    assert!(!high.contains("wide") && !high.contains("start high"), "{high}");
}

#[test]
fn the_fifth_position_of_f_and_g() {
    for position in ["5", "V", "v"] {
        let answer = json(&["neck", "Dm7", "--view", "position", "--position", position]);
        assert_eq!(answer["view"], "position");
        let places = answer["places"].as_array().unwrap();
        let (strict, stretched): (Vec<&Value>, Vec<&Value>) =
            places.iter().partition(|place| place["stretched"] == false);
        assert_eq!((strict.len(), stretched.len()), (14, 2));
        for place in strict {
            assert_eq!(place["finger"], place["fret"].as_u64().unwrap() - 4);
        }
        let back =
            stretched.iter().map(|place| [&place["string"], &place["fret"], &place["finger"]]);
        let back: Vec<Vec<u64>> = back
            .map(|place| place.iter().map(|number| number.as_u64().unwrap()).collect())
            .collect();
        assert_eq!(back, [[3, 4, 1], [4, 9, 4]]);
        assert_eq!(answer["hides"][0], "B3 is out of the box without a stretch");
    }
}

#[test]
fn without_a_view_the_json_says_nothing_of_views() {
    let answer = json(&["neck", "Dm7"]);
    assert!(answer.get("view").is_none() && answer.get("hides").is_none());
    assert!(answer["places"][0].get("order").is_none());
}

/// Every view of several instruments: places of the pair, each with its order, in text and JSON.
#[test]
fn every_view_of_every_instrument() {
    for tuning in ["guitar-standard", "ukulele-high-g", "bass-4-string", "guitar-dadgad"] {
        for view in [
            &["position"][..],
            &["position", "--position", "VII", "--open"],
            &["set", "--strings", "2-1"],
            &["set", "--strings", "3"],
            &["set"],
            &["across"],
            &["across", "--overlap", "no", "--inversions", "any,first"],
            &["two"],
            &["two", "--strings", "4-3-2", "--position", "V", "--choice", "2"],
        ] {
            let call = [&["neck", "Dm7", "--tuning", tuning, "--view"], view].concat();
            let answer = json(&call);
            assert_eq!(answer["view"], view[0]);
            let places = answer["places"].as_array().unwrap();
            assert!(!places.is_empty(), "{call:?}");
            assert!(places.iter().all(|place| place["order"].as_u64().unwrap() >= 1));
            let drawn = text(&call);
            assert!(drawn.contains("hidden: "), "{drawn}");
            assert!(text(&[&call[..], &["--ascii"]].concat()).is_ascii());
        }
    }
}

/// E & A# share the half-whole scale and lie a tritone apart: one grip, diagonally.
#[test]
fn a_symmetric_chain_repeats_its_grip() {
    let scale = ["neck", "--scale", "C half-whole", "--pair", "E & A#", "--view", "across"];
    let chain = text(&[&scale[..], &["--tuning", "guitar-all-fourths"]].concat());
    let fingers: Vec<&str> = chain.lines().filter(|line| line.contains(" fingers ")).collect();
    assert_eq!(fingers.len(), 4, "{chain}");
    let grip =
        |line: &str| line.split_once("fingers ").unwrap().1.split(' ').next().map(str::to_owned);
    assert!(fingers.iter().all(|line| grip(line) == grip(fingers[0])), "{chain}");
}

/// A hand that is asked for some frets stands at the first of them.
#[test]
fn a_view_of_some_frets_stands_there() {
    let answer = json(&["neck", "Dm7", "--view", "position", "--frets", "5-8"]);
    let places = answer["places"].as_array().unwrap();
    // F & G by hand, from string 6 up: 5 7 8, 5 8, 5 7, 5 7, 6 8, 5 7 8.
    assert_eq!(places.len(), 14);
    let frets = places.iter().map(|place| place["fret"].as_u64().unwrap());
    assert!(frets.clone().all(|fret| (5..=8).contains(&fret)));
    assert!(text(&["neck", "Dm7", "--view", "position", "--frets", "5-8"]).contains("position V"));
    let lowest = text(&["neck", "Dm7", "--view", "position", "--frets", "0-4"]);
    assert!(lowest.contains("position I"), "{lowest}");
}

/// Behind a capo the lowest position is the one above it, and the open strings belong to it.
#[test]
fn the_lowest_position_is_the_one_above_the_capo() {
    let answer = json(&["neck", "Dm7", "--view", "position", "--capo", "3"]);
    let places = answer["places"].as_array().unwrap();
    assert!(places.iter().any(|place| place["finger"] == 0));
    let fretted = places.iter().filter(|place| place["finger"] != 0);
    assert!(fretted.clone().count() > 8);
    assert!(fretted.into_iter().all(|place| (4..=8).contains(&place["fret"].as_u64().unwrap())));
}

/// The climb goes over the sets of a guitar towards string 1, and each rung sounds higher than the
/// one before. Its first rungs are those of the ladder of 6-5-4.
#[test]
fn a_ladder_across_sets_climbs_the_whole_neck() {
    let across = json(&["ladder", "F", "G", "--across-sets", "--frets", "0-12"]);
    let sets: Vec<Vec<u64>> = across["sets"].as_array().unwrap().iter().map(numbers).collect();
    assert_eq!(sets, [[6, 5, 4], [5, 4, 3], [4, 3, 2], [3, 2, 1]]);
    assert_eq!(numbers(&across["strings"]), [6, 5, 4]);
    let rungs = across["rungs"].as_array().unwrap();
    let height = |rung: &Value| numbers(&rung["pitches"]).iter().sum::<u64>();
    assert!(rungs.is_sorted_by_key(height));
    let lowest = json(&["ladder", "F", "G", "--strings", "6-5-4", "--frets", "0-12"]);
    let lowest = lowest["rungs"].as_array().unwrap();
    assert_eq!(&rungs[..lowest.len()], &lowest[..]);
    let from = json(&["ladder", "F", "G", "--across-sets", "--strings", "4-3-2"]);
    assert_eq!(from["sets"].as_array().unwrap().len(), 2);
    assert!(json(&["ladder", "F", "G"]).get("sets").is_none());
    let said = text(&["ladder", "F", "G", "--across-sets", "--frets", "0-12"]);
    let paragraphs: Vec<&str> = said.trim().split("\n\n").skip(1).collect();
    assert_eq!(paragraphs.len(), 4, "{said}");
    assert!(paragraphs[0].lines().all(|line| line.contains(" on 6-5-4 ")), "{said}");
}

/// D at 12-11-10 on 4-3-2 lies again at 24-23-22, of which a guitar of 22 frets has one note.
#[test]
fn shapes_that_the_neck_cuts_off_are_counted() {
    let all = text(&["shapes", "D", "--strings", "4-3-2", "--inversion", "root"]);
    assert!(all.contains("\n1 more shape would need frets above the last, 22\n"), "{all}");
    let low = text(&["shapes", "D", "--strings", "4-3-2", "--frets", "1-12"]);
    assert!(!low.contains("more shape"), "{low}");
}
