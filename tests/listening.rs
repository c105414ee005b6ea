//! What is to be named by ear: which questions a day has, what may be answered, and what sounds.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use std::collections::BTreeSet;
use std::sync::LazyLock;

use fretloom::answer::{EarMusic, EarName, EarQuestion, LeftOut, ListeningAnswer};
use fretloom::library::LoadedTunings;
use fretloom::practice::{Asking, EarRound, Listening, PracticeRules, Spacing, Why};
use fretloom::sound::PlayStyle;
use fretloom::store::Verdict::{Again, Got};
use fretloom::store::{
    Asked, Beats, Keeper, KeeperId, Kept, KeptPlan, KeptThing, KeyAway, NewKeeper, TriedBy, Unit,
    Verdict,
};
use fretloom_fretboard::Tuning;
use fretloom_theory::{PitchClass, PitchClassSet, Quarters, SpelledTriad, TriadQuality};
use jiff::SignedDuration;
use jiff::civil::{Date, date};

const MONDAY: Date = date(2026, 5, 4);

fn later(day: Date, days: i64) -> Date {
    day.saturating_add(SignedDuration::from_hours(24 * days))
}

fn kept(id: u32, kept: Kept) -> Keeper {
    Keeper::new(KeeperId::new(id).unwrap(), NewKeeper { kept, ..NewKeeper::default() })
}

fn over(chord: &str, scale: &str) -> Keeper {
    let texts = [chord, scale].map(|text| Some(text.to_owned()));
    let [chord, scale] = texts;
    kept(1, Kept { chord, scale, ..Kept::default() })
}

fn keeper(id: u32, chord: &str, pair: &str) -> Keeper {
    let [chord, pair] = [chord, pair].map(|text| Some(text.to_owned()));
    kept(id, Kept { chord, pair, ..Kept::default() })
}

fn asking(asked: Asked, key: u8, seed: u64) -> Asking {
    let keeper = KeeperId::new(1).unwrap();
    Asking { keeper, key: KeyAway::up(key), asked, why: Why::New, seed, is_done: false }
}

fn question(keeper: &Keeper, asked: Asked, seed: u64) -> EarQuestion {
    EarQuestion::of(keeper, &asking(asked, 0, seed), &[]).unwrap()
}

fn triad(name: &str) -> PitchClassSet {
    name.parse::<SpelledTriad>().unwrap().triad().set()
}

fn says(question: &EarQuestion) -> Vec<String> {
    question.choices().iter().map(|choice| choice.says.to_string()).collect()
}

/// The seven pairs of common sounds on C, each with what it leaves out; computed by others from pitch
/// arithmetic alone, and written here as a table.
const TABLE: [(&str, &str, &str); 16] = [
    ("Cmaj7", "C Ionian", "C&Dm B, Dm&Em C, Em&F D, F&G E, G&Am F, Am&Bdim G, Bdim&C A"),
    ("Cmaj7#11", "C Lydian", "C&D B, D&Em C, Em&F#dim D, F#dim&G E, G&Am F#, Am&Bm G, Bm&C A"),
    ("C7", "C Mixolydian", "C&Dm Bb, Dm&Edim C, Edim&F D, F&Gm E, Gm&Am F, Am&Bb G, Bb&C A"),
    ("Cm7", "C Dorian", "Cm&Dm Bb, Dm&Eb C, Eb&F D, F&Gm Eb, Gm&Adim F, Adim&Bb G, Bb&Cm A"),
    (
        "Cm7",
        "C Phrygian",
        "Cm&Db Bb, Db&Eb C, Eb&Fm Db, Fm&Gdim Eb, Gdim&Ab F, Ab&Bbm G, Bbm&Cm Ab",
    ),
    ("Cm7", "C Aeolian", "Cm&Ddim Bb, Ddim&Eb C, Eb&Fm D, Fm&Gm Eb, Gm&Ab F, Ab&Bb G, Bb&Cm Ab"),
    (
        "Cm7b5",
        "C Locrian",
        "Cdim&Db Bb, Db&Ebm C, Ebm&Fm Db, Fm&Gb Eb, Gb&Ab F, Ab&Bbm Gb, Bbm&Cdim Ab",
    ),
    (
        "Cm7b5",
        "C Locrian natural 2",
        "Cdim&Ddim Bb, Ddim&Ebm C, Ebm&Fm D, Fm&Gb+ Eb, Gb+&Ab F, Ab&Bb Gb, Bb&Cdim Ab",
    ),
    (
        "Cm(maj7)",
        "C melodic minor",
        "Cm&Dm B, Dm&Eb+ C, Eb+&F D, F&G Eb, G&Adim F, Adim&Bdim G, Bdim&Cm A",
    ),
    (
        "C7sus4b9",
        "C Dorian b2",
        "Cm&Db+ Bb, Db+&Eb C, Eb&F Db, F&Gdim Eb, Gdim&Adim F, Adim&Bbm G, Bbm&Cm A",
    ),
    (
        "Cmaj7#5",
        "C Lydian augmented",
        "C+&D B, D&E C, E&F#dim D, F#dim&G#dim E, G#dim&Am F#, Am&Bm G#, Bm&C+ A",
    ),
    (
        "C7#11",
        "C Lydian dominant",
        "C&D Bb, D&Edim C, Edim&F#dim D, F#dim&Gm E, Gm&Am F#, Am&Bb+ G, Bb+&C A",
    ),
    (
        "C9b13",
        "C Mixolydian b6",
        "C&Ddim Bb, Ddim&Edim C, Edim&Fm D, Fm&Gm E, Gm&Ab+ F, Ab+&Bb G, Bb&C Ab",
    ),
    (
        "C7alt",
        "C altered",
        "Cdim&Dbm Bb, Dbm&Ebm C, Ebm&E+ Db, E+&Gb Eb, Gb&Ab E, Ab&Bbdim Gb, Bbdim&Cdim Ab",
    ),
    (
        "C7b9b13",
        "C Phrygian dominant",
        "C&Db Bb, Db&Edim C, Edim&Fm Db, Fm&Gdim E, Gdim&Ab+ F, Ab+&Bbm G, Bbm&C Ab",
    ),
    (
        "Cm(maj7)",
        "C harmonic minor",
        "Cm&Ddim B, Ddim&Eb+ C, Eb+&Fm D, Fm&G Eb, G&Ab F, Ab&Bdim G, Bdim&Cm Ab",
    ),
];

/// The pairs of a row as their triads, with what each leaves out.
fn row(text: &str) -> Vec<([PitchClassSet; 2], PitchClass)> {
    let one = |entry: &str| {
        let (pair, left_out) = entry.trim().split_once(' ').unwrap();
        let (first, second) = pair.split_once('&').unwrap();
        let left_out: fretloom_theory::NoteName = left_out.parse().unwrap();
        ([triad(first), triad(second)], left_out.pitch_class())
    };
    text.split(',').map(one).collect()
}

/// A couple of triads, in whichever order.
fn couple([one, other]: [PitchClassSet; 2]) -> BTreeSet<u16> {
    BTreeSet::from([one.bits(), other.bits()])
}

/// What sounds, read off the notes that are struck: each triad from its lowest note up.
fn sounding(question: &EarQuestion) -> [Vec<u8>; 2] {
    static TUNING: LazyLock<Tuning> =
        LazyLock::new(|| LoadedTunings::load(None).iter().next().unwrap().0.clone());
    let heard = question.heard().unwrap().pair();
    let music = EarMusic::new(&question.harmony, heard, &TUNING);
    [4, 8].map(|from| {
        let bar = Quarters::whole(from)..Quarters::whole(from + 4);
        let struck = music.struck().iter().filter(|struck| bar.contains(&struck.onset));
        struck.map(|struck| struck.pitches[0].midi()).collect()
    })
}

fn classes(midi: &[u8]) -> PitchClassSet {
    midi.iter().map(|midi| PitchClass::new(i32::from(*midi))).collect()
}

#[test]
fn a_chord_offers_its_seven_pairs_and_what_they_leave_out() {
    for (chord, scale, text) in TABLE {
        let (keeper, row) = (over(chord, scale), row(text));
        let expected: BTreeSet<_> = row.iter().map(|(pair, _)| couple(*pair)).collect();
        for seed in 0..24 {
            let pairs = question(&keeper, Asked::Pair, seed);
            let offered = pairs.choices().iter().map(|choice| match &choice.says {
                EarName::Pair(pair) => couple(pair.pair().triads().map(|triad| triad.set())),
                other => panic!("{other}"),
            });
            assert_eq!(offered.collect::<BTreeSet<_>>(), expected, "{chord} {scale}");
            let sounds = sounding(&pairs).map(|midi| classes(&midi));
            let right = &pairs.choices()[pairs.right()].says;
            let EarName::Pair(named) = right else { panic!("{right}") };
            let named = named.pair().triads().map(|triad| triad.set());
            assert_eq!(couple(named), couple(sounds), "{chord} {scale}");

            let outs = question(&keeper, Asked::LeftOut, seed);
            assert_eq!(outs.choices().len(), 7, "{chord} {scale}");
            let sounds = sounding(&outs).map(|midi| classes(&midi));
            let (_, out) = row.iter().find(|(pair, _)| couple(*pair) == couple(sounds)).unwrap();
            let EarName::LeftOut(right) = &outs.choices()[outs.right()].says else { panic!() };
            let right: Vec<PitchClass> = right.iter().map(|left| left.note.pitch_class()).collect();
            assert_eq!(right, [*out], "{chord} {scale}");
        }
    }
}

/// By hand, from the rows for Dorian and Ionian.
#[test]
fn choices_go_up_from_the_root_and_do_not_say_which_sounds() {
    let dorian = over("Dm7", "D Dorian");
    for seed in 0..9 {
        assert_eq!(
            says(&question(&dorian, Asked::Pair, seed)),
            ["Dm & Em", "Dm & C", "Em & F", "F & G", "G & Am", "Am & Bdim", "Bdim & C"]
        );
        assert_eq!(
            says(&question(&dorian, Asked::Qualities, seed)),
            [
                "major, then major",
                "major, then minor",
                "minor, then major",
                "minor, then minor",
                "minor, then diminished",
                "diminished, then major",
            ]
        );
        assert_eq!(
            says(&question(&dorian, Asked::LeftOut, seed)),
            ["D 1", "E 9", "F ♭3", "G 11", "A 5", "B 13", "C ♭7"]
        );
    }
}

/// A slow second way: what sounds is taken from the notes, and each choice is held against it.
#[test]
fn one_choice_alone_is_true_of_what_sounds() {
    let mut keepers: Vec<Keeper> = TABLE.iter().map(|row| over(row.0, row.1)).collect();
    keepers.extend([
        over("C13b9", "C half-whole"),
        over("Cdim7", "C whole-half"),
        over("Cmaj7#5", "C augmented"),
        keeper(1, "Dm7", "F & G"),
        // A pair of the player's own, outside of the scale.
        keeper(1, "G7", "B & C#m"),
        keeper(1, "C7sus4", "Bb & Csus4"),
    ]);
    for keeper in &keepers {
        for (asked, seed) in Asked::ALL.iter().flat_map(|asked| (0..40).map(|seed| (*asked, seed)))
        {
            let asking = asking(asked, (seed % 12) as u8, seed);
            let Some(question) = EarQuestion::of(keeper, &asking, &[]) else {
                // All pairs of the augmented scale have the same six notes.
                let scale = keeper.kept.scale.as_deref();
                assert_eq!((scale, asked), (Some("C augmented"), Asked::LeftOut));
                continue;
            };
            let sounds = sounding(&question);
            let scale = question.harmony.scale().scale().set();
            let is_true = |says: &EarName| match says {
                EarName::Pair(pair) => {
                    let named = pair.pair().triads().map(|triad| triad.set());
                    couple(named) == couple([classes(&sounds[0]), classes(&sounds[1])])
                }
                EarName::Qualities(qualities) => {
                    qualities.map(steps) == [above(&sounds[0]), above(&sounds[1])]
                }
                EarName::LeftOut(left_out) => {
                    let heard = classes(&sounds[0]).union(classes(&sounds[1]));
                    let left: PitchClassSet =
                        left_out.iter().map(|left: &LeftOut| left.note.pitch_class()).collect();
                    left == scale.difference(heard)
                }
            };
            let truth: Vec<bool> =
                question.choices().iter().map(|choice| is_true(&choice.says)).collect();
            let expected: Vec<bool> =
                (0..truth.len()).map(|place| place == question.right()).collect();
            assert_eq!(
                truth,
                expected,
                "{:?} {asked:?} {seed}: {:?}",
                keeper.kept,
                says(&question)
            );
            assert!((2..=7).contains(&truth.len()));
            assert_eq!(question.verdict(question.right()), Got);
            assert!(question.mistaken(question.right()).is_none());
            assert_eq!(question.verdict((question.right() + 1) % truth.len()), Again);
        }
    }
}

/// Semitones above the lowest note: common practice, no source.
fn steps(quality: TriadQuality) -> [u8; 2] {
    match quality {
        TriadQuality::Major => [4, 7],
        TriadQuality::Minor => [3, 7],
        TriadQuality::Diminished => [3, 6],
        TriadQuality::Augmented => [4, 8],
        TriadQuality::Sus => [5, 7],
        TriadQuality::FlatFive => [4, 6],
    }
}

fn above(midi: &[u8]) -> [u8; 2] {
    [midi[1] - midi[0], midi[2] - midi[0]]
}

/// By hand: qualities are told apart by sound whatever inversion one takes them for.
#[test]
fn no_two_qualities_sound_the_same_moved() {
    let turned = |[second, third]: [u8; 2]| -> BTreeSet<BTreeSet<u8>> {
        (0..12).map(|up| [0, second, third].map(|note| (note + up) % 12).into()).collect()
    };
    let all: BTreeSet<_> =
        TriadQuality::ALL.iter().map(|quality| turned(steps(*quality))).collect();
    assert_eq!(all.len(), TriadQuality::ALL.len());
}

#[test]
fn what_was_kept_sounds_about_one_time_of_three() {
    let keeper = keeper(1, "Dm7", "F & G");
    let kept = couple(["F", "G"].map(triad));
    let sounds: Vec<bool> = (0..400)
        .map(|seed| {
            let question = question(&keeper, Asked::Pair, seed);
            couple(sounding(&question).map(|midi| classes(&midi))) == kept
        })
        .collect();
    let count = sounds.iter().filter(|is_kept| **is_kept).count();
    assert!((100..=170).contains(&count), "{count}");
    // Of a chord alone every pair comes.
    let alone = over("Dm7", "D Dorian");
    let all: BTreeSet<usize> =
        (0..100).map(|seed| question(&alone, Asked::Pair, seed).right()).collect();
    assert_eq!(all.len(), 7);
}

#[test]
fn what_has_nothing_to_choose_from_is_not_asked() {
    let one_alone = over("C7#5", "C whole tone");
    assert!(!EarQuestion::is_there(&one_alone, Asked::Pair, &[]), "C+ & D+ alone");
    assert!(!EarQuestion::is_there(&one_alone, Asked::LeftOut, &[]));
    assert_eq!(EarQuestion::of(&one_alone, &asking(Asked::Qualities, 0, 1), &[]), None);
    let plan = KeptPlan { chart: "title = \"Slow lamp\"\n".to_owned(), ..KeptPlan::default() };
    let plan = kept(1, Kept { what: KeptThing::Plan(plan), ..Kept::default() });
    let nonsense = keeper(1, "Hm7", "F & G");
    for keeper in [plan, nonsense, kept(1, Kept::default())] {
        for asked in Asked::ALL {
            assert!(!EarQuestion::is_there(&keeper, asked, &[]));
            assert_eq!(EarQuestion::of(&keeper, &asking(asked, 3, 5), &[]), None);
        }
    }
    let scale = Kept { scale: Some("D Dorian".to_owned()), ..Kept::default() };
    assert!(EarQuestion::is_there(&kept(1, scale), Asked::Pair, &[]));
    // Nobody names six notes that are left out; two of them, yes.
    let chromatic = over("C7", "C chromatic");
    assert!(!EarQuestion::is_there(&chromatic, Asked::LeftOut, &[]));
    assert!(EarQuestion::is_there(&chromatic, Asked::Pair, &[]));
    let eight = question(&over("C13b9", "C half-whole"), Asked::LeftOut, 1);
    for choice in eight.choices() {
        let EarName::LeftOut(left_out) = &choice.says else { panic!() };
        assert_eq!(left_out.len(), 2);
    }
    // Of several chords the last is heard.
    let last = question(&keeper(1, "Dm7 | G7", "F & G"), Asked::Pair, 1);
    assert_eq!(last.harmony.chord().unwrap().symbol, "G7");
}

/// By hand: F & G is F A C G B D, G & Am is G B D A C E.
#[test]
fn a_wrong_answer_is_told_from_what_sounded() {
    let keeper = over("Dm7", "D Dorian");
    let heard = (0..100)
        .map(|seed| question(&keeper, Asked::Pair, seed))
        .find(|question| says(question)[question.right()] == "F & G")
        .unwrap();
    let mistaken = heard.mistaken(4).unwrap();
    assert_eq!(mistaken.said.says.to_string(), "G & Am");
    let told = |notes: &[LeftOut]| -> Vec<String> {
        notes.iter().map(|left| format!("{} {}", left.note, left.degree)).collect()
    };
    assert_eq!(told(&mistaken.heard_only), ["F ♭3"]);
    assert_eq!(told(&mistaken.said_only), ["E 9"]);
    assert!(heard.mistaken(7).is_none());
}

#[test]
fn another_key_moves_chord_scale_and_pair() {
    let keeper = keeper(1, "Gmaj7#11", "G & A");
    let question = EarQuestion::of(&keeper, &asking(Asked::Pair, 3, 1), &[]).unwrap();
    assert_eq!(question.harmony.chord().unwrap().symbol, "Bbmaj7#11");
    assert_eq!(question.harmony.scale().scale().to_string(), "B♭ Lydian");
    let offered = says(&question);
    assert_eq!(offered[0], "B♭ & C");
    assert_eq!(offered.len(), 7);
}

/// On every instrument that there is.
#[test]
fn what_sounds_lies_on_the_instrument_up_to_its_octave() {
    let tunings = LoadedTunings::load(None);
    let dorian = over("Dm7", "D Dorian");
    for (tuning, _) in tunings.iter() {
        let open = || tuning.strings().map(|(_, string)| string.pitch().midi());
        let (low, high) = (open().min().unwrap(), open().max().unwrap() + 12);
        for seed in 0..40 {
            let question = question(&dorian, Asked::Pair, seed);
            let heard = question.heard().unwrap().pair();
            let music = EarMusic::new(&question.harmony, heard, tuning);
            // Six notes one by one, and twice three together.
            assert_eq!(music.struck().len(), 12, "{}", tuning.id());
            let midi: Vec<u8> =
                music.struck().iter().map(|struck| struck.pitches[0].midi()).collect();
            let (lowest, highest) = (*midi.iter().min().unwrap(), *midi.iter().max().unwrap());
            assert!(low <= lowest && (highest <= high || high - low < 19), "{}", tuning.id());
            // 18 quarter notes at 120 are nine seconds of 48,000 frames, and a little that rings on.
            let frames = music.performance(tuning, &PlayStyle::default()).frames().unwrap().0;
            assert!((432_000..480_000).contains(&frames), "{frames}");
        }
    }
}

/// One more answer, as a screen records it.
fn heard(keeper: &mut Keeper, asked: Asked, on: Date, verdict: Verdict) -> Date {
    let unit = Unit { by: TriedBy::Ear(asked), ..Unit::default() };
    let tried = Spacing::default().tried(&keeper.practice, &unit, (on, None, verdict));
    let next = tried.next.unwrap();
    keeper.practice.tries.push(tried);
    next
}

fn played(keeper: &mut Keeper, key: u8, on: Date, verdict: Verdict) {
    let unit = Unit { key: KeyAway::up(key), ..Unit::default() };
    let tried = Spacing::default().tried(&keeper.practice, &unit, (on, Beats::new(60), verdict));
    keeper.practice.tries.push(tried);
}

fn listed(keepers: &[Keeper], day: Date) -> Vec<(u32, Asked, Why)> {
    let rules = PracticeRules::default();
    let there = |keeper: &Keeper, asked: Asked| EarQuestion::is_there(keeper, asked, &[]);
    let today = Listening::of(keepers, &rules, day, there);
    today.questions.iter().map(|one| (one.keeper.number(), one.asked, one.why)).collect()
}

/// By hand, as the rule for the hands: 1, 2, 4 days; a miss begins anew. Keys share their days.
#[test]
fn each_question_has_days_of_its_own() {
    let mut keeper = keeper(1, "Dm7", "F & G");
    assert_eq!(heard(&mut keeper, Asked::Pair, MONDAY, Got), later(MONDAY, 1));
    played(&mut keeper, 0, MONDAY, Got);
    let in_f = Unit { key: KeyAway::up(3), by: TriedBy::Ear(Asked::Pair), ..Unit::default() };
    let tried = (later(MONDAY, 1), None, Got);
    let tried = Spacing::default().tried(&keeper.practice, &in_f, tried);
    assert_eq!(tried.next, Some(later(MONDAY, 3)));
    keeper.practice.tries.push(tried);
    assert_eq!(heard(&mut keeper, Asked::LeftOut, later(MONDAY, 1), Got), later(MONDAY, 2));
    assert_eq!(heard(&mut keeper, Asked::Pair, later(MONDAY, 3), Again), later(MONDAY, 4));
    assert_eq!(heard(&mut keeper, Asked::Pair, later(MONDAY, 4), Got), later(MONDAY, 5));
    // The hands have theirs: they do not know what the ear has heard.
    assert_eq!(keeper.practice.last(), Some(MONDAY));
    assert_eq!(keeper.practice.next(), Some(later(MONDAY, 1)));
}

#[test]
fn what_is_due_comes_first_then_what_is_practised_then_the_rest() {
    use Asked::{LeftOut, Pair, Qualities};
    let mut all = vec![
        keeper(1, "C7", "C & Dm"),
        keeper(2, "Dm7", "F & G"),
        keeper(3, "Gmaj7", "G & A"),
        over("C7#5", "C whole tone"),
    ];
    all[3].id = KeeperId::new(4).unwrap();
    played(&mut all[1], 0, MONDAY, Got);
    heard(&mut all[2], LeftOut, MONDAY, Got);
    let tuesday = later(MONDAY, 1);
    let due = Why::Due(tuesday);
    assert_eq!(
        listed(&all, tuesday),
        [
            (3, LeftOut, due),
            (2, Qualities, Why::Next),
            (1, LeftOut, Why::New),
            (3, Pair, Why::Next),
            (2, LeftOut, Why::Next),
            (1, Pair, Why::New),
            (3, Qualities, Why::Next),
            (2, Pair, Why::Next),
            (1, Qualities, Why::New),
        ]
    );
    // What is answered today changes nothing of today's list but that it is done.
    let before = listed(&all, tuesday);
    heard(&mut all[2], LeftOut, tuesday, Again);
    heard(&mut all[2], LeftOut, tuesday, Got);
    heard(&mut all[0], Pair, tuesday, Again);
    played(&mut all[0], 7, tuesday, Got);
    assert_eq!(listed(&all, tuesday), before);
    let there = |keeper: &Keeper, asked: Asked| EarQuestion::is_there(keeper, asked, &[]);
    let today = Listening::of(&all, &PracticeRules::default(), tuesday, there);
    let done: Vec<bool> = today.questions.iter().map(|question| question.is_done).collect();
    assert_eq!(done, [true, false, false, false, false, false, false, false, false]);
}

#[test]
fn a_day_is_short_mixed_and_the_same_all_day() {
    let all: Vec<Keeper> = (1..=40).map(|id| keeper(id, "Dm7", "F & G")).collect();
    let there = |_: &Keeper, _: Asked| true;
    let rules = PracticeRules::default();
    let mut seeds = BTreeSet::new();
    for days in 0..30 {
        let day = later(MONDAY, days);
        let today = Listening::of(&all, &rules, day, there);
        assert_eq!(today.questions.len(), 10);
        let keepers: BTreeSet<KeeperId> =
            today.questions.iter().map(|question| question.keeper).collect();
        assert_eq!(keepers.len(), 5);
        for two in today.questions.windows(2) {
            assert!(two[0].keeper != two[1].keeper);
        }
        for three in [&today.questions[..3], &today.questions[5..8]] {
            assert_eq!(three.iter().map(|it| it.asked.word()).collect::<BTreeSet<_>>().len(), 3);
        }
        assert_eq!(Listening::of(&all, &rules, day, there), today);
        seeds.extend(today.questions.iter().map(|question| question.seed));
        let anew = today.questions[0].anew();
        assert!(anew.seed != today.questions[0].seed && anew.unit() == today.questions[0].unit());
    }
    assert_eq!(seeds.len(), 300, "another sound each time");
    let none = PracticeRules { questions: 0, ..rules };
    assert_eq!(Listening::of(&all, &none, MONDAY, there).questions, []);
    assert_eq!(Listening::of(&[], &rules, MONDAY, there).questions, []);
}

/// Ten thousand keepers of which nothing can be asked do not hide the one after them.
#[test]
fn the_one_that_can_be_asked_is_found_after_thousands_that_cannot() {
    let mut all: Vec<Keeper> = (1..=10_000)
        .map(|id| Keeper { id: KeeperId::new(id).unwrap(), ..over("C7#5", "C whole tone") })
        .collect();
    all.push(keeper(10_001, "Dm7", "F & G"));
    let answer = ListeningAnswer::new(&all, &PracticeRules::default(), MONDAY, &[]);
    assert_eq!(answer.questions.len(), 3);
    assert!(answer.questions.iter().all(|asked| asked.keeper.id.number() == 10_001));
}

#[test]
fn a_key_is_one_that_the_hands_have_got() {
    let mut kept = keeper(1, "Dm7", "F & G");
    let keys = |kept: &Keeper| -> BTreeSet<u8> {
        let days = (1..200).map(|days| later(MONDAY, days));
        let there = |_: &Keeper, _: Asked| true;
        let rules = PracticeRules::default();
        let asked = days.flat_map(|day| {
            Listening::of(std::slice::from_ref(kept), &rules, day, there).questions
        });
        asked.map(|question| question.key.semitones()).collect()
    };
    assert_eq!(keys(&kept), [0].into());
    played(&mut kept, 5, MONDAY, Got);
    played(&mut kept, 10, MONDAY, Again);
    played(&mut kept, 3, MONDAY, Got);
    assert_eq!(keys(&kept), [0, 3, 5].into());
}

#[test]
fn a_question_that_was_missed_comes_again_after_two_others() {
    let walk = |count: usize, missed: &dyn Fn(usize, usize) -> bool| -> Vec<usize> {
        let mut round = EarRound::through(0..count);
        let (mut asked, mut times) = (Vec::new(), vec![0; count]);
        while let Some(now) = round.now() {
            assert_eq!(round.is_asked_again(), times[now] > 0);
            assert!(round.to_come() > 0);
            asked.push(now);
            times[now] += 1;
            let verdict = if missed(now, times[now]) { Again } else { Got };
            round = round.after(verdict);
        }
        assert_eq!(round.done(), count);
        assert_eq!(round.clone().after(Got), round, "nothing comes after the end");
        asked
    };
    assert_eq!(walk(5, &|_, _| false), [0, 1, 2, 3, 4]);
    assert_eq!(walk(5, &|question, time| question == 1 && time == 1), [0, 1, 2, 3, 1, 4]);
    assert_eq!(walk(2, &|question, time| question == 1 && time == 1), [0, 1, 1]);
    // Three times at most.
    assert_eq!(walk(1, &|_, _| true), [0, 0, 0]);
    assert_eq!(walk(10, &|_, _| true).len(), 30);
    let mut round = EarRound::through([4, 2]);
    for verdict in [Again, Got, Again, Again] {
        round = round.after(verdict);
    }
    assert_eq!((round.at_once(), round.later(), round.not_yet(), round.now()), (1, 0, 1, None));
}
