//! `settings`

use serde::Serialize;

use super::AsJson;
use crate::answer::{SettingAnswer, SettingsAnswer};

#[derive(Serialize)]
struct Settings<'a> {
    file: Option<String>,
    exists: bool,
    settings: Vec<Setting<'a>>,
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
        }
    }
}
