//! The program. Until the real screens are there, one that shows the last key.

use std::io::{self, Write};
use std::process::ExitCode;

use fretloom::tui::event::Event;
use fretloom::tui::runtime::{self, App, Effect};
use ratatui::Frame;
use ratatui::text::Text;

fn main() -> ExitCode {
    match runtime::run(&mut LastKey::default()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            // With standard error gone too, the status is all that is left to say.
            let _ = writeln!(io::stderr(), "fretloom: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Shows what arrives.
#[derive(Default)]
struct LastKey {
    last: String,
}

impl App for LastKey {
    fn update(&mut self, event: Event) -> Vec<Effect> {
        match event {
            Event::Key(key) => {
                self.last = format!("key {key}");
                match self.last.as_str() {
                    "key q" => return vec![Effect::Quit],
                    "key ctrl-z" => return vec![Effect::Suspend],
                    _ => {}
                }
            }
            Event::Paste(text) => self.last = format!("pasted {text}"),
            Event::Resize { columns, rows } => self.last = format!("resized to {columns}x{rows}"),
            _ => {}
        }
        Vec::new()
    }

    fn view(&self, frame: &mut Frame<'_>) {
        let size = frame.area();
        let text = format!("fretloom {}x{}\n{}", size.width, size.height, self.last);
        frame.render_widget(Text::raw(text), size);
    }
}
