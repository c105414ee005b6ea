//! The table.

use super::changes::ChangesCommand;
use super::common::{ListCommand, ProgramCommand, TypingCommand};
use super::explore::ExploreCommand;
use super::keepers::KeepersCommand;
use super::line::LineCommand;
use super::listen::ListenCommand;
use super::practice::PracticeCommand;
use super::row::{Command, CommandRow};
use super::section::Section;
use super::sound::SoundCommand;

/// Every command. The order is that of the footer and of the help page.
#[rustfmt::skip]
pub const COMMANDS: &[CommandRow] = &[
    everywhere(ProgramCommand::Help, "help", "help", "every key"),
    with_explorer(ProgramCommand::Palette, "commands", "commands", "every command, to be found by its name"),
    explore(ExploreCommand::EditChord, "edit-chord", "chord", "type another chord"),
    explore(ExploreCommand::NextPair, "next-pair", "pair", "the next pair of the scale"),
    explore(ExploreCommand::PreviousPair, "previous-pair", "", "the pair before"),
    explore(ExploreCommand::MovePair, "move-pair", "", "the same pair moved within a symmetric scale"),
    explore(ExploreCommand::Details, "details", "", "more about this pair: notes, rubs, what else it serves"),
    explore(ExploreCommand::NextScale, "next-scale", "scale", "the next scale that fits the chord"),
    explore(ExploreCommand::PreviousScale, "previous-scale", "", "the scale before"),
    explore(ExploreCommand::ChooseScale, "choose-scale", "", "every scale that fits, with its reason"),
    explore(ExploreCommand::Climb, "climb", "climb", "up the ladder, over all strings; at its end back down"),
    explore(ExploreCommand::Descend, "descend", "", "the other way along the ladder"),
    explore(ExploreCommand::FirstTriad, "first-triad", "", "the next inversion of the first triad"),
    explore(ExploreCommand::SecondTriad, "second-triad", "", "the next inversion of the second triad"),
    explore(ExploreCommand::MakeLine, "make-line", "line", "a line of this pair, or back to the one made of it"),
    explore(ExploreCommand::ToChanges, "to-changes", "tune", "the changes of a tune, as they were left"),
    explore(ExploreCommand::PlayShape, "play-shape", "hear", "the shape in hand: together; once more: in turn"),
    explore(ExploreCommand::PlayPair, "play-pair", "", "the shape in hand and the next one, of both triads"),
    explore(ExploreCommand::NextStrings, "next-strings", "strings", "the next set of three strings"),
    explore(ExploreCommand::PreviousStrings, "previous-strings", "", "the set before"),
    explore(ExploreCommand::NextView, "next-view", "view", "the whole neck, a position, strings, across, two a string"),
    explore(ExploreCommand::PreviousView, "previous-view", "", "the view before"),
    explore(ExploreCommand::NextChoice, "next-choice", "", "in a view: the next position, strings, chain or start"),
    explore(ExploreCommand::PreviousChoice, "previous-choice", "", "in a view: the one before"),
    explore(ExploreCommand::LockStrings, "lock-strings", "lock", "stay on these strings, the others quiet, or not"),
    explore(ExploreCommand::OtherFingers, "other-fingers", "fingers", "other fingers for the shape in hand"),
    explore(ExploreCommand::OtherPlace, "other-place", "elsewhere", "another place of the notes in hand"),
    everywhere(ProgramCommand::Keep, "keep", "", "keep what is shown: a pair, its ladder, a line, a tune"),
    explore(ExploreCommand::KeepShape, "keep-shape", "", "keep the shape in hand, with its fingers"),
    explore(ExploreCommand::Labels, "labels", "labels", "notes, degrees, triad members, fingers, or the order"),
    explore(ExploreCommand::EditWish, "wish", "wish", "degrees to have, and with a minus not to have"),
    explore(ExploreCommand::EditWhere, "where", "where", "the position, frets or strings to stay in: V 1-12 3-2-1"),
    explore(ExploreCommand::ChooseTuning, "choose-tuning", "tuning", "choose another tuning, or type one"),
    explore(ExploreCommand::CapoUp, "capo-up", "capo", "the capo a fret up, partial or not"),
    explore(ExploreCommand::CapoDown, "capo-down", "", "the capo a fret down, at last off"),
    explore(ExploreCommand::LeftHanded, "left-handed", "", "the neck for the left hand, or for the right"),
    explore(ExploreCommand::UpsideDown, "upside-down", "", "string 1 at the bottom, or on top"),
    explore(ExploreCommand::FretWidths, "fret-widths", "", "frets of even width, or true to scale"),
    explore(ExploreCommand::LeftOut, "left-out", "", "the notes that the pair leaves out, faint, or not at all"),
    explore(ExploreCommand::Families, "families", "", "tertian triads alone, or sus and flat-five too"),
    explore(ExploreCommand::Spelling, "spelling", "", "triads as triads, or by the letters of the scale"),
    explore(ExploreCommand::ScrollRight, "scroll-right", "", "the neck a fret up"),
    explore(ExploreCommand::ScrollLeft, "scroll-left", "", "the neck a fret down"),
    explore(ExploreCommand::ToNut, "to-nut", "", "the neck from the nut"),
    explore(ExploreCommand::ToEnd, "to-end", "", "the neck to its last fret"),
    with_explorer(ProgramCommand::Undo, "undo", "", "take the last change back"),
    with_explorer(ProgramCommand::Redo, "redo", "", "make it again"),
    with_explorer(ProgramCommand::Back, "back", "", "back to the chord before, with its scale and pair"),
    with_explorer(ProgramCommand::Forward, "forward", "", "forward to the chord after"),
    explore(ExploreCommand::CopyShape, "copy-shape", "copy", "copy the shape in hand as tablature"),
    explore(ExploreCommand::CopyNeck, "copy-neck", "", "copy the neck as text"),
    with_explorer(ProgramCommand::FreeMouse, "mouse", "", "the mouse selects text, or chooses what it points at"),
    explore(ExploreCommand::ToHand, "to-hand", "", "the neck to the position of the hand"),
    line(LineCommand::ToExplore, "to-explorer", "back", "back to the chord and its pairs"),
    line(LineCommand::ToChanges, "to-changes", "", "the changes of a tune, as they were left"),
    line(LineCommand::Play, "play", "play", "play the line, or stop"),
    line(LineCommand::EditChords, "edit-chords", "chords", "type the chords: a symbol, or bars: Dm7 | G7 | Cmaj7"),
    line(LineCommand::NextNote, "next-note", "note", "to the next note"),
    line(LineCommand::PreviousNote, "previous-note", "", "to the note before"),
    line(LineCommand::NextBar, "next-bar", "", "to the first note of the next bar"),
    line(LineCommand::PreviousBar, "previous-bar", "", "to the first note of the bar, or of the one before"),
    line(LineCommand::FirstNote, "first-note", "", "to the first note"),
    line(LineCommand::LastNote, "last-note", "", "to the last note"),
    line(LineCommand::PairNoteUp, "pair-note-up", "move it", "this note to the next note of the pair above"),
    line(LineCommand::PairNoteDown, "pair-note-down", "", "this note to the next note of the pair below"),
    line(LineCommand::NextPhrase, "next-phrase", "phrase", "to the first note of the next phrase"),
    line(LineCommand::PreviousPhrase, "previous-phrase", "", "to the first note of the phrase, or of the one before"),
    line(LineCommand::CutHere, "cut-here", "cut", "from this note a phrase of its own; again: with the line"),
    line(LineCommand::JoinBefore, "join-before", "", "joins this phrase with the one before"),
    line(LineCommand::Answer, "answer", "answer", "this phrase answers the one before, or one above it"),
    line(LineCommand::Later, "later", "", "this phrase begins an eighth later"),
    line(LineCommand::Earlier, "earlier", "", "this phrase begins an eighth earlier"),
    line(LineCommand::Wide, "wide", "", "this phrase with its middle notes an octave up, or not"),
    line(LineCommand::EditNotes, "edit-notes", "", "type the notes of this phrase: F3+A3:4 -:4 B3:8"),
    line(LineCommand::NextPair, "next-pair", "pair", "the next pair of the chord at the cursor"),
    line(LineCommand::PreviousPair, "previous-pair", "", "the pair before"),
    line(LineCommand::NextPattern, "next-pattern", "pattern", "the next pattern"),
    line(LineCommand::PreviousPattern, "previous-pattern", "", "the pattern before"),
    line(LineCommand::EditPattern, "edit-pattern", "", "type a pattern: 1232 321 a"),
    line(LineCommand::EditTargets, "edit-targets", "aim", "type where to land, one or several: 3@5.1 b7@6.3"),
    line(LineCommand::Style, "style", "music", "music that breathes and lands, or an unbroken exercise"),
    line(LineCommand::NextStrings, "next-strings", "strings", "the next set of three strings, at last all of them"),
    line(LineCommand::PreviousStrings, "previous-strings", "", "the set before"),
    line(LineCommand::NextView, "next-view", "", "neck, a position, across, two a string, as the line"),
    line(LineCommand::PreviousView, "previous-view", "", "the view before"),
    line(LineCommand::NextChoice, "next-choice", "", "in a view: the next position, chain or start"),
    line(LineCommand::PreviousChoice, "previous-choice", "", "in a view: the one before"),
    line(LineCommand::EditWhere, "where", "", "type position, frets or strings to stay in: V 1-12 4-3-2"),
    line(LineCommand::NextTravel, "next-travel", "travel", "how groups follow: linked, the ladder, staying, an arc"),
    line(LineCommand::PreviousTravel, "previous-travel", "", "the travel before"),
    line(LineCommand::NextStart, "next-start", "", "where it begins: at the hand, or on an inversion"),
    line(LineCommand::PreviousStart, "previous-start", "", "the start before"),
    line(LineCommand::NextRhythm, "next-rhythm", "rhythm", "the next rhythm"),
    line(LineCommand::PreviousRhythm, "previous-rhythm", "", "the rhythm before"),
    line(LineCommand::EditRhythm, "edit-rhythm", "", "type a rhythm: 4. 8 -8 8"),
    line(LineCommand::AtChange, "at-change", "", "an exercise at a new chord: on, again, or cut short"),
    line(LineCommand::StepUp, "step-up", "", "this note a scale step up"),
    line(LineCommand::StepDown, "step-down", "", "this note a scale step down"),
    line(LineCommand::HalfStepUp, "half-step-up", "", "this note a half step up"),
    line(LineCommand::HalfStepDown, "half-step-down", "", "this note a half step down"),
    line(LineCommand::OtherString, "other-string", "", "this note on another string"),
    line(LineCommand::Pin, "pin", "", "this note stays on its string, or is free again"),
    line(LineCommand::SoundOn, "sound-on", "", "this note sounds on in place of the next one, tied"),
    line(LineCommand::Accent, "accent", "", "this note accented, or not"),
    line(LineCommand::Slur, "slur", "", "this note slurred to, or picked"),
    line(LineCommand::Silence, "silence", "", "a rest in place of this note"),
    line(LineCommand::OtherWay, "other-way", "fingers", "the next way to finger the line, with its reason"),
    line(LineCommand::WayBefore, "way-before", "", "the way before"),
    line(LineCommand::NextKey, "next-key", "key", "the next of the twelve keys, up a fourth"),
    line(LineCommand::PreviousKey, "previous-key", "", "the key before"),
    line(LineCommand::MoreBars, "more-bars", "", "a bar more"),
    line(LineCommand::FewerBars, "fewer-bars", "", "a bar less"),
    line(LineCommand::NextMeter, "next-meter", "", "the next meter"),
    line(LineCommand::PreviousMeter, "previous-meter", "", "the meter before"),
    line(LineCommand::Faster, "faster", "", "four beats a minute faster"),
    line(LineCommand::Slower, "slower", "", "four beats a minute slower"),
    line(LineCommand::Labels, "labels", "", "on the neck: order, notes, degrees, members, fingers"),
    line(LineCommand::WriteFile, "write-file", "", "write the line to a file: .mid, .musicxml, .txt"),
    line(LineCommand::CopyTab, "copy-tab", "copy", "copy the tablature"),
    line(LineCommand::CopyPhrases, "copy-phrases", "", "copy the phrases as a file for --phrases"),
    changes(ChangesCommand::ToExplore, "to-explorer", "back", "back to the chord and its pairs"),
    changes(ChangesCommand::Play, "play", "play", "play the tune, its pairs as stabs, or stop"),
    changes(ChangesCommand::EditChords, "edit-chords", "chords", "type all bars: Dm7 | G7 | Cmaj7 | %"),
    changes(ChangesCommand::EditBar, "edit-bar", "bar", "type this bar: chords, and marks before and after them"),
    changes(ChangesCommand::NextChord, "next-chord", "chord", "to the next chord or bar; after the last the first"),
    changes(ChangesCommand::PreviousChord, "previous-chord", "", "to the chord or bar before"),
    changes(ChangesCommand::NextRow, "next-row", "", "to the next row of bars"),
    changes(ChangesCommand::PreviousRow, "previous-row", "", "to the row of bars before"),
    changes(ChangesCommand::NextSection, "next-section", "", "to the next section"),
    changes(ChangesCommand::PreviousSection, "previous-section", "", "to the beginning of the section, or of the one before"),
    changes(ChangesCommand::FirstBar, "first-bar", "", "to the first bar"),
    changes(ChangesCommand::LastBar, "last-bar", "", "to the last bar"),
    changes(ChangesCommand::NextPair, "next-pair", "pair", "the next pair for this chord, settled from now on"),
    changes(ChangesCommand::PreviousPair, "previous-pair", "", "the pair before"),
    changes(ChangesCommand::NextScale, "next-scale", "scale", "the next scale for this chord, settled from now on"),
    changes(ChangesCommand::PreviousScale, "previous-scale", "", "the scale before"),
    changes(ChangesCommand::Pin, "pin", "", "settle scale and pair of this chord as they are planned"),
    changes(ChangesCommand::Release, "release", "free", "nothing settled for this chord: the plan decides"),
    changes(ChangesCommand::NextShape, "next-shape", "shape", "the next shape of the pair there, settled from now on"),
    changes(ChangesCommand::PreviousShape, "previous-shape", "", "the shape before"),
    changes(ChangesCommand::HoldShape, "hold-shape", "", "this shape stays in hand, or the plan chooses it"),
    changes(ChangesCommand::ExploreChord, "explore-chord", "explore", "this chord in the explorer, with its scale and pair"),
    changes(ChangesCommand::MakeLine, "make-line", "line", "a line of this pair over this chord"),
    changes(ChangesCommand::LineOn, "line-on", "", "a line from here to the end of the section"),
    changes(ChangesCommand::LineThrough, "line-through", "", "a line over the whole tune"),
    changes(ChangesCommand::OtherPlan, "other-plan", "plan", "the next plan for the tune that really differs"),
    changes(ChangesCommand::PlanBefore, "plan-before", "", "the plan before"),
    changes(ChangesCommand::NextStrings, "next-strings", "strings", "the hand stays on the next strings, at last on any"),
    changes(ChangesCommand::PreviousStrings, "previous-strings", "", "the strings before"),
    changes(ChangesCommand::NextView, "next-view", "", "the hand stays in a position, or goes anywhere"),
    changes(ChangesCommand::NextChoice, "next-choice", "", "the next position"),
    changes(ChangesCommand::PreviousChoice, "previous-choice", "", "the position before"),
    changes(ChangesCommand::EditWhere, "where", "where", "type position, frets or strings to stay in: V 5-10 4-3-2"),
    changes(ChangesCommand::EditWishes, "wish", "wish", "type what is wished: thirds, 6 pairs, contrast, never B@5"),
    changes(ChangesCommand::Open, "open", "open", "open a tune: one of the list, or a file by its name"),
    changes(ChangesCommand::Save, "save", "save", "save the tune in its file, or in a new one"),
    changes(ChangesCommand::SaveAs, "save-as", "", "save the tune under another name"),
    changes(ChangesCommand::New, "new", "new", "another tune, of which nothing stands there yet"),
    changes(ChangesCommand::EditTitle, "edit-title", "", "type what the tune is called"),
    changes(ChangesCommand::EditKey, "edit-key", "", "type its key: C, Eb, F#m; nothing: as it is read"),
    changes(ChangesCommand::CopyChart, "copy-chart", "copy", "copy the tune as a file has it"),
    changes(ChangesCommand::WriteComping, "write-comping", "", "write its pairs as stabs to a file: .mid, .musicxml, .txt"),
    changes(ChangesCommand::MoreBars, "more-bars", "", "a bar more after this one, like it"),
    changes(ChangesCommand::FewerBars, "fewer-bars", "", "this bar taken away"),
    changes(ChangesCommand::Faster, "faster", "", "four beats a minute faster"),
    changes(ChangesCommand::Slower, "slower", "", "four beats a minute slower"),
    changes(ChangesCommand::Labels, "labels", "", "on the neck: notes, degrees, members, fingers"),
    keepers(KeepersCommand::ToScreenBefore, "to-screen-before", "back", "back to the screen before"),
    keepers(KeepersCommand::NextKeeper, "next-keeper", "", "the next keeper"),
    keepers(KeepersCommand::PreviousKeeper, "previous-keeper", "", "the keeper before"),
    keepers(KeepersCommand::PageDown, "page-down", "", "some keepers down"),
    keepers(KeepersCommand::PageUp, "page-up", "", "some keepers up"),
    keepers(KeepersCommand::FirstKeeper, "first-keeper", "", "the first keeper"),
    keepers(KeepersCommand::LastKeeper, "last-keeper", "", "the last keeper"),
    keepers(KeepersCommand::Listen, "listen", "listen", "name by ear what is practised: the questions of today"),
    keepers(KeepersCommand::Open, "open", "open", "open it as it was when it was kept"),
    keepers(KeepersCommand::Practise, "practise", "practise", "practise the list of today, turn by turn"),
    keepers(KeepersCommand::PractiseThis, "practise-this", "this one", "practise the keeper that is marked, whether it is due or not"),
    keepers(KeepersCommand::Find, "find", "find", "type words that stand in it: chord, pair, notes, tags"),
    keepers(KeepersCommand::FindKind, "find-kind", "serves", "type a kind of chord: everything that serves it, as m7b5"),
    keepers(KeepersCommand::NextTag, "next-tag", "tag", "only what has the next tag, at last everything"),
    keepers(KeepersCommand::NextOrder, "next-order", "sort", "sort: your own order, due, newest, name, chord"),
    keepers(KeepersCommand::PreviousOrder, "previous-order", "", "the order before"),
    keepers(KeepersCommand::ShowAll, "show-all", "", "everything that is kept, in your own order"),
    keepers(KeepersCommand::EditNotes, "edit-notes", "notes", "type what you want to remember of it"),
    keepers(KeepersCommand::EditName, "edit-name", "", "type what it is called"),
    keepers(KeepersCommand::EditTags, "edit-tags", "", "type its tags: ballad, slow"),
    keepers(KeepersCommand::EditHow, "edit-practice", "", "type how it is practised: keys, string sets, limits"),
    keepers(KeepersCommand::Delete, "delete", "delete", "take it out of the list; undo brings it back"),
    keepers(KeepersCommand::Faster, "faster", "", "practice of it begins two beats a minute faster"),
    keepers(KeepersCommand::Slower, "slower", "", "practice of it begins two beats a minute slower"),
    keepers(KeepersCommand::MoveDown, "move-down", "", "put it a line down in your own order"),
    keepers(KeepersCommand::MoveUp, "move-up", "", "put it a line up in your own order"),
    listen(ListenCommand::GoOn, "go-on", "hear", "hear what is asked; once it is answered, what is asked next"),
    listen(ListenCommand::Answer(0), "answer-1", "answer", "answer with the first choice"),
    listen(ListenCommand::Answer(1), "answer-2", "", "answer with the second choice"),
    listen(ListenCommand::Answer(2), "answer-3", "", "answer with the third choice"),
    listen(ListenCommand::Answer(3), "answer-4", "", "answer with the fourth choice"),
    listen(ListenCommand::Answer(4), "answer-5", "", "answer with the fifth choice"),
    listen(ListenCommand::Answer(5), "answer-6", "", "answer with the sixth choice"),
    listen(ListenCommand::Answer(6), "answer-7", "", "answer with the seventh choice"),
    listen(ListenCommand::HearAgain, "hear-again", "again", "hear what sounded once more"),
    listen(ListenCommand::HearMine, "hear-mine", "mine", "hear what you named, where that was another pair"),
    listen(ListenCommand::ToList, "to-list", "list", "back to the list of keepers"),
    practice(PracticeCommand::GoOn, "go-on", "got it, go on", "begin; while it goes on: got it, go on"),
    practice(PracticeCommand::NotThisTime, "not-this-time", "not yet", "not this time: once more, slower"),
    practice(PracticeCommand::NextTurn, "next-turn", "next", "the next turn of the list"),
    practice(PracticeCommand::PreviousTurn, "previous-turn", "", "the turn before"),
    practice(PracticeCommand::Stop, "stop", "stop", "break off: nothing of this try is recorded"),
    practice(PracticeCommand::Click, "click", "click", "the click on 2 and 4, on every beat, or not at all"),
    practice(PracticeCommand::Leave, "leave", "back", "back to the list of what is kept"),
    typing(TypingCommand::Suggestion, "suggestion", "suggestion", "what is offered: a chord or a pattern"),
    typing(TypingCommand::Accept, "accept", "take it", "take what is typed"),
    typing(TypingCommand::Cancel, "cancel", "leave it", "keep what there was"),
    list(ListCommand::Down, "down", "down", "one line down"),
    list(ListCommand::Up, "up", "up", "one line up"),
    list(ListCommand::PageDown, "page-down", "", "a page down"),
    list(ListCommand::PageUp, "page-up", "", "a page up"),
    list(ListCommand::Accept, "accept", "choose", "choose what is marked"),
    list(ListCommand::Cancel, "cancel", "back", "close the list"),
    picking(ListCommand::Down, "down", "down", "one line down"),
    picking(ListCommand::Up, "up", "up", "one line up"),
    picking(ListCommand::PageDown, "page-down", "", "a page down"),
    picking(ListCommand::PageUp, "page-up", "", "a page up"),
    picking(ListCommand::Accept, "accept", "take it", "take what is marked"),
    picking(ListCommand::Cancel, "cancel", "back", "empty the search, then close the list"),
    sound(SoundCommand::Play, "play", "play", "play what the screen shows, or stop"),
    sound(SoundCommand::More, "more", "more", "louder, or the next choice"),
    sound(SoundCommand::Less, "less", "less", "softer, or the choice before"),
    sound(SoundCommand::Silence, "silence", "silence", "silence what is marked, or let it sound"),
    sound(SoundCommand::Down, "down", "down", "one line down"),
    sound(SoundCommand::Up, "up", "up", "one line up"),
    sound(SoundCommand::Close, "close", "back", "back to the screen"),
    everywhere(ProgramCommand::Sound, "sound", "sound", "how it sounds: levels, drone, click, swing, loop"),
    everywhere(ProgramCommand::SilenceLine, "silence-line", "", "silence line and shapes, or let them sound"),
    everywhere(ProgramCommand::SilenceDrone, "silence-drone", "", "silence the drone, or let it sound"),
    everywhere(ProgramCommand::SilenceClick, "silence-click", "", "silence the click, or let it sound"),
    everywhere(ProgramCommand::Quit, "quit", "quit", "leave fretloom"),
    everywhere(ProgramCommand::Keepers, "keepers", "keepers", "what is kept, and back again"),
    always(ProgramCommand::QuitAtOnce, "quit-at-once", "", "leave at once"),
    always(ProgramCommand::Suspend, "suspend", "", "back to the shell until fg"),
];

const fn always(
    command: ProgramCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Always, Command::Program(command), name, label, help)
}

const fn everywhere(
    command: ProgramCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Everywhere, Command::Program(command), name, label, help)
}

/// A command of every screen that players' files have in the section of the explorer.
const fn with_explorer(
    command: ProgramCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    CommandRow { listed: Section::Explore, ..everywhere(command, name, label, help) }
}

const fn explore(
    command: ExploreCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Explore, Command::Explore(command), name, label, help)
}

const fn line(
    command: LineCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Line, Command::Line(command), name, label, help)
}

const fn changes(
    command: ChangesCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Changes, Command::Changes(command), name, label, help)
}

const fn keepers(
    command: KeepersCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Keepers, Command::Keepers(command), name, label, help)
}

const fn listen(
    command: ListenCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Listen, Command::Listen(command), name, label, help)
}

const fn practice(
    command: PracticeCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Practice, Command::Practice(command), name, label, help)
}

const fn sound(
    command: SoundCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Sound, Command::Sound(command), name, label, help)
}

const fn typing(
    command: TypingCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Typing, Command::Typing(command), name, label, help)
}

const fn list(
    command: ListCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::List, Command::List(command), name, label, help)
}

const fn picking(
    command: ListCommand,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    row(Section::Picking, Command::List(command), name, label, help)
}

const fn row(
    section: Section,
    command: Command,
    name: &'static str,
    label: &'static str,
    help: &'static str,
) -> CommandRow {
    CommandRow { command, section, listed: section, name, label, help }
}
