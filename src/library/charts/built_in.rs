//! The files of `assets/charts/`, each under its id: tunes of our own, to try things with.

/// Embeds `assets/charts/ID.toml` for each id.
macro_rules! files_of {
    ($($id:literal),* $(,)?) => {
        &[$(($id, include_str!(concat!("../../../assets/charts/", $id, ".toml")))),*]
    };
}

/// Every id with the text of its file, in the order of lists; a test compares them with the folder.
pub(super) const BUILT_IN: &[(&str, &str)] =
    files_of!["the-ferry-clerks-holiday", "salt-on-the-windowsill", "nine-doors-and-a-stair",];
