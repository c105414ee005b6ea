//! The ladders are computed from open pitches, outside this code; common practice, no source.

use super::*;
use crate::Tuning;
use fretloom_theory::SpelledTriad;

fn neck(tuning: &str) -> Neck {
    Neck::new(Tuning::read(tuning).unwrap())
}

fn ladder(first: &str, second: &str, query: &ShapeQuery) -> Ladder {
    Ladder::new(&neck("EADGBE"), pair([first, second]), query)
}

fn pair(names: [&str; 2]) -> TriadPair {
    let [first, second] = names.map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    TriadPair::in_order(first, second).unwrap()
}

fn on(strings: &str) -> ShapeQuery {
    ShapeQuery::default().on(strings.parse().unwrap())
}

fn written(ladder: &Ladder, [first, second]: [&str; 2]) -> Vec<String> {
    let rungs = ladder.rungs().iter();
    let rungs = rungs.map(|rung| {
        let name = if rung.which == WhichTriad::First { first } else { second };
        let [one, two, three] = rung.shape.frets();
        format!("{name} {one}-{two}-{three}")
    });
    rungs.collect()
}

#[test]
fn ladders_of_f_and_g() {
    for (strings, rungs) in [
        (
            "3-2-1",
            "F 2-1-1, G 4-3-3, F 5-6-5, G 7-8-7, F 10-10-8, G 12-12-10, F 14-13-13, G 16-15-15",
        ),
        (
            "4-3-2",
            "G 0-0-0, F 3-2-1, G 5-4-3, F 7-5-6, G 9-7-8, F 10-10-10, G 12-12-12, F 15-14-13",
        ),
        ("5-4-3", "G 2-0-0, F 3-3-2, G 5-5-4, F 8-7-5, G 10-9-7, F 12-10-10, G 14-12-12"),
        ("6-5-4", "G 3-2-0, F 5-3-3, G 7-5-5, F 8-8-7, G 10-10-9, F 13-12-10, G 15-14-12"),
    ] {
        let climbed = written(&ladder("F", "G", &on(strings)), ["F", "G"]);
        let expected: Vec<&str> = rungs.split(", ").collect();
        assert_eq!(climbed[..expected.len()], expected, "{strings}");
    }
}

#[test]
fn the_altered_ladder() {
    let climbed = written(&ladder("Eb", "C#+", &on("3-2-1")), ["Eb", "C#+"]);
    let rungs = "Eb 3-4-3, C#+ 6-6-5, Eb 8-8-6, C#+ 10-10-9, Eb 12-11-11, C#+ 14-14-13";
    let expected: Vec<&str> = rungs.split(", ").collect();
    let start = climbed.iter().position(|rung| rung == expected[0]).unwrap();
    // The same grip of C#+ lies one step lower, before the six that the page shows.
    assert_eq!(climbed[start - 1], "C#+ 2-2-1");
    assert_eq!(climbed[start..start + expected.len()], expected);
}

/// F and G interleave, so six moves of a rung are an octave.
#[test]
fn six_rungs_of_an_interleaving_pair_are_an_octave() {
    let ladder = ladder("F", "G", &on("4-3-2"));
    let rungs = ladder.rungs();
    assert!(rungs.len() > 6);
    for (low, high) in rungs.iter().zip(&rungs[6..]) {
        let octave = low.shape.going_up().map(|pitch| pitch.up(12).unwrap());
        assert_eq!(high.shape.going_up(), octave);
        assert_eq!(high.which, low.which);
    }
}

const MEASURES: [Nearness; 4] =
    [Nearness::Frets, Nearness::Height, Nearness::Voices, Nearness::Rungs];

#[test]
fn next_has_several_meanings() {
    let all = ladder("F", "G", &ShapeQuery::default());
    for (index, here) in all.rungs().iter().enumerate() {
        for direction in [Direction::Up, Direction::Down] {
            let rung = |next: Option<usize>| next.map(|next| &all.rungs()[next]);
            if let Some(there) = rung(all.next_on_set(index, direction)) {
                assert_eq!(there.shape.string_set(), here.shape.string_set());
            }
            for which in [WhichTriad::First, WhichTriad::Second] {
                if let Some(there) = rung(all.next_of(index, which, direction)) {
                    assert_eq!(there.which, which);
                }
            }
            let next = all.next(index, direction);
            let back = next.and_then(|next| match direction {
                Direction::Up => all.next(next, Direction::Down),
                Direction::Down => all.next(next, Direction::Up),
            });
            assert!(next.is_none() || back == Some(index));
        }
        for by in MEASURES {
            let of_other = |rung: &Rung| rung.which != here.which;
            let other = all.nearest(&here.shape, by, of_other).unwrap();
            assert_ne!(all.rungs()[other].which, here.which);
            let itself = all.nearest(&here.shape, by, |rung| rung == here);
            assert_eq!((itself, all.find(&here.shape)), (Some(index), Some(index)));
        }
    }
}

/// From G 7-8-7 both A 6-5-5 and A 9-10-9, the same grip two frets up, are six semitones away.
#[test]
fn the_nearest_shape_of_the_other_triad() {
    let ladder = ladder("G", "A", &on("3-2-1"));
    let climbed = written(&ladder, ["G", "A"]);
    let g = climbed.iter().position(|rung| rung == "G 7-8-7").unwrap();
    let g = ladder.rungs()[g].shape;
    let of_a = |rung: &Rung| rung.which == WhichTriad::Second;
    let higher = |rung: &Rung| of_a(rung) && rung.shape.cmp_height(&g).is_gt();
    assert_eq!(climbed[ladder.nearest(&g, Nearness::Voices, of_a).unwrap()], "A 6-5-5");
    assert_eq!(climbed[ladder.nearest(&g, Nearness::Voices, higher).unwrap()], "A 9-10-9");
}

/// The rung nearest to the one at some frets, among those of the other triad or on other strings.
fn nearest(to: &str, from: &Ladder, among: &Ladder, by: Nearness) -> String {
    let to = from.rungs()[written(from, ["E", "F"]).iter().position(|rung| rung == to).unwrap()];
    let other =
        |rung: &Rung| rung.which != to.which || rung.shape.string_set() != to.shape.string_set();
    written(among, ["E", "F"])[among.nearest(&to.shape, by, other).unwrap()].clone()
}

/// E 4-5-4 and F 5-6-5 are one grip, a fret apart; F 2-1-1 lies one rung below E 4-5-4.
#[test]
fn near_in_sound_is_not_near_in_rungs() {
    let ladder = ladder("E", "F", &on("3-2-1"));
    for by in [Nearness::Frets, Nearness::Height, Nearness::Voices] {
        assert_eq!(nearest("E 4-5-4", &ladder, &ladder, by), "F 5-6-5", "{by:?}");
    }
    assert_eq!(nearest("E 4-5-4", &ladder, &ladder, Nearness::Rungs), "F 2-1-1");
}

/// On strings 5-4-3 the notes of E 6-4-5 lie at 11-9-9, and under the hand E 7-6-4.
#[test]
fn near_in_sound_is_not_near_on_the_neck() {
    let (from, among) = (ladder("E", "F", &on("4-3-2")), ladder("E", "F", &on("5-4-3")));
    for by in [Nearness::Height, Nearness::Voices] {
        assert_eq!(nearest("E 6-4-5", &from, &among, by), "E 11-9-9", "{by:?}");
    }
    assert_eq!(nearest("E 6-4-5", &from, &among, Nearness::Frets), "E 7-6-4");
}

#[test]
fn an_empty_ladder_leads_nowhere() {
    let empty = ladder("F", "G", &on("7-6-5"));
    assert!(empty.rungs().is_empty());
    for index in [0, 1, usize::MAX] {
        for direction in [Direction::Up, Direction::Down] {
            assert_eq!(empty.next(index, direction), None);
            assert_eq!(empty.next_on_set(index, direction), None);
            assert_eq!(empty.next_of(index, WhichTriad::First, direction), None);
            assert_eq!(empty.beginning(direction), None);
            assert_eq!(empty.climb(index, direction), None);
        }
    }
    let shape = ladder("F", "G", &on("3-2-1")).rungs()[0].shape;
    for by in MEASURES {
        assert_eq!(empty.nearest(&shape, by, |_| true), None);
    }
    assert_eq!(empty.find(&shape), None);
}

/// From any rung, in any tuning: no step stops before the end, each goes the way it should, and
/// says so when it changes the strings.
#[test]
fn a_climb_has_no_dead_end() {
    for tuning in ["EADGBE", "GCEA", "DADGAD", "EADG", "BEADGBE", "G4 C4 E4 A4 E4"] {
        for query in [ShapeQuery::default(), ShapeQuery::default().skipping_strings()] {
            let ladder = Ladder::new(&neck(tuning), pair(["F", "G"]), &query);
            for start in 0..ladder.rungs().len() {
                assert_eq!(
                    ends_at(&ladder, start, Direction::Up),
                    ladder.rungs().len() - 1,
                    "{tuning}"
                );
                assert_eq!(ends_at(&ladder, start, Direction::Down), 0, "{tuning}");
            }
        }
    }
}

/// Where a climb from `start` ends.
fn ends_at(ladder: &Ladder, start: usize, direction: Direction) -> usize {
    let mut here = start;
    while let Some(Step { rung, changed_to }) = ladder.climb(here, direction) {
        assert!(if direction == Direction::Up { rung > here } else { rung < here });
        let [old, new] = [here, rung].map(|rung| ladder.rungs()[rung].shape.string_set());
        assert_eq!(changed_to, (old != new).then_some(new));
        here = rung;
    }
    here
}
