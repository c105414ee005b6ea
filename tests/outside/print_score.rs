//! Prints what is read of a score as JSON, for `compare.py`: no command of the program says all of
//! it. Times are fractions of quarter notes, as text. `print_score FILE [PART] [unfold]`

use std::process::ExitCode;

use fretloom::score_file::{self, Choice, Repeats};
use fretloom_theory::{Chord, ChordSymbol, Note, Quarters, Score};
use serde_json::{Value, json};

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let file = arguments.next().unwrap_or_default();
    let part = arguments.next().filter(|part| !part.is_empty());
    let repeats = match arguments.next() {
        Some(_) => Repeats::Unfolded,
        None => Repeats::AsWritten,
    };
    let choice = Choice { track: None, part, repeats };
    let bytes = std::fs::read(&file).map_err(|error| error.to_string());
    let read = bytes
        .and_then(|bytes| score_file::read(&bytes, &choice).map_err(|error| error.to_string()));
    match read {
        Ok(read) => {
            print(&told(read.score()).to_string());
            ExitCode::SUCCESS
        }
        Err(error) => {
            print(&error);
            ExitCode::FAILURE
        }
    }
}

#[allow(clippy::print_stdout, reason = "it is there to print")]
fn print(text: &str) {
    println!("{text}");
}

fn told(score: &Score) -> Value {
    let notes = score.parts.iter().flat_map(|part| part.notes());
    let chords = score.chords.changes().iter();
    let keys = score.keys.changes().iter();
    json!({
        "title": score.title,
        "part": score.parts.first().and_then(|part| part.name()),
        "end": score.end().to_string(),
        "notes": notes.map(|note| note_told(score, note)).collect::<Vec<_>>(),
        "chords": chords.map(|(from, symbol)| chord_told(*from, symbol)).collect::<Vec<_>>(),
        "keys": keys.map(|(from, key)| json!([from.to_string(), key.sharps()])).collect::<Vec<_>>(),
        "tempi": score
            .tempi
            .changes()
            .map(|(from, tempo)| json!([from.to_string(), tempo.a_minute()]))
            .collect::<Vec<_>>(),
    })
}

fn note_told(score: &Score, note: &Note) -> Value {
    let at = score.bars.at(note.onset());
    json!({
        "onset": note.onset().to_string(),
        "duration": note.duration().to_string(),
        "name": format!("{:#}", note.pitch()),
        "ties": note.ties().iter().map(ToString::to_string).collect::<Vec<_>>(),
        "is_grace": note.grace().is_some(),
        "bar": at.as_ref().map(|at| at.bar.label.to_string()),
        "beat": at.as_ref().map(|at| at.beat),
        "after_beat": at.as_ref().map(|at| at.after_beat.to_string()),
        "meter": at.as_ref().map(|at| at.bar.meter.to_string()),
    })
}

fn chord_told(from: Quarters, symbol: &ChordSymbol) -> Value {
    let ascii = |name| format!("{name:#}");
    let tones = symbol.chord().map(|chord| chord.tones().map(ascii).collect::<Vec<_>>());
    json!({
        "from": from.to_string(),
        "symbol": format!("{symbol:#}"),
        "root": symbol.chord().map(Chord::root).map(ascii),
        "bass": symbol.chord().and_then(Chord::bass).map(ascii),
        "tones": tones,
    })
}
