//! Plans beside what a player gets who takes for each chord the first pair of its first scale: how
//! often the pair changes, and what that costs in sound.
//!
//! `cargo test -p fretloom-theory --test plan_table -- --nocapture` prints the table.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "the functions of a test are a test too, and one prints what it measured"
)]

#[path = "material/cadences.rs"]
mod cadences;
#[path = "material/tunes.rs"]
mod tunes;

use std::collections::BTreeMap;
use std::ops::AddAssign;

use cadences::CADENCES;
use fretloom_theory::{
    BarText, ChordScale, Meter, OptionalChords, PairSound, PairStep, PlanChord, PlanQuery,
    TriadQuality,
};
use tunes::{PROGRESSIONS, TUNES, without_functions};

/// What a row of pairs does in a chorus.
#[derive(Clone, Copy, Default, Debug)]
struct Figures {
    chords: usize,
    /// A change counts 1, the same pair moved by a fret or two a half.
    changes: f64,
    rubs: usize,
    /// Notes that the symbol names and the pair leaves out, root and plain fifth aside.
    named: usize,
    thirds: usize,
    /// Chords with neither third nor seventh.
    bare: usize,
    /// Chords that are given another scale than the first of their reading.
    later: usize,
}

impl AddAssign for Figures {
    fn add_assign(&mut self, other: Figures) {
        self.chords += other.chords;
        self.changes += other.changes;
        self.rubs += other.rubs;
        self.named += other.named;
        self.thirds += other.thirds;
        self.bare += other.bare;
        self.later += other.later;
    }
}

type Played = Vec<(ChordScale, PairSound)>;

fn figures(played: &Played) -> Figures {
    let mut figures = Figures { chords: played.len(), ..Figures::default() };
    for (index, (over, sound)) in played.iter().enumerate() {
        let before = &played[(index + played.len() - 1) % played.len()].1;
        figures.changes += match PairStep::between(before.pair(), sound.pair()) {
            PairStep::Kept => 0.0,
            PairStep::Moved(_) => 0.5,
            PairStep::Changed { .. } => 1.0,
        };
        figures.rubs += sound.rubs().len();
        for degree in over.degrees(sound.drops_named()) {
            let free = matches!((degree.number(), degree.alteration()), (1 | 5, 0));
            figures.named += usize::from(!free);
        }
        let third = over.third();
        figures.thirds += usize::from(third.is_some() && !sound.states_third());
        figures.bare += usize::from(!sound.states_third() && !sound.states_seventh());
    }
    figures
}

fn read(text: &str) -> Vec<PlanChord> {
    let text = BarText::read(text, Meter::COMMON).unwrap();
    let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::Played), None);
    chords.into_iter().map(|(_, chord)| chord).collect()
}

/// The first pair of the first scale of each chord, and the plan.
fn both(text: &str) -> [Figures; 2] {
    let chords = read(text);
    let first = |chord: &PlanChord| {
        let scale = chord.reading().scales()[0].scale().clone();
        let over = ChordScale::over(chord.reading().chord().clone(), scale);
        let sound = PairSound::ranked(&over, TriadQuality::TERTIAN).remove(0);
        (over, sound)
    };
    let firsts: Played = chords.iter().map(first).collect();
    let plan = PlanQuery::over(chords).plan().unwrap();
    let planned: Played =
        plan.chords().iter().map(|chord| (chord.over().clone(), chord.sound().clone())).collect();
    let mut figures = [figures(&firsts), figures(&planned)];
    let later = firsts.iter().zip(&planned).filter(|(one, other)| one.0 != other.0);
    figures[1].later = later.count();
    figures
}

/// The bars of a demo chart, section by section.
fn bars_of(chart: &str) -> String {
    let sections = chart.split("bars = \"\"\"").skip(1);
    let bars = sections.map(|section| section.split("\"\"\"").next().unwrap().trim());
    let title = chart.lines().find(|line| line.starts_with("meter"));
    let meter = title.and_then(|line| line.split('"').nth(1)).unwrap_or("4/4");
    bars.enumerate().map(|(n, bars)| format!("[{n}] {meter} {bars}\n")).collect()
}

/// A chord of a cadence a bar, played once through.
fn cadence(cadence: &str) -> String {
    let symbols = cadence.split(' ').map(|word| word.split(':').next().unwrap());
    format!("| {} |", symbols.collect::<Vec<_>>().join(" | "))
}

/// Everything that plans are tried with, by what it is.
fn material() -> [(&'static str, Vec<String>); 4] {
    let charts = [
        include_str!("../../../assets/charts/the-ferry-clerks-holiday.toml"),
        include_str!("../../../assets/charts/salt-on-the-windowsill.toml"),
        include_str!("../../../assets/charts/nine-doors-and-a-stair.toml"),
    ];
    [
        ("demo charts", charts.into_iter().map(bars_of).collect()),
        ("progressions", PROGRESSIONS.iter().map(|text| (*text).to_owned()).collect()),
        ("tunes", TUNES.iter().map(|tune| without_functions(tune)).collect()),
        ("cadences", CADENCES.iter().map(|text| cadence(text)).collect()),
    ]
}

#[test]
fn plans_change_half_as_often_and_sound_no_worse() {
    let mut all = [Figures::default(); 2];
    println!("changes, rubs, named, thirds, bare, later scales: first pairs | plan");
    for (name, texts) in material() {
        let mut of_kind = [Figures::default(); 2];
        for text in texts {
            let [first, plan] = both(&text);
            let start: String =
                text.chars().take(40).map(|sign| if sign == '\n' { ' ' } else { sign }).collect();
            println!("{start:42} {}", row(first, plan));
            of_kind[0] += first;
            of_kind[1] += plan;
        }
        println!("{name:42} {}", row(of_kind[0], of_kind[1]));
        all[0] += of_kind[0];
        all[1] += of_kind[1];
    }
    let [first, plan] = all;
    println!("{:42} {}", "all", row(first, plan));
    assert!(plan.changes <= 0.55 * first.changes, "{first:?} {plan:?}");
    assert!(plan.rubs <= first.rubs, "{first:?} {plan:?}");
    assert!(plan.named <= first.named, "{first:?} {plan:?}");
    assert!(plan.thirds <= first.thirds, "{first:?} {plan:?}");
    assert!(plan.bare * 200 <= plan.chords, "{first:?} {plan:?}");
}

/// The figures of first pairs and of the plan side by side.
fn row(first: Figures, plan: Figures) -> String {
    let one = |figures: Figures| {
        let Figures { changes, rubs, named, thirds, bare, later, .. } = figures;
        format!("{changes:5.1} {rubs:3} {named:3} {thirds:3} {bare:3} {later:3}")
    };
    let part = 100.0 * plan.changes / first.changes;
    format!("{} | {} | {part:5.1} %", one(first), one(plan))
}

/// What stands for a function, and the scales that agree with it: by what the symbol writes after its
/// root where that matters, else by `-` for all. Common practice, no source.
const AGREEING: [(&str, &str, &[&str]); 18] = [
    ("T", "maj7 maj9 6 6/9 -", &["Lydian", "Ionian"]),
    ("T", "m m6 m(maj7) m7", &["melodic minor", "Dorian"]),
    ("T", "7", &["Mixolydian"]),
    ("TS", "maj7 maj9 6", &["Lydian", "Ionian"]),
    ("S", "maj7 -", &["Lydian"]),
    ("S", "m m6 m7", &["Dorian", "melodic minor"]),
    ("iv", "m6 m7 m9 m", &["Dorian", "melodic minor"]),
    ("ii", "m m7 m9", &["Dorian"]),
    ("ii", "m(maj7)", &["melodic minor"]),
    ("iii", "m7", &["Phrygian", "Aeolian", "Dorian"]),
    ("vi", "m7 m", &["Aeolian", "Dorian"]),
    // The b9 and the b13 belong to minor.
    ("V-", "7 7b9 7alt", &["altered", "Phrygian dominant"]),
    ("ii-", "m7b5", &["Locrian", "Locrian natural 2"]),
    ("ts", "7", &["Lydian dominant"]),
    ("bd", "7 13", &["Lydian dominant"]),
    ("IV7", "7", &["Lydian dominant", "Mixolydian"]),
    ("II7", "7", &["Lydian dominant", "Mixolydian", "altered"]),
    ("b", "maj7", &["Lydian"]),
];
/// A dominant on the way to a ii may keep the natural 9 of the major key.
const BEFORE_A_SECOND: &str = "Mixolydian b6";

/// The chords of a tune as they sound, each with its symbol and what stands for its function.
fn written(tune: &str) -> Vec<(String, String)> {
    let words = tune.split_whitespace().filter(|word| !matches!(*word, "|" | "%"));
    let parts = words.map(|word| word.split_once(':').unwrap_or((word, "")));
    let mut chords: Vec<_> = parts.map(|(symbol, it)| (symbol.to_owned(), it.to_owned())).collect();
    chords.dedup_by(|again, first| again.0 == first.0);
    chords
}

/// How many chords of a function have a scale that agrees with it, and all; and those that have not.
#[test]
fn no_scale_speaks_against_what_its_chord_does() {
    let (mut score, mut against) = (BTreeMap::new(), Vec::new());
    for tune in TUNES {
        let written = written(tune);
        let plan = PlanQuery::over(read(&without_functions(tune))).plan().unwrap();
        // A chord that stands for long comes several times.
        let sound = plan.chords().len();
        let standing = tune.contains(":st");
        assert!(standing || sound == written.len(), "{tune}");
        for (index, (symbol, function)) in written.iter().enumerate().filter(|_| !standing) {
            let chord = &plan.chords()[index];
            let suffix = symbol.trim_start_matches(|sign| matches!(sign, 'A'..='G' | '#' | 'b'));
            let suffix = if suffix.is_empty() { "-" } else { suffix };
            let row = AGREEING.iter().find(|(name, suffixes, _)| {
                name == function && suffixes.split(' ').any(|known| known == suffix)
            });
            let Some((name, _, kinds)) = row else { continue };
            let kind = chord.over().scale().kind().name();
            let before_a_second = *name == "V-" && written[(index + 1) % sound].1 == "ii";
            let agrees = kinds.contains(&kind) || before_a_second && kind == BEFORE_A_SECOND;
            let [agree, all] = score.entry(*name).or_insert([0, 0]);
            *agree += usize::from(agrees);
            *all += 1;
            if !agrees {
                against.push(format!("{symbol}:{function} takes {kind} in {}", &tune[..40]));
            }
        }
    }
    println!("{score:?}");
    for (function, [agree, all]) in score {
        assert!(agree * 20 >= all * 19, "{function}: {agree} of {all}\n{}", against.join("\n"));
    }
}
