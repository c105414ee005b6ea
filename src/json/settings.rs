//! `settings`

use serde::Serialize;

use super::AsJson;
use crate::answer::{SettingAnswer, SettingsAnswer};
use crate::sound::Ways;

#[derive(Serialize)]
struct Settings<'a> {
    file: Option<String>,
    exists: bool,
    settings: Vec<Setting<'a>>,
    sound: Sound<'a>,
}

#[derive(Serialize)]
struct Sound<'a> {
    in_use: Option<InUse>,
    others: Vec<Other<'a>>,
}

#[derive(Serialize)]
struct InUse {
    kind: &'static str,
    name: String,
}

#[derive(Serialize)]
struct Other<'a> {
    what: &'a str,
    why: &'a str,
}

impl<'a> Sound<'a> {
    fn new(ways: &'a Ways) -> Sound<'a> {
        let in_use = ways.in_use.as_ref();
        let others = ways.untaken.iter();
        Sound {
            in_use: in_use.map(|way| InUse { kind: way.word(), name: way.name() }),
            others: others.map(|other| Other { what: &other.what, why: &other.why }).collect(),
        }
    }
}

#[derive(Serialize)]
struct Setting<'a> {
    name: &'a str,
    value: &'a str,
}

impl<'a> Setting<'a> {
    fn new(setting: &'a SettingAnswer) -> Setting<'a> {
        Setting { name: setting.name, value: &setting.value }
    }
}

impl AsJson for SettingsAnswer {
    fn as_json(&self) -> impl Serialize {
        Settings {
            file: self.file.as_ref().map(|file| file.display().to_string()),
            exists: self.exists,
            settings: self.settings.iter().map(Setting::new).collect(),
            sound: Sound::new(&self.sound),
        }
    }
}
