//! What a command comes to: text, and perhaps something to be heard.

use std::sync::Arc;

use crate::sound::{Mix, Performance, Samples};

/// What a command has to say.
pub(super) struct Answered {
    /// For standard output.
    pub(super) text: String,
    /// What is to be heard, where that was asked for.
    pub(super) sound: Option<Box<dyn Samples>>,
}

impl Answered {
    /// Text, with a performance where one is to be heard.
    pub(super) fn heard(text: String, performance: Option<&Performance>, mix: Mix) -> Answered {
        Answered { text, sound: performance.map(|heard| heard.samples(&Arc::new(mix))) }
    }
}

impl From<String> for Answered {
    fn from(text: String) -> Answered {
        Answered { text, sound: None }
    }
}
