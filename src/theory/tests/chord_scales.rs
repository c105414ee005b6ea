//! Chords, their scales and the pairs in them, against an open textbook and against what players
//! write down for every common chord.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at the first surprise")]

use std::collections::BTreeSet;

use fretloom_theory::{
    Chord, ChordScale, NoteName, PairSound, PitchClass, PitchClassSet, Reading, Scale, ScaleChoice,
    Speller, Spelling, Triad, TriadPair, TriadQuality, other_chords,
};

/// The twelve roots, by the name that a lead sheet would use.
const ROOTS: [&str; 12] = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

fn chord_scale(chord: &str, scale: &str) -> ChordScale {
    ChordScale::over(chord.parse().unwrap(), scale.parse().unwrap())
}

/// The kinds of scale offered for a chord, in order.
fn offered(symbol: &str) -> Vec<String> {
    let chord: Chord = symbol.parse().unwrap_or_else(|error| panic!("{error}"));
    let choices = ScaleChoice::for_chord(&chord);
    choices.iter().map(|choice| choice.scale().kind().name().to_owned()).collect()
}

fn place(list: &[String], wanted: &str) -> usize {
    list.iter().position(|name| name == wanted).unwrap_or_else(|| panic!("{wanted}: {list:?}"))
}

/// `C & Dm (B)`: the pair in plain spelling, the lower letter of the alphabet first, and what it
/// leaves out.
fn told(sound: &PairSound, chord_scale: &ChordScale) -> String {
    let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
    let [a, b] = names(sound.pair(), &speller);
    let left_out: Vec<String> =
        sound.left_out().iter().map(|class| format!("{:#}", speller.note(class))).collect();
    format!("{a}&{b} ({})", left_out.join(" "))
}

fn names(pair: TriadPair, speller: &Speller) -> [String; 2] {
    let mut names = pair.triads().map(|triad| format!("{:#}", speller.triad(triad)));
    names.sort();
    names
}

/// The same text for a pair in a table, whichever of its triads the table names first.
fn as_told(row: &str) -> String {
    let (pair, left_out) = row.trim().split_once(' ').unwrap();
    let (a, b) = pair.split_once('&').unwrap();
    format!("{}&{} {left_out}", a.min(b), a.max(b))
}

/// Hutchinson, Music Theory for the 21st-Century Classroom, 31.10: chord, then its scales. Where
/// it gives two it gives no order.
const TEXTBOOK: [(&str, &[&str]); 17] = [
    ("maj7", &["Ionian", "Lydian"]),
    ("maj7(#11)", &["Lydian"]),
    ("maj7(#5)", &["Lydian augmented"]),
    ("m7", &["Dorian", "Aeolian"]),
    ("ø7", &["Locrian", "Locrian natural 2"]),
    ("ø9", &["Locrian natural 2"]),
    ("°7", &["whole-half diminished"]),
    ("m(maj7)", &["melodic minor"]),
    ("m6/9", &["Dorian", "melodic minor"]),
    ("7", &["Mixolydian"]),
    ("7(#11)", &["Lydian dominant"]),
    ("7(#5)", &["whole tone"]),
    ("7(b5)", &["whole tone"]),
    ("7(b9)", &["half-whole diminished"]),
    ("7(#9)", &["half-whole diminished"]),
    ("13(#9,#11)", &["half-whole diminished"]),
    ("7alt", &["altered"]),
];

#[test]
fn the_textbooks_scales_stand_first_on_every_root() {
    for root in ROOTS {
        for (suffix, scales) in TEXTBOOK {
            let symbol = format!("{root}{suffix}");
            let list = offered(&symbol);
            for scale in scales {
                let at = place(&list, scale);
                assert!(at < scales.len(), "{symbol}: {scale} stands {}: {list:?}", at + 1);
            }
        }
    }
}

/// Which chord calls which scale where it stands alone: the first choice, then alternatives.
/// The textbook where it speaks; else common practice, no source. Two first choices
/// share the first two places, in either order.
const CALLS: &[(&str, &str, &str)] = &[
    ("Cmaj7", "Lydian|Ionian", ""),
    ("C6", "Ionian", "Lydian"),
    ("Cmaj7#11", "Lydian", ""),
    ("Cmaj7#5", "Lydian augmented", "Ionian #5|augmented"),
    ("Cm7", "Dorian", "Aeolian|Phrygian"),
    ("Cm6", "melodic minor", "Dorian"),
    ("Cm6/9", "melodic minor", "Dorian"),
    ("Cm(maj7)", "melodic minor", "harmonic minor"),
    ("Cm7b5", "Locrian natural 2|Locrian", "Locrian natural 6"),
    (
        "C7",
        "Mixolydian",
        "Lydian dominant|half-whole diminished|altered|bebop dominant|Phrygian dominant|\
         Mixolydian b6|whole tone",
    ),
    ("C9", "Mixolydian", "Lydian dominant|Mixolydian b6|whole tone"),
    ("C13", "Mixolydian", "Lydian dominant"),
    ("C7#11", "Lydian dominant", "half-whole diminished|altered"),
    ("C7b9", "half-whole diminished", "Phrygian dominant|altered"),
    ("C13b9", "half-whole diminished", "Mixolydian b2"),
    ("C7#9", "half-whole diminished", "altered"),
    ("C7#5", "whole tone", "altered"),
    ("C7b5", "whole tone", "altered"),
    ("C9#5", "whole tone", ""),
    ("C7b13", "Mixolydian b6", "Phrygian dominant|altered"),
    ("C7b9b13", "Phrygian dominant", "altered"),
    ("C7alt", "altered", ""),
    ("C7sus4", "Mixolydian", "Dorian"),
    ("C7susb9", "Phrygian", "Dorian b2"),
    ("Cdim7", "whole-half diminished", ""),
    ("C+", "whole tone", "Lydian augmented|augmented"),
];

#[test]
fn each_chord_calls_its_usual_scale_first_and_offers_the_others() {
    for (symbol, first, others) in CALLS {
        let list = offered(symbol);
        let leading: BTreeSet<&str> = first.split('|').collect();
        let found: BTreeSet<&str> = list.iter().take(leading.len()).map(String::as_str).collect();
        assert_eq!(found, leading, "{symbol}: {list:?}");
        for other in others.split('|').filter(|name| !name.is_empty()) {
            let at = place(&list, other);
            assert!(at < 10, "{symbol}: {other} stands {}: {list:?}", at + 1);
        }
    }
}

/// The same by function, which orders where quality alone cannot: Hutchinson's example is Fm7 in
/// A♭ major, which is no Dorian; the others are common practice, no source. The star marks the
/// chord that is asked about.
#[test]
fn function_orders_what_quality_alone_cannot() {
    for (symbols, first) in [
        ("Abmaj7 *Fm7 Bbm7 Eb7 Abmaj7", "F Aeolian"),
        ("Cmaj7 *Em7 Am7 Dm7 G7 Cmaj7", "E Phrygian"),
        ("*Dm7 G7 Cmaj7", "D Dorian"),
        ("Dm7 G7 Cmaj7 *Fmaj7", "F Lydian"),
        ("Cmaj7 *Dbmaj7 Cmaj7", "Db Lydian"),
        ("Dm7 *G7 Cmaj7", "G Mixolydian"),
        ("Dm7b5 *G7 Cm6", "G altered"),
        ("Cmaj7 *Bb7 Cmaj7", "Bb Lydian dominant"),
        ("Cmaj7 *D7 Dm7 G7", "D Lydian dominant"),
        ("Dm7 *Db7 Cmaj7", "Db Lydian dominant"),
        ("*Dm7b5 G7 Cm6", "D Locrian"),
        ("Cmaj7 *F#m7b5 Fm7 Em7", "F# Locrian"),
        ("G7 *Cm6 Cm6", "C melodic minor"),
        ("Dm7b5 *G7b9 Cm6", "G Phrygian dominant|G altered"),
        ("*C7 C7 C7 C7 F7", "C Mixolydian|C Lydian dominant"),
    ] {
        let index = symbols.split(' ').position(|symbol| symbol.starts_with('*')).unwrap();
        let chords = chords(&symbols.replace('*', ""));
        let reading = Reading::at(&chords, index, None).unwrap();
        let found = format!("{:#}", reading.scales()[0].scale());
        assert!(first.split('|').any(|name| name == found), "{symbols}: {found}, not {first}");
    }
}

fn chords(symbols: &str) -> Vec<Chord> {
    symbols.split_whitespace().map(|symbol| symbol.parse().unwrap()).collect()
}

fn rubbing(chord: &str, scale: &str) -> String {
    let chord_scale = chord_scale(chord, scale);
    let rubs = chord_scale.scale().notes().filter(|note| chord_scale.rubs(note.pitch_class()));
    rubs.map(|note| format!("{note:#}")).collect::<Vec<_>>().join(" ")
}

/// Wikipedia, Avoid note: the modes of C major. Its rule (a half step above a chord tone) gives the
/// whole table except Dorian's sixth, which it lists by convention, for the tritone with the third;
/// the rule stands here, so Dorian has no rub.
#[test]
fn avoid_notes_come_out_as_rubs() {
    for (chord, scale, avoid) in [
        ("Cmaj7", "C Ionian", "F"),
        ("Dm7", "D Dorian", ""),
        ("Em7", "E Phrygian", "F C"),
        ("Fmaj7", "F Lydian", ""),
        ("G7", "G Mixolydian", "C"),
        ("Am7", "A Aeolian", "F"),
        ("Bm7b5", "B Locrian", "C"),
        // common practice, no source
        ("C7sus4", "C Mixolydian", ""),
        ("C7#11", "C Lydian dominant", ""),
        ("Cm(maj7)", "C melodic minor", ""),
        ("Cm6", "C melodic minor", ""),
        ("C7alt", "C altered", ""),
        ("C7b9", "C half-whole", ""),
        ("G7sus4", "G Mixolydian", ""),
        ("Cm7b5", "C Locrian natural 2", ""),
        ("Cdim7", "C whole-half", ""),
    ] {
        assert_eq!(rubbing(chord, scale), avoid, "{chord} in {scale}");
    }
}

/// The seven pairs spelled in thirds over every common chord on C, with the note each leaves out:
/// computed by hand from the scales.
const SEVEN_PAIRS: [(&str, &str, &str); 16] = [
    (
        "Cmaj7 C6",
        "C Ionian",
        "C&Dm (B) · Dm&Em (C) · Em&F (D) · F&G (E) · G&Am (F) · Am&Bdim (G) · Bdim&C (A)",
    ),
    (
        "Cmaj7 Cmaj7#11",
        "C Lydian",
        "C&D (B) · D&Em (C) · Em&F#dim (D) · F#dim&G (E) · G&Am (F#) · Am&Bm (G) · Bm&C (A)",
    ),
    (
        "C7 C9 C13 C7sus4 C9sus4 C11",
        "C Mixolydian",
        "C&Dm (Bb) · Dm&Edim (C) · Edim&F (D) · F&Gm (E) · Gm&Am (F) · Am&Bb (G) · Bb&C (A)",
    ),
    (
        "Cm7 Cm9 Cm11",
        "C Dorian",
        "Cm&Dm (Bb) · Dm&Eb (C) · Eb&F (D) · F&Gm (Eb) · Gm&Adim (F) · Adim&Bb (G) · Bb&Cm (A)",
    ),
    (
        "Cm7 C7susb9",
        "C Phrygian",
        "Cm&Db (Bb) · Db&Eb (C) · Eb&Fm (Db) · Fm&Gdim (Eb) · Gdim&Ab (F) · Ab&Bbm (G) · \
         Bbm&Cm (Ab)",
    ),
    (
        "Cm7 Cmb6",
        "C Aeolian",
        "Cm&Ddim (Bb) · Ddim&Eb (C) · Eb&Fm (D) · Fm&Gm (Eb) · Gm&Ab (F) · Ab&Bb (G) · \
         Bb&Cm (Ab)",
    ),
    (
        "Cm7b5",
        "C Locrian",
        "Cdim&Db (Bb) · Db&Ebm (C) · Ebm&Fm (Db) · Fm&Gb (Eb) · Gb&Ab (F) · Ab&Bbm (Gb) · \
         Bbm&Cdim (Ab)",
    ),
    (
        "Cm7b5 Cm9b5",
        "C Locrian natural 2",
        "Cdim&Ddim (Bb) · Ddim&Ebm (C) · Ebm&Fm (D) · Fm&Gb+ (Eb) · Gb+&Ab (F) · Ab&Bb (Gb) · \
         Bb&Cdim (Ab)",
    ),
    (
        "Cm(maj7) Cm6",
        "C melodic minor",
        "Cm&Dm (B) · Dm&Eb+ (C) · Eb+&F (D) · F&G (Eb) · G&Adim (F) · Adim&Bdim (G) · \
         Bdim&Cm (A)",
    ),
    (
        "C7susb9 C13susb9",
        "C Dorian b2",
        "Cm&Db+ (Bb) · Db+&Eb (C) · Eb&F (Db) · F&Gdim (Eb) · Gdim&Adim (F) · Adim&Bbm (G) · \
         Bbm&Cm (A)",
    ),
    (
        "Cmaj7#5",
        "C Lydian augmented",
        "C+&D (B) · D&E (C) · E&F#dim (D) · F#dim&G#dim (E) · G#dim&Am (F#) · Am&Bm (G#) · \
         Bm&C+ (A)",
    ),
    (
        "C7#11 C7",
        "C Lydian dominant",
        "C&D (Bb) · D&Edim (C) · Edim&F#dim (D) · F#dim&Gm (E) · Gm&Am (F#) · Am&Bb+ (G) · \
         Bb+&C (A)",
    ),
    (
        "C7b13",
        "C Mixolydian b6",
        "C&Ddim (Bb) · Ddim&Edim (C) · Edim&Fm (D) · Fm&Gm (E) · Gm&Ab+ (F) · Ab+&Bb (G) · \
         Bb&C (Ab)",
    ),
    (
        "C7alt",
        "C altered",
        "Cdim&Dbm (Bb) · Dbm&Ebm (C) · Ebm&E+ (Db) · E+&Gb (Eb) · Gb&Ab (E) · Ab&Bbdim (Gb) · \
         Bbdim&Cdim (Ab)",
    ),
    (
        "C7b9b13 C7b9",
        "C Phrygian dominant",
        "C&Db (Bb) · Db&Edim (C) · Edim&Fm (Db) · Fm&Gdim (E) · Gdim&Ab+ (F) · Ab+&Bbm (G) · \
         Bbm&C (Ab)",
    ),
    (
        "Cm(maj7)",
        "C harmonic minor",
        "Cm&Ddim (B) · Ddim&Eb+ (C) · Eb+&Fm (D) · Fm&G (Eb) · G&Ab (F) · Ab&Bdim (G) · \
         Bdim&Cm (Ab)",
    ),
];

#[test]
fn every_common_chord_has_its_seven_pairs_and_each_leaves_out_one_note() {
    for (symbols, scale, row) in SEVEN_PAIRS {
        for symbol in symbols.split(' ') {
            let chord_scale = chord_scale(symbol, scale);
            let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
            let spelled = sounds.iter().filter(|sound| sound.in_thirds());
            let found: BTreeSet<String> = spelled.map(|sound| told(sound, &chord_scale)).collect();
            let wanted: BTreeSet<String> = row.split('·').map(as_told).collect();
            assert_eq!(found, wanted, "{symbol} in {scale}");
        }
    }
}

#[test]
fn a_pair_on_neighbouring_degrees_leaves_out_the_degree_just_below() {
    for (_, scale, _) in SEVEN_PAIRS {
        let chord_scale = ChordScale::alone(scale.parse().unwrap());
        let degrees: Vec<PitchClass> =
            chord_scale.scale().notes().map(NoteName::pitch_class).collect();
        let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
        let spelled: Vec<&PairSound> = sounds.iter().filter(|sound| sound.in_thirds()).collect();
        assert_eq!(spelled.len(), 7, "{scale}");
        for sound in spelled {
            let roots = sound.pair().triads().map(Triad::root);
            let step = (0..7)
                .find(|&step| {
                    let neighbours = [degrees[step], degrees[(step + 1) % 7]];
                    neighbours.iter().all(|class| roots.contains(class))
                })
                .unwrap_or_else(|| panic!("{scale}: {}", told(sound, &chord_scale)));
            let below = degrees[(step + 6) % 7];
            assert_eq!(sound.left_out().iter().collect::<Vec<_>>(), [below], "{scale}");
        }
    }
}

/// The pairs of symmetric scales that players know: common practice, no source.
#[test]
fn symmetric_scales_hold_the_pairs_that_players_know() {
    for (chord, scale, pairs, count) in [
        ("C13b9", "C half-whole", "C&Gb A&Eb C&Ebm A&Cm", 36),
        ("Cdim7", "C whole-half", "Ab&D B&F", 36),
        ("C7#5", "C whole tone", "C+&D+", 1),
        ("Cmaj7#5", "C augmented", "Abm&C Cm&E Ab&Em B+&C+", 4),
    ] {
        let chord_scale = chord_scale(chord, scale);
        let speller = Speller::new(chord_scale.clone(), Spelling::Plain);
        let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
        assert_eq!(sounds.len(), count, "{scale}");
        for pair in pairs.split(' ') {
            let (one, other) = pair.split_once('&').unwrap();
            let wanted = [triad(one).set(), triad(other).set()];
            let there = sounds.iter().any(|sound| {
                let [first, second] = sound.pair().triads().map(Triad::set);
                wanted == [first, second] || wanted == [second, first]
            });
            assert!(there, "{pair} in {scale}");
        }
        let told: Vec<[String; 2]> =
            sounds.iter().map(|sound| names(sound.pair(), &speller)).collect();
        let distinct: BTreeSet<&[String; 2]> = told.iter().collect();
        assert_eq!(distinct.len(), told.len(), "two rows of {scale} read alike");
    }
}

fn triad(name: &str) -> Triad {
    name.parse::<fretloom_theory::SpelledTriad>().unwrap().triad()
}

/// C and E♭ share G: no pair, though both lie in the scale.
#[test]
fn majors_a_minor_third_apart_are_no_pair() {
    assert_eq!(TriadPair::new(triad("C"), triad("Eb"), PitchClass::C), None);
    assert!(TriadPair::new(triad("C"), triad("Ebm"), PitchClass::C).is_some());
}

/// A blues over its own dominant holds no major third and no pair: it does not fit the symbol, and
/// where the chord stands in a blues it is offered as a reading. Common practice, no source.
#[test]
fn the_blues_scales_are_offered_as_a_reading_of_a_dominant() {
    for symbols in ["C7 *F7 C7 G7", "F7 *C7 G7 F7", "Dm7 G7 *C7 A7"] {
        let index = symbols.split(' ').position(|symbol| symbol.starts_with('*')).unwrap();
        let reading = Reading::at(&chords(&symbols.replace('*', "")), index, None).unwrap();
        let list: Vec<String> =
            reading.scales().iter().map(|choice| choice.scale().kind().name().to_owned()).collect();
        assert!(list[..2].contains(&"Mixolydian".to_owned()), "{symbols}: {list:?}");
        for blues in ["minor blues", "major blues"] {
            assert!(place(&list, blues) < 6, "{symbols}: {list:?}");
        }
    }
}

/// Charts write a chord again in each bar in which it sounds; that changes no reading.
#[test]
fn a_chord_that_is_written_again_is_read_as_one() {
    for (symbols, says) in [
        ("*Dm7 Dm7 G7 G7 Cmaj7", "ii of C"),
        ("Dm7 Dm7 *G7 G7 Cmaj7", "V of C, which follows"),
        ("Dm7 Dm7 G7 *G7 Cmaj7", "V of C, which follows"),
        ("*C7 C7 C7 C7 F7 F7", "V of F7, a chain of dominants"),
        ("Cmaj7 *C#dim7 C#dim7 Dm7", "passing up to Dm7"),
        ("G7 G7 *Cm6 Cm6", "tonic minor"),
    ] {
        let index = symbols.split(' ').position(|symbol| symbol.starts_with('*')).unwrap();
        let reading = Reading::at(&chords(&symbols.replace('*', "")), index, None).unwrap();
        assert_eq!(reading.to_string(), says, "{symbols}");
    }
}

/// Eight bars that every jazz player knows how to read. The reading, the scale, a good pair and
/// the note it leaves out are those that a teacher would pencil in: common practice, no source.
const FRAGMENT: [(&str, &str, &str, &str); 8] = [
    ("Em7b5", "ii of D minor, though D minor does not follow", "E Locrian natural 2", "D&Edim (C)"),
    ("A7", "V of D minor, though D minor does not follow", "A altered", "C#+&Eb (C)"),
    ("Cm7", "ii of B♭", "C Dorian", "Eb&F (D)"),
    ("F7", "V of B♭, though B♭ does not follow", "F Mixolydian", "Eb&F (D)"),
    ("Fm7", "ii of E♭", "F Dorian", "Ab&Bb (G)"),
    ("Bb7", "V of E♭, which follows", "B♭ Mixolydian", "Ab&Bb (G)"),
    ("Ebmaj7", "I of E♭", "E♭ Lydian", "Eb&F (D)"),
    ("Ab7", "does not fall a fifth", "A♭ Lydian dominant", "Ab&Bb (Gb)"),
];

#[test]
fn a_worked_fragment_from_reading_to_pair() {
    let chords = chords("Em7b5 A7 Cm7 F7 Fm7 Bb7 Ebmaj7 Ab7");
    for (bar, (symbol, says, scale, wanted)) in FRAGMENT.into_iter().enumerate() {
        let reading = Reading::at(&chords, bar, None).unwrap();
        assert_eq!(reading.to_string(), says, "{symbol}");
        let choices = reading.scales();
        let first: &Scale = choices[0].scale();
        assert_eq!(first.to_string(), scale, "{symbol}");
        let chord_scale = ChordScale::over(chords[bar].clone(), first.clone());
        let list: Vec<String> = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN)
            .iter()
            .map(|sound| told(sound, &chord_scale))
            .collect();
        let rank = place(&list, &as_told(wanted)) + 1;
        assert!(rank <= 4, "{symbol}: {wanted} stands {rank}: {list:?}");
    }
}

/// The same hand serves several bars; the note that is missing changes under it.
#[test]
fn one_pair_covers_several_bars_of_the_fragment() {
    for (pair, bars) in [
        ("Eb&F", "Cm7:Dorian:D F7:Mixolydian:D Ebmaj7:Lydian:D"),
        ("Ab&Bb", "Fm7:Dorian:G Bb7:Mixolydian:G Ab7:Lydian dominant:Gb"),
    ] {
        let bars = bars.replace("Lydian dominant", "Lydian_dominant");
        let (one, other) = pair.split_once('&').unwrap();
        let pair = TriadPair::new(triad(one), triad(other), PitchClass::C).unwrap();
        for bar in bars.split(' ') {
            let [symbol, kind, missing] = bar.split(':').collect::<Vec<_>>()[..] else { panic!() };
            let chord: Chord = symbol.parse().unwrap();
            let scale = format!("{:#} {}", chord.root(), kind.replace('_', " "));
            let chord_scale = chord_scale(symbol, &scale);
            let told = told(&PairSound::of(pair, &chord_scale), &chord_scale);
            assert_eq!(told, format!("{one}&{other} ({missing})"), "{symbol}");
        }
    }
}

/// A player who stands on one of these chords is told the others.
#[test]
fn a_pair_tells_the_other_bars_that_it_serves() {
    for (symbol, scale, pair, others) in [
        ("Cm7", "C Dorian", "Eb&F", "F7 Ebmaj7#11"),
        ("F7", "F Mixolydian", "Eb&F", "Cm7 Ebmaj7#11"),
        ("Fm7", "F Dorian", "Ab&Bb", "Bb7 Ab7#11"),
        ("Ab7#11", "Ab Lydian dominant", "Ab&Bb", "Fm7 Bb7"),
        ("Cm(maj7)", "C melodic minor", "F&G", "D7sus4b9 Ebmaj7#5 F7#11 G7b13 Am7b5 B7alt G7 Dm7"),
    ] {
        let chord_scale = chord_scale(symbol, scale);
        let notes = pair.split('&').map(|name| triad(name).set());
        let notes = notes.fold(PitchClassSet::EMPTY, PitchClassSet::union);
        let served: Vec<String> =
            other_chords(notes, &Speller::new(chord_scale.clone(), Spelling::Plain))
                .iter()
                .map(|chord| format!("{chord:#}"))
                .collect();
        for other in others.split(' ') {
            assert!(served.iter().any(|name| name == other), "{symbol} {pair}: {served:?}");
        }
    }
}
