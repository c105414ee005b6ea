//! The list of tunings: what is searched for, what is offered, and what the marked one would mean.

use fretloom_fretboard::{Capo, Neck, StringNumber, Tuning};

use crate::answer::{
    CompareAnswer, Compared, PairAnswer, PairPlace, SetAnswer, Survival, TuningAnswer,
    places_of_pair,
};
use crate::library::search_tunings;
use crate::tui::key::Key;
use crate::tui::shared::Shared;
use crate::tui::widget::TextField;
use crate::words::spaced;

/// The list while it is open.
pub(super) struct TuningList {
    /// What is searched for.
    pub(super) field: TextField,
    /// What fits: first the tuning that is typed, if the search reads as one.
    pub(super) offers: Vec<Tuning>,
    /// Which of them is marked.
    pub(super) at: usize,
    pub(super) preview: Option<Preview>,
}

/// What the marked tuning would mean.
pub(super) struct Preview {
    /// Its strings, its measures, and what becomes of the shapes.
    pub(super) lines: [String; 3],
    pub(super) neck: Neck,
    pub(super) places: Vec<PairPlace>,
}

impl TuningList {
    /// The list on the tuning in use; what a tuning means for a pair is told of the marked one.
    pub(super) fn open(pair: Option<&PairAnswer>, shared: &Shared) -> TuningList {
        let (field, offers) = (TextField::holding(""), Vec::new());
        let mut list = TuningList { field, offers, at: 0, preview: None };
        list.search(pair, shared);
        list
    }

    /// The tuning that is marked.
    pub(super) fn marked(&self) -> Option<&Tuning> {
        self.offers.get(self.at)
    }

    /// Types in the search.
    pub(super) fn press(&mut self, key: Key, pair: Option<&PairAnswer>, shared: &Shared) {
        let before = self.field.text();
        self.field.press(key);
        if self.field.text() != before {
            self.search(pair, shared);
        }
    }

    /// Takes a pasted text, as if it had been typed.
    pub(super) fn insert(&mut self, text: &str, pair: Option<&PairAnswer>, shared: &Shared) {
        self.field.insert(text);
        self.search(pair, shared);
    }

    /// Empties the search.
    pub(super) fn empty(&mut self, pair: Option<&PairAnswer>, shared: &Shared) {
        self.field = TextField::holding("");
        self.search(pair, shared);
    }

    /// Offers what fits the search: on top what is typed, or without a search the tuning in use.
    fn search(&mut self, pair: Option<&PairAnswer>, shared: &Shared) {
        let text = self.field.text();
        self.offers = search_tunings(shared.tunings(), &text);
        let here = shared.neck().tuning().id();
        let in_use = self.offers.iter().position(|tuning| tuning.id() == here);
        let at = in_use.filter(|_| text.trim().is_empty()).unwrap_or_default();
        self.mark(at, pair, shared);
    }

    /// Marks a line, the last one at the most, and looks at its tuning.
    pub(super) fn mark(&mut self, at: usize, pair: Option<&PairAnswer>, shared: &Shared) {
        self.at = at.min(self.offers.len().saturating_sub(1));
        self.preview = self.marked().map(|tuning| Preview::of(tuning, pair, shared));
    }
}

impl Preview {
    fn of(tuning: &Tuning, pair: Option<&PairAnswer>, shared: &Shared) -> Preview {
        let capoed = tuning.clone().with_capo(shared.neck().tuning().capo());
        let neck = Neck::new(capoed.unwrap_or_else(|_| tuning.clone()));
        let places = pair.map(|pair| places_of_pair(&neck, pair)).unwrap_or_default();
        let lines = [strings(tuning), measures(tuning), survival(tuning, shared)];
        Preview { lines, neck, places }
    }
}

/// Its strings with what sounds beside them, and where short ones begin.
fn strings(tuning: &Tuning) -> String {
    let string = |(number, open): (StringNumber, fretloom_fretboard::OpenString)| {
        let beside = tuning.doublings(number).iter().map(|note| format!("+{note}"));
        let course: String = std::iter::once(open.note().to_string()).chain(beside).collect();
        match open.starts_at().number() {
            0 => course,
            fret => format!("{course} from fret {fret}"),
        }
    };
    let inferred = if tuning.octaves_inferred() { " · octaves inferred" } else { "" };
    format!("{}{inferred}", spaced(tuning.strings().map(string)))
}

/// The steps from string to string, the frets, the scale length.
fn measures(tuning: &Tuning) -> String {
    let open: Vec<_> = tuning.strings().map(|(_, open)| open.note().pitch()).collect();
    let steps = open.windows(2).filter_map(|two| match two {
        [one, next] => Some(one.semitones_up_to(*next)),
        _ => None,
    });
    let (frets, scale) = (tuning.last_fret(), tuning.scale_mm());
    format!("steps {} · {frets} frets · {scale} mm", spaced(steps))
}

/// What becomes of the player's shapes, in a line.
fn survival(tuning: &Tuning, shared: &Shared) -> String {
    let here = shared.neck().tuning();
    if here.id() == tuning.id() && here.to_string() == tuning.to_string() {
        return "the tuning in use".to_owned();
    }
    // As they are strung: a capo moves all shapes alike.
    let strung = |tuning: &Tuning| {
        let bare = tuning.clone().with_capo(Capo::NONE);
        TuningAnswer::of(&shared.library.tunings, bare.unwrap_or_else(|_| tuning.clone()))
    };
    survival_in_words(&CompareAnswer::new(strung(here), strung(tuning), None))
}

/// `shapes stay on 5-4-3 4-3-2 3-2-1; 6-5-4 changes`
fn survival_in_words(answer: &CompareAnswer) -> String {
    let sets = |keep: &dyn Fn(&&SetAnswer) -> bool| {
        spaced(answer.sets.iter().filter(|set| keep(set)).map(|set| set.b))
    };
    let (stay, change) = (
        sets(&|set| set.shapes == Survival::Survive),
        sets(&|set| set.shapes != Survival::Survive),
    );
    let new = answer.alone.iter().filter(|set| set.tuning == Compared::B);
    let new = spaced(new.map(|set| set.strings));
    let told = [("shapes stay on", stay), ("change on", change), ("new are", new)];
    let told = told.iter().filter(|(_, sets)| !sets.is_empty());
    told.map(|(what, sets)| format!("{what} {sets}")).collect::<Vec<_>>().join(" · ")
}
