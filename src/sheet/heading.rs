//! What a sheet is about, at its head and at the foot of each page.

use fretloom_theory::{Degree, NoteName, SpelledTriad, WhichTriad};

use crate::answer::{Harmony, LeftOut, PairAnswer, TriadAnswer, TuningAnswer, sounds_behind_capo};
use crate::engraving::Answers;
use crate::export::text::tuning_line;
use crate::picture::page::{Face, Figure, Flow, Paper, Point, points};
use crate::picture::triad_figure;
use crate::words::spaced;

/// What a sheet is about.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Heading {
    /// The chord; without one the pair, or the triad.
    pub title: String,
    /// The scale.
    pub scale: Option<String>,
    /// The triads, each with its shape on this sheet.
    pub triads: Vec<TriadLine>,
    /// What is said of them, a sentence each.
    pub says: Vec<String>,
    /// The tuning, with its capo.
    pub tuning: Vec<String>,
}

/// A triad as a heading shows it.
#[derive(Clone, PartialEq, Debug)]
pub struct TriadLine {
    /// Which of the two: its marks have another shape.
    pub which: WhichTriad,
    /// Its name.
    pub name: String,
    /// Its notes, and what they are over the chord.
    pub notes: String,
}

const TITLE_SIZE: f64 = points(22.0);
const LINE_SIZE: f64 = points(11.0);
const SMALL_SIZE: f64 = points(9.5);
/// Room to write the notes of a triad.
const FILL_IN_MM: f64 = 60.0;

impl Heading {
    /// Of a pair over a chord or a scale.
    #[must_use]
    pub fn of_pair(harmony: &Harmony, pair: &PairAnswer, tuning: &TuningAnswer) -> Heading {
        let chord = harmony.chord().map(|chord| chord.read.chord.to_string());
        let scale = harmony.scale().scale().to_string();
        let name = pair.name();
        let says = left_out(&pair.left_out).into_iter().chain([pair.why.to_string()]);
        Heading {
            title: chord.unwrap_or_else(|| name.to_string()),
            scale: Some(scale),
            triads: vec![
                TriadLine::over_chord(WhichTriad::First, &pair.first),
                TriadLine::over_chord(WhichTriad::Second, &pair.second),
            ],
            says: says.collect(),
            tuning: tuning_lines(tuning, name.names()),
        }
    }

    /// Of triads by themselves: one, or the two of a pair.
    #[must_use]
    pub fn of_triads<const N: usize>(triads: [SpelledTriad; N], tuning: &TuningAnswer) -> Heading {
        let both = [WhichTriad::First, WhichTriad::Second];
        let line = |(name, which): (&SpelledTriad, WhichTriad)| TriadLine {
            which,
            name: name.to_string(),
            notes: spaced(name.notes()),
        };
        Heading {
            title: triads.map(|name| name.to_string()).join(" & "),
            scale: None,
            triads: triads.iter().zip(both).map(line).collect(),
            says: Vec::new(),
            tuning: tuning_lines(tuning, triads),
        }
    }

    /// `Gmaj7♯11 · G Lydian · G & A`
    #[must_use]
    pub fn name(&self) -> String {
        let triads: Vec<&str> = self.triads.iter().map(|triad| triad.name.as_str()).collect();
        let pair = Some(triads.join(" & ")).filter(|pair| *pair != self.title);
        let parts = [Some(self.title.clone()), self.scale.clone(), pair];
        let parts: Vec<String> =
            parts.into_iter().flatten().filter(|part| !part.is_empty()).collect();
        parts.join(" · ")
    }

    /// Pages on this paper that say at their foot what they are about, headed by it.
    #[must_use]
    pub fn begin(&self, paper: Paper) -> Flow {
        let mut flow = self.flow(paper);
        flow.put(self.figure(flow.width_mm(), Answers::Shown), 0.0);
        flow
    }

    /// Pages on this paper that say at their foot what they are about.
    pub(super) fn flow(&self, paper: Paper) -> Flow {
        let tuning = self.tuning.first().map(String::as_str).unwrap_or_default();
        Flow::new(paper, &self.name(), &format!("{} · {tuning}", self.name()))
    }

    /// The head of the first page; without answers with room for the notes, and for what is to be said of
    /// them.
    #[must_use]
    pub fn figure(&self, width_mm: f64, answers: Answers) -> Figure {
        let title = Figure::paragraph(&self.title, Face::Bold, TITLE_SIZE, width_mm);
        let mut figure = match &self.scale {
            Some(scale) => self.beside_title(title, scale, width_mm),
            None => title,
        };
        let triads = self.triads.iter().map(|triad| triad.figure(answers));
        let beside = triads.clone().fold(Figure::default(), |row, next| row.beside(next, 12.0));
        if beside.width_mm <= width_mm {
            figure = figure.over(beside, 1.5);
        } else {
            figure = triads.fold(figure, |above, triad| above.over(triad, 1.5));
        }
        let is_blank = answers == Answers::Blank && !self.triads.is_empty();
        let says = self.says.iter().filter(|_| !is_blank);
        for sentence in says.chain(&self.tuning) {
            let small = Figure::paragraph(sentence, Face::Plain, SMALL_SIZE, width_mm);
            figure = figure.over(small, 0.8);
        }
        figure
    }

    /// The scale to the right of the title, on its line, or below it where it has no room there.
    fn beside_title(&self, title: Figure, scale: &str, width_mm: f64) -> Figure {
        let line = Figure::line(scale, Face::Plain, LINE_SIZE);
        let left = title.width_mm + 6.0;
        let is_one_line = title.height_mm < 2.0 * TITLE_SIZE;
        if is_one_line && left + line.width_mm <= width_mm {
            let mut both = title;
            both.put(line, Point::new(left, TITLE_SIZE - LINE_SIZE));
            return both;
        }
        title.over(Figure::paragraph(scale, Face::Plain, LINE_SIZE, width_mm), 1.0)
    }
}

impl TriadLine {
    fn over_chord(which: WhichTriad, triad: &TriadAnswer) -> TriadLine {
        let notes = triad.name.notes().into_iter().zip(triad.degrees).map(in_brackets);
        TriadLine { which, name: triad.name.to_string(), notes: spaced(notes) }
    }

    fn figure(&self, answers: Answers) -> Figure {
        let name = Figure::line(&self.name, Face::Bold, LINE_SIZE);
        let mut figure = Figure::space(0.0, name.height_mm);
        figure.put(triad_figure(self.which, 4.0), Point::new(0.0, name.height_mm / 2.0 - 2.0));
        let notes = match answers {
            Answers::Shown => Figure::line(&self.notes, Face::Plain, LINE_SIZE),
            Answers::Blank => Figure::to_fill_in(FILL_IN_MM, LINE_SIZE),
        };
        figure.beside(name, 2.0).beside(notes, 5.0)
    }
}

/// `C♯ (♯11)`
fn in_brackets((note, degree): (NoteName, Degree)) -> String {
    format!("{note} ({degree})")
}

fn left_out(notes: &[LeftOut]) -> Option<String> {
    let told = spaced(notes.iter().map(|out| format!("{} ({})", out.note, out.degree)));
    (!told.is_empty()).then(|| format!("leaves out {told}"))
}

pub(super) fn tuning_lines<const N: usize>(
    tuning: &TuningAnswer,
    triads: [SpelledTriad; N],
) -> Vec<String> {
    let behind = sounds_behind_capo(&tuning.tuning, triads);
    [Some(tuning_line(&tuning.tuning)), behind].into_iter().flatten().collect()
}
