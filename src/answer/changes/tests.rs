//! Charts by hand: which bars there are, what sounds in them, and whose word counts.

use fretloom_fretboard::{Neck, Region, Tuning};
use fretloom_theory::{
    BarSection, BarText, Chart, ChartChoice, Meter, OptionalChords, SpelledTriad,
};

use super::*;
use crate::answer::refusal::Refusal;

fn neck() -> Neck {
    Neck::new(Tuning::read("EADGBE").unwrap())
}

fn chart(text: &str) -> Chart {
    let sections = [BarSection::unnamed(text)];
    Chart::of(BarText::read_marking(&sections, Meter::COMMON, None).unwrap().0)
}

fn asked(question: &ChangesQuestion) -> Result<ChangesAnswer, Refusal> {
    ChangesAnswer::new(&neck(), question)
}

fn answer(text: &str) -> ChangesAnswer {
    asked(&ChangesQuestion::of(chart(text))).unwrap()
}

/// `number section: beat symbol length, …`, a chord that goes on with `=`.
fn told(answer: &ChangesAnswer) -> Vec<String> {
    let bar = |bar: &ChangesBar| {
        let chord = |it: &BarChord| {
            let symbol = match it.sounding {
                Sounding::NoChord => "N.C.".to_owned(),
                Sounding::Begins(chord) => answer.best().chords[chord].chord().to_string(),
                Sounding::GoesOn(chord) => format!("={}", answer.best().chords[chord].chord()),
            };
            format!("{} {symbol} {}", it.beat, it.beats(bar.meter))
        };
        let chords: Vec<String> = bar.chords.iter().map(chord).collect();
        let section = bar.section.as_deref().unwrap_or("-");
        let unread = bar.unread.as_ref().map(|bar| format!("? {bar}"));
        format!("{} {section}: {}{}", bar.number, chords.join(", "), unread.unwrap_or_default())
    };
    answer.bars.iter().map(bar).collect()
}

#[test]
fn bars_are_those_that_are_heard() {
    let answer = answer("pickup=1 | G7 | |: [A] Dm7 G7 |1. Cmaj7 | % :|2. C6 N.C. | [B] 3/4 Fm7 |");
    assert_eq!(
        told(&answer),
        [
            "0 -: 4 G7 1",
            "1 A: 1 Dm7 2, 3 G7 2",
            "2 A: 1 Cmaj7 4",
            "3 A: 1 =Cmaj7 4",
            "4 A: 1 Dm7 2, 3 G7 2",
            "5 A: 1 C6 2, 3 N.C. 2",
            "6 B: 1 Fm7 3",
        ]
    );
    let plan = answer.best();
    assert_eq!(plan.chords.len(), 8);
    let at = |bar: usize| plan.at(answer.bars[bar].from).unwrap().1.chord().to_string();
    assert_eq!(at(3), "Cmaj7");
    assert!(
        plan.at(answer.bars[5].chords[1].from).is_none(),
        "nothing is played where no chord is"
    );
}

/// In 6/8 two beats of three eighths are counted.
#[test]
fn beats_are_those_of_the_meter() {
    assert_eq!(told(&answer("6/8 Dm7 G7 | Cmaj7")), ["1 -: 1 Dm7 1, 2 G7 1", "2 -: 1 Cmaj7 2"]);
}

#[test]
fn a_bar_that_cannot_be_read_keeps_its_place() {
    let answer = answer("| Dm7 | G7 Cx7 | % | Cmaj7 | % |");
    assert_eq!(
        told(&answer),
        ["1 -: 1 Dm7 4", "2 -: ? G7 Cx7", "3 -: ? G7 Cx7", "4 -: 1 Cmaj7 4", "5 -: 1 =Cmaj7 4"]
    );
    assert_eq!(answer.bars[2].unread.as_ref().unwrap().error().at(), 5);
    assert_eq!(answer.best().chords.len(), 2);
}

#[test]
fn chords_in_brackets_are_played_where_that_is_asked_for() {
    let question = ChangesQuestion::of(chart("| Dm7 G7 | Cmaj7 (A7) |"));
    assert_eq!(told(&asked(&question).unwrap()), ["1 -: 1 Dm7 2, 3 G7 2", "2 -: 1 Cmaj7 4"]);
    let question = ChangesQuestion { optional: OptionalChords::Played, ..question };
    assert_eq!(
        told(&asked(&question).unwrap()),
        ["1 -: 1 Dm7 2, 3 G7 2", "2 -: 1 Cmaj7 2, 3 A7 2"]
    );
}

fn settled(bar: u64, beat: &str, scale: &str, pair: [&str; 2]) -> ChartChoice {
    ChartChoice {
        scale: (!scale.is_empty()).then(|| scale.parse().unwrap()),
        pair: (!pair[0].is_empty()).then(|| pair.map(|name| name.parse::<SpelledTriad>().unwrap())),
        ..ChartChoice::nothing(bar, beat.parse().unwrap())
    }
}

/// A pair of the player's own may hold notes outside the scale, and keeps its names.
#[test]
fn what_is_settled_wins() {
    let mut chart = chart("| Dm7 G7 | Cmaj7 | % |");
    chart.settle(settled(1, "3", "G altered", ["", ""]));
    chart.settle(settled(2, "1", "", ["D", "F#dim"]));
    assert!(chart.choices[1].triad_pair().is_none(), "they share notes, so nothing is settled");
    chart.settle(settled(2, "1", "", ["F#", "E"]));
    let answer = asked(&ChangesQuestion::of(chart)).unwrap();
    let [dm7, g7, cmaj7] = &answer.best().chords[..] else { panic!("three chords") };
    assert_eq!(g7.over().scale().to_string(), "G altered");
    assert_eq!(cmaj7.pair.to_string(), "F♯ & E");
    assert!(!cmaj7.sound().outside().is_empty());
    assert!(cmaj7.settled.is_some() && dm7.settled.is_none());
    assert!(cmaj7.why().to_string().contains("as you chose"));
}

/// What is settled within a chord holds from there on.
#[test]
fn a_chord_is_divided_where_something_is_settled_within_it() {
    let mut chart = chart("| Cmaj7 | % | % | Fmaj7 |");
    chart.settle(settled(2, "3", "", ["E", "F#"]));
    let answer = asked(&ChangesQuestion::of(chart)).unwrap();
    assert_eq!(
        told(&answer),
        ["1 -: 1 Cmaj7 4", "2 -: 1 =Cmaj7 2, 3 Cmaj7 2", "3 -: 1 =Cmaj7 4", "4 -: 1 Fmaj7 4"]
    );
    let pairs: Vec<bool> =
        answer.best().chords.iter().map(|chord| chord.pair.to_string() == "E & F♯").collect();
    assert_eq!(pairs[..2], [false, true]);
}

#[test]
fn a_note_is_never_played_where_it_is_not_wanted() {
    let mut question = ChangesQuestion::of(chart("| Dm7 | G7 | Cmaj7 | % |"));
    // Bar 4 goes on with the chord of bar 3.
    for never in ["13@1", "D@2.1", "A@4"] {
        question = question.never(never.parse().unwrap()).unwrap();
    }
    let answer = asked(&question).unwrap();
    let without = ["B", "D", "A"];
    for (chord, name) in answer.best().chords.iter().zip(without) {
        let note: fretloom_theory::NoteName = name.parse().unwrap();
        let holds = chord.sound().pair().set().contains(note.pitch_class());
        assert!(!holds, "{} over {}", chord.pair, chord.chord());
    }
}

/// The fingers never leave the strings and frets, and the last bar leads to the first.
#[test]
fn the_hand_stays_where_it_is_locked() {
    let region = Region::default().on("4-3-2".parse().unwrap()).within("5-10".parse().unwrap());
    let question = ChangesQuestion {
        region: Some(region),
        plans: 3,
        ..ChangesQuestion::of(chart("| F#m7b5 | B7alt | Em6 | % |"))
    };
    let answer = asked(&question).unwrap();
    for plan in answer.plans() {
        let in_hand: Vec<ShapeInHand> =
            plan.chords.iter().map(|chord| chord.hand.unwrap()).collect();
        for (index, (chord, hand)) in plan.chords.iter().zip(&in_hand).enumerate() {
            assert!(chord.pair.names().contains(&hand.shape.triad));
            assert!(hand.shape.frets.iter().all(|fret| (5..=10).contains(&fret.number())));
            let before = &in_hand[(index + in_hand.len() - 1) % in_hand.len()].shape.shape;
            let movement = hand.movement.unwrap();
            assert_eq!(movement.voices().map(|voice| voice.from()), before.places());
            assert_eq!(movement.voices().map(|voice| voice.to()), hand.shape.shape.places());
            assert!(hand.choices > 0);
        }
    }
    let mut once = question;
    once.wishes.ends = true;
    assert!(asked(&once).unwrap().best().chords[0].hand.unwrap().movement.is_none());
}

#[test]
fn plans_come_the_best_first() {
    let question = ChangesQuestion { plans: 4, ..ChangesQuestion::of(chart("| Dm7 | G7 | C6 |")) };
    let answer = asked(&question).unwrap();
    let costs: Vec<_> = answer.plans().map(|plan| plan.cost).collect();
    assert_eq!(costs.len(), 4);
    assert!(costs.is_sorted());
    assert_eq!(answer.best().cost, costs[0]);
}

#[test]
fn what_cannot_be_planned_says_where_and_why() {
    let said = |question: &ChangesQuestion| asked(question).unwrap_err().to_string();
    assert_eq!(
        said(&ChangesQuestion::of(chart("| N.C. |"))),
        "there is no chord in the chart to plan for: expected one, as in | Dm7 |"
    );
    let two_bars = ChangesQuestion::of(chart("| N.C. | Dm7 G7 |"));
    let region = Region::default().on("4-3-2".parse().unwrap()).within("9-9".parse().unwrap());
    assert_eq!(
        said(&ChangesQuestion { region: Some(region), ..two_bars.clone() }),
        "Dm7 in bar 2, beat 1, has no pair in that part of the neck: expected more frets or other \
         strings"
    );
    let two_strings = Region::default().on("4-3".parse().unwrap());
    assert_eq!(
        said(&ChangesQuestion { region: Some(two_strings), ..two_bars.clone() }),
        "4-3 does not hold a triad: expected three strings, as in 3-2-1"
    );
    let mut never = two_bars;
    for degree in ["1", "b9", "9", "b3", "3", "11", "b5", "5", "b13", "13", "b7", "7"] {
        never = never.never(format!("{degree}@2.3").parse().unwrap()).unwrap();
    }
    assert_eq!(
        said(&never),
        "G7 in bar 2, beat 3, has no pair that does all that is wished: expected fewer wishes"
    );
}

/// What is typed, and what it settles in `| Dm7 G7 | N.C. |`, or why it does not.
#[test]
fn pairs_and_scales_are_settled_as_they_are_typed() {
    let question = ChangesQuestion::of(chart("| Dm7 G7 | N.C. |"));
    for (typed, settled) in [
        ("F & G@1", "F & G"),
        ("Bb&C @ 1.3", "B♭ & C"),
        ("altered@1.3", "G altered"),
        ("Db Lydian dominant@1.3&", "D♭ Lydian dominant"),
        (
            "F & G",
            "cannot settle \"F & G\": expected a pair or a scale, @ and the bar, as in \"F & G@5\" or altered@5.3",
        ),
        ("F & G@3", "the chart has no beat 3.1: expected a beat of a bar up to 2, as it is heard"),
        (
            "altered@2.2",
            "no chord sounds at 2.2 that would give the scale its root: expected a scale with its root, as in \"G altered\", or another beat",
        ),
        (
            "C & Em@1",
            "C & Em are no pair: both hold E and G; expected two triads without a common note",
        ),
        (
            "F & G@x",
            "cannot read the moment \"x\" at character 1: expected the number of a bar, as in 5 or 5.3",
        ),
    ] {
        let said = match question.clone().settling(typed, &[]) {
            Err(refusal) => refusal.to_string(),
            Ok(question) => match &question.chart.choices[..] {
                [ChartChoice { pair: Some([one, other]), .. }] => format!("{one} & {other}"),
                [ChartChoice { scale: Some(scale), .. }] => scale.to_string(),
                other => panic!("{other:?}"),
            },
        };
        assert_eq!(said, settled, "{typed}");
    }
    let both = question.settling("altered@1.3", &[]).unwrap().settling("Db & Eb@1.3", &[]).unwrap();
    assert!(matches!(&both.chart.choices[..], [ChartChoice { scale: Some(_), pair: Some(_), .. }]));
}

#[test]
fn what_is_settled_where_nothing_sounds_is_told() {
    let mut chart = chart("| Dm7 G7 | N.C. |");
    for bar in [1, 2, 9] {
        chart.settle(settled(bar, "1", "", ["F", "G"]));
    }
    let answer = asked(&ChangesQuestion::of(chart)).unwrap();
    let bars: Vec<u64> = answer.passed_over.iter().map(|choice| choice.bar).collect();
    assert_eq!(bars, [2, 9]);
}

/// F & G holds F A C, G B D; what stays of it and what is a half step away is counted by hand.
#[test]
fn what_stays_is_told_in_numbers_that_agree() {
    for (pair, told) in [
        ("Db & Ebm", "D♭ & E♭m: one note stays, five come by a half step; as you chose"),
        ("C#m & D#m", "C♯m & D♯m: no note stays, six come by a half step; as you chose"),
        ("Am & G", "Am & G: five notes stay, one comes by a half step; as you chose"),
    ] {
        let question = ChangesQuestion::of(chart("| F7 | E7 |")).settling("F & G@1", &[]).unwrap();
        let question = question.settling(&format!("{pair}@2"), &[]).unwrap();
        let why = asked(&question).unwrap().best().chords[1].why().to_string();
        assert!(why.starts_with(told), "{why}");
    }
}

/// By hand: the chord of bars 2 and 3 is one, so that a pair of its own there differs in both.
#[test]
fn plans_differ_bar_by_bar() {
    let settled = |pair: &str| {
        let mut chart = chart("Dm7 | G7 | % | Cmaj7 | Dm7");
        let pair = pair.split(" & ").map(|name| name.parse::<SpelledTriad>().unwrap());
        let pair: [SpelledTriad; 2] = pair.collect::<Vec<_>>().try_into().unwrap();
        let choice = ChartChoice::nothing(2, "1".parse().unwrap());
        chart.settle(ChartChoice { pair: Some(pair), ..choice });
        asked(&ChangesQuestion::of(chart)).unwrap()
    };
    let (one, other) = (settled("F & G"), settled("G & A"));
    let mut made_of_one = one.best().clone();
    made_of_one.chords[1] = other.best().chords[1].clone();
    assert_eq!(one.bars_that_differ(one.best(), &made_of_one), [2, 3]);
    assert!(one.bars_that_differ(one.best(), one.best()).is_empty());
}

/// Whoever asks for several begins with the one that is made alone.
#[test]
fn the_first_of_several_plans_is_the_best_one() {
    let region = Region::default().on("4-3-2".parse().unwrap()).within("1-12".parse().unwrap());
    for text in [
        "Dm7 | G7 | Cmaj7 | %",
        "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7 | Gm7 | C7 | F7 D7 | Gm7 C7",
        "Em7 Eb7 | Dm7 Db7 | Cmaj7 | Fm7 Bb7 | Cmaj7 A7 | Abmaj7 G7sus4 | Em7b5 A7b9 | Dm7 G7b9",
    ] {
        for region in [None, Some(region)] {
            let question = ChangesQuestion { region, ..ChangesQuestion::of(chart(text)) };
            let alone = asked(&question).unwrap();
            let several = asked(&ChangesQuestion { plans: 8, ..question }).unwrap();
            assert_eq!(alone.best(), several.best(), "{text}");
        }
    }
}
