//! The word by which a sound server knows its user.

use std::fs::File;
use std::io::Read;

/// That word; zeros where there is none. A server of the same user lets one in without it, but not with a
/// word of another length.
pub(super) fn cookie() -> Vec<u8> {
    let mut cookie = Vec::new();
    let file = pulseaudio::cookie_path_from_env().filter(|path| path.is_file());
    if let Some(file) = file.and_then(|path| File::open(path).ok()) {
        let _ = file.take(LENGTH as u64).read_to_end(&mut cookie);
    }
    cookie.resize(LENGTH, 0);
    cookie
}

/// Its length in bytes.
const LENGTH: usize = 256;
