//! Running one command: ask [`answer`], print its text or its JSON.

use std::io::{self, IsTerminal};

use fretloom_fretboard::{FretRange, Neck, Region};
use fretloom_theory::{ScaleKind, SpelledTriad, Spelling};

use super::args::{self, Cli, Command, OwnCommand, Request, TuningQuestion, Wanted};
use super::complain::complain;
use super::outcome::{Failure, Outcome};
use super::player::Player;
use super::queries::{arpeggio_query, fingering_query, query, shape_query, view_of};
use super::resume::Resume;
use super::{files, finger, own_files, shell, text};
use crate::answer::{
    self, ArpeggiosAnswer, CheckAnswer, CompareAnswer, FingerAnswer, FingerQuestion, Harmony,
    LadderAnswer, NamedPair, NeckAnswer, Neighbours, PairAnswer, PairsAnswer, Refusal,
    ScalesAnswer, ShapesAnswer, TuningAnswer, TuningsAnswer, ViewQuestion,
};
use crate::json::{self, AsJson};
use crate::library::{Library, LoadedTunings, Problem};
use crate::picture::{Handed, NeckPicture, Top};
use crate::settings::{Ascii, Settings};
use crate::tui::program::Program;
use crate::tui::runtime;

/// A call with the data files that it may need.
struct Call<'a> {
    cli: &'a Cli,
    library: Library,
}

pub(super) fn run(cli: &Cli, player: Player) -> Result<Outcome, Failure> {
    match &cli.command {
        None => open_screen(cli, player),
        Some(Request::Own(command)) => own(cli, command, &player),
        Some(Request::Print(command)) => {
            say_all(&player.settings_problems);
            let call = Call { cli, library: player.library };
            Ok(Outcome::Print(call.print(command)?))
        }
    }
}

fn own(cli: &Cli, command: &OwnCommand, player: &Player) -> Result<Outcome, Failure> {
    Ok(match command {
        OwnCommand::Check => {
            let answer = CheckAnswer { problems: player.problems() };
            let text = printed(cli, &answer, text::check);
            let sound = answer.problems.is_empty();
            if sound { Outcome::Print(text) } else { Outcome::PrintProblems(text) }
        }
        OwnCommand::Settings(wanted) => {
            own_files::settings(wanted, player, |answer| printed(cli, answer, text::settings))?
        }
        OwnCommand::Completions { shell } => Outcome::Print(shell::completions(*shell)),
        OwnCommand::Manual { command } => Outcome::Print(shell::manual(command.as_deref())?),
    })
}

impl Call<'_> {
    fn print(&self, command: &Command) -> Result<String, Refusal> {
        Ok(match command {
            Command::Pairs(wanted) => self.pairs(wanted)?,
            Command::Scales(wanted) => self.printed(&self.scales(wanted)?, text::scales),
            Command::Triads { scale } => {
                let triads = answer::triads_of(scale, self.spelling(), self.own_scales())?;
                self.printed(&triads, text::triads)
            }
            Command::Chord { symbol, file } => match (symbol, file) {
                (_, Some(file)) => {
                    self.printed(&answer::chord_list(&files::list(file)?), text::chords)
                }
                (symbol, None) => {
                    let symbol = symbol.as_deref().unwrap_or_default();
                    self.printed(&answer::chord(symbol)?, text::chord)
                }
            },
            Command::Shapes(shapes) => self.shapes(shapes)?,
            Command::Ladder(ladder) => {
                let triads = [ladder.first.parse()?, ladder.second.parse()?];
                self.printed(&self.ladder(ladder, triads)?, text::ladder)
            }
            Command::Neck(wanted) => self.neck(wanted)?,
            Command::Finger(wanted) => self.finger(wanted)?,
            Command::Tunings { question: None } => {
                self.printed(&TuningsAnswer::new(self.tunings()), text::tunings)
            }
            Command::Tunings { question: Some(TuningQuestion::Compare { a, b, pair }) } => {
                let pair = pair.as_deref().map(read_pair).transpose()?;
                let pair = pair.map(NamedPair::new).transpose()?;
                let loaded = self.tunings();
                let a = answer::find_tuning(loaded, a)?;
                let b = answer::find_tuning(loaded, b)?;
                self.printed(&CompareAnswer::new(a, b, pair), text::compare)
            }
        })
    }

    fn printed<A: AsJson>(&self, answer: &A, text: impl Fn(&A) -> String) -> String {
        printed(self.cli, answer, text)
    }

    fn spelling(&self) -> Spelling {
        self.cli.common.spelling.into()
    }

    /// The tunings there are. What is wrong with a player's own files is said on standard error
    /// and costs no more than those files.
    fn tunings(&self) -> &LoadedTunings {
        say_all(self.library.tunings.problems());
        &self.library.tunings
    }

    /// The player's own scales; what is wrong with them is said likewise.
    fn own_scales(&self) -> &[ScaleKind] {
        say_all(self.library.scales.problems());
        self.library.scales.kinds()
    }

    /// The chosen tuning, with the capo.
    fn tuning(&self) -> Result<TuningAnswer, Refusal> {
        let found = answer::find_tuning(self.tunings(), &self.cli.common.tuning)?;
        answer::put_capo(found, self.cli.common.capo()?)
    }

    /// The chosen neck, and which of its frets are wanted. A range may end beyond the neck, as one
    /// that is made for a longer one does; it may not begin there.
    fn neck_within(&self, frets: Option<&str>) -> Result<(Neck, TuningAnswer, FretRange), Refusal> {
        let frets = args::frets(frets)?;
        let tuning = self.tuning()?;
        let neck = Neck::new(tuning.tuning.clone());
        Region::default().within(frets).check(&neck)?;
        Ok((neck, tuning, frets))
    }

    fn harmony(&self, chord: Option<&str>, scale: Option<&str>) -> Result<Harmony, Refusal> {
        match (chord, scale) {
            (Some(chord), Some(scale)) => Harmony::of_chord_in(chord, scale, self.own_scales()),
            (Some(chord), None) => Harmony::of_chord(chord),
            (None, scale) => Harmony::of_scale_with(scale.unwrap_or_default(), self.own_scales()),
        }
    }

    fn scales(&self, wanted: &args::Scales) -> Result<ScalesAnswer, Refusal> {
        let around = Neighbours::read(&wanted.before, &wanted.after, wanted.key.as_deref())?;
        if around.are_none() {
            return answer::scales_of(&wanted.chord, self.own_scales());
        }
        answer::scales_among(&wanted.chord, &around, self.own_scales())
    }

    fn pairs(&self, pairs: &args::Pairs) -> Result<String, Refusal> {
        if pairs.all {
            let answer = answer::every_pair(&pairs.wanted.families, self.spelling());
            return Ok(self.printed(&answer, text::every_pair));
        }
        let harmony = self.harmony(pairs.chord.as_deref(), pairs.scale.as_deref())?;
        if let Some(pair) = &pairs.pair {
            let answer = answer::one_pair(&harmony, read_pair(pair)?, self.spelling())?;
            return Ok(self.printed(&answer, text::one_pair));
        }
        let answer = self.wanted_pairs(&harmony, &pairs.wanted)?;
        let wishes = pairs.wanted.wishes()?;
        Ok(self.printed(&answer, |answer| text::pairs(answer, &wishes)))
    }

    fn wanted_pairs(&self, harmony: &Harmony, wanted: &Wanted) -> Result<PairsAnswer, Refusal> {
        Ok(answer::pairs_over(harmony, &wanted.families, &wanted.wishes()?, self.spelling()))
    }

    fn shapes(&self, shapes: &args::Shapes) -> Result<String, Refusal> {
        let triad: SpelledTriad = shapes.triad.parse()?;
        let strings = args::strings(shapes.strings.as_deref())?;
        let (neck, tuning, frets) = self.neck_within(shapes.where_to.frets.as_deref())?;
        if let Some(per_string) = shapes.arpeggio {
            let query = arpeggio_query(shapes, per_string, frets);
            let answer = ArpeggiosAnswer::new(&neck, tuning, triad, strings, &query)?;
            return Ok(self.printed(&answer, text::arpeggios));
        }
        let query = shape_query(shapes, frets);
        let answer = ShapesAnswer::new(&neck, tuning, triad, strings, &query)?;
        Ok(self.printed(&answer, text::shapes))
    }

    fn ladder(
        &self,
        ladder: &args::Ladder,
        triads: [SpelledTriad; 2],
    ) -> Result<LadderAnswer, Refusal> {
        let strings = args::strings(ladder.strings.as_deref())?;
        let (neck, tuning, frets) = self.neck_within(ladder.where_to.frets.as_deref())?;
        let (pair, query) = (NamedPair::new(triads)?, query(&ladder.where_to, frets));
        if ladder.across_sets {
            return LadderAnswer::across_sets(&neck, tuning, pair, strings, &query);
        }
        let strings = strings.map_or_else(|| "3-2-1".parse(), Ok)?;
        LadderAnswer::new(&neck, tuning, pair, strings, &query)
    }

    fn neck(&self, wanted: &args::Neck) -> Result<String, Refusal> {
        let harmony = self.harmony(wanted.chord.as_deref(), wanted.scale.as_deref())?;
        let pair = self.chosen_pair(&harmony, wanted)?;
        let (neck, tuning, frets) = self.neck_within(wanted.frets.as_deref())?;
        if let Some(view) = view_of(&wanted.view, &neck)? {
            let (hand, choice) = (wanted.view.hand.hand(), wanted.view.choice.unwrap_or(1));
            let asked = ViewQuestion::new(view, hand, frets, choice).ask(&neck, &pair)?;
            let answer = NeckAnswer::in_view(&neck, tuning, &pair, &asked);
            let picture = wanted.frets.is_some().then_some(frets);
            let turn = &|picture| turned(picture, wanted);
            let view = text::View { neck: &neck, pair: &pair, asked: &asked, frets: picture, turn };
            return Ok(self.printed(&answer, |answer| text::view(answer, &view, wanted.labels)));
        }
        let answer = NeckAnswer::new(&neck, tuning, &pair, frets);
        let picture = picture(&neck, &answer, frets, wanted);
        Ok(self.printed(&answer, |answer| text::neck(answer, &pair, &picture)))
    }

    /// What is odd about the file is said on standard error, where the line could be played.
    fn finger(&self, wanted: &args::Finger) -> Result<String, Refusal> {
        let (neck, tuning, frets) = self.neck_within(wanted.where_to.frets.as_deref())?;
        let query = fingering_query(wanted, frets)?;
        let score = finger::score(wanted)?;
        let question = FingerQuestion { query, count: wanted.ways.into() };
        let answer = FingerAnswer::new(&neck, tuning, &score, &question)?;
        score.remarks().iter().for_each(complain);
        Ok(self.printed(&answer, |answer| finger::text(answer, neck.tuning(), &score)))
    }

    /// The pair that is meant by its number in the list or by its two triads.
    fn chosen_pair(&self, harmony: &Harmony, wanted: &args::Neck) -> Result<PairAnswer, Refusal> {
        let text = wanted.pair.trim();
        if let Some(triads) = two_triads(text) {
            return answer::pair_over(harmony, triads?, self.spelling());
        }
        let pairs = self.wanted_pairs(harmony, &wanted.wanted)?.pairs;
        let count = pairs.len();
        let index = text.parse().ok().and_then(|rank: usize| rank.checked_sub(1));
        match index.and_then(|index| pairs.get(index)) {
            Some(pair) => Ok(pair.clone()),
            None if count == 0 => Err(Refusal::NothingToChoose { text: text.to_owned() }),
            None => Err(Refusal::UnknownPair { text: text.to_owned(), count }),
        }
    }
}

fn printed<A: AsJson>(cli: &Cli, answer: &A, text: impl Fn(&A) -> String) -> String {
    if cli.common.json {
        return json::text(answer) + "\n";
    }
    let text = crate::glyphs::printable(&text(answer));
    if is_ascii(cli) { crate::glyphs::to_ascii(&text) } else { text }
}

fn is_ascii(cli: &Cli) -> bool {
    match cli.common.ascii {
        Ascii::Auto => !crate::glyphs::locale_is_utf8(),
        Ascii::Always => true,
        Ascii::Never => false,
    }
}

fn open_screen(cli: &Cli, mut player: Player) -> Result<Outcome, Failure> {
    if !io::stdout().is_terminal() || !io::stdin().is_terminal() {
        return Err(Failure::Input(
            "the screen needs a terminal, and this is none; these commands print text: pairs, \
             scales, triads, chord, shapes, ladder, neck, finger, tunings (see fretloom --help)"
                .to_owned(),
        ));
    }
    let theme = player.theme(&cli.theme)?;
    let unfit = |expected| Failure::Input(format!("--pedal {}: expected {expected}", cli.pedal));
    let pedal = cli.pedal.free_in(&player.keys).map_err(unfit)?;
    player.tell_all_in_library();
    pedal.join(&mut player.keys);
    let symbol = cli.chord.first().map(String::as_str);
    let spelling = cli.common.spelling.into();
    let mut program = Program::open(symbol, &cli.common.tuning, player.library, spelling)?;
    program.use_theme(theme);
    program.use_keys(player.keys);
    program.use_settings(&Settings { mouse: cli.mouse, ..player.settings });
    program.put_capo(cli.common.capo()?)?;
    let resume = Resume::new(player.folders.state.as_deref());
    if !cli.fresh {
        resume.take_up(cli, &mut program);
    }
    if is_ascii(cli) {
        program.use_ascii();
    }
    let mut kept = Ok(());
    let run = runtime::run(&mut program, |program| kept = resume.keep(program));
    // The terminal is the player's again.
    if let Err(why) = kept {
        complain(&why);
    }
    run.map_err(|error| Failure::Input(error.to_string()))?;
    Ok(Outcome::Shown)
}

fn say_all(problems: &[Problem]) {
    problems.iter().for_each(complain);
}

/// `F & G` as two triads; `None` where there is no `&`.
fn two_triads(text: &str) -> Option<Result<[SpelledTriad; 2], Refusal>> {
    let (one, other) = text.split_once('&')?;
    let read = || -> Result<[SpelledTriad; 2], Refusal> {
        Ok([one.trim().parse()?, other.trim().parse()?])
    };
    Some(read())
}

/// A pair of the player's own.
fn read_pair(text: &str) -> Result<[SpelledTriad; 2], Refusal> {
    let text = text.trim();
    two_triads(text).ok_or_else(|| Refusal::NotTwoTriads { text: text.to_owned() })?
}

/// The neck as it is to be drawn.
fn picture(neck: &Neck, answer: &NeckAnswer, frets: FretRange, wanted: &args::Neck) -> NeckPicture {
    let picture = NeckPicture::new(neck, answer::marks(&answer.places, wanted.labels));
    turned(picture.within(frets), wanted)
}

/// The same picture for the player's hand and stringing.
fn turned(picture: NeckPicture, wanted: &args::Neck) -> NeckPicture {
    let handed = if wanted.left_handed { Handed::Left } else { Handed::Right };
    let top = if wanted.upside_down { Top::Last } else { Top::First };
    picture.with_fret_widths(wanted.fret_widths).for_hand(handed).with_top(top)
}
