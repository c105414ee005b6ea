//! The programs that are known to play samples from their standard input.

use std::time::Duration;

use super::super::super::samples::Frames;

/// A program, and how it is told what comes: one channel of 48,000 samples a second of 16 bits, the lower
/// byte first.
#[derive(Debug)]
pub(in super::super) struct Known {
    pub(super) name: &'static str,
    pub(super) arguments: &'static [&'static str],
    /// Does it end before it has played the last of what it holds?
    cuts_its_end: CutsItsEnd,
}

#[derive(Debug)]
enum CutsItsEnd {
    Yes,
    No,
}

impl Known {
    /// In the order in which they are tried. The two that need a server come first: where one runs, the
    /// third may not get the sound card.
    pub(super) const ALL: &'static [Known] = &[
        Known {
            name: "pacat",
            arguments: &[
                "--playback",
                "--raw",
                "--rate=48000",
                "--channels=1",
                "--format=s16le",
                "--latency-msec=50",
                "--client-name=fretloom",
            ],
            cuts_its_end: CutsItsEnd::No,
        },
        // Newer ones take what has no head only where they are told; older ones do not know the word.
        Known {
            name: "pw-cat",
            arguments: &[
                "--playback",
                "--raw",
                "--rate=48000",
                "--channels=1",
                "--format=s16",
                "--latency=50ms",
                "-",
            ],
            cuts_its_end: CutsItsEnd::Yes,
        },
        Known {
            name: "pw-cat",
            arguments: &[
                "--playback",
                "--rate=48000",
                "--channels=1",
                "--format=s16",
                "--latency=50ms",
                "-",
            ],
            cuts_its_end: CutsItsEnd::Yes,
        },
        Known {
            name: "aplay",
            arguments: &[
                "--quiet",
                "--file-type=raw",
                "--rate=48000",
                "--channels=1",
                "--format=S16_LE",
                "--buffer-time=50000",
                "-",
            ],
            cuts_its_end: CutsItsEnd::No,
        },
    ];

    /// What each of them is asked to keep before it is heard.
    pub(super) const LATENCY: Duration = Duration::from_millis(50);

    /// So many bytes of silence let it play all that comes before them.
    pub(super) fn silence_at_end(&self) -> usize {
        match self.cuts_its_end {
            CutsItsEnd::Yes => Frames::in_time(Duration::from_millis(150)).0 as usize * 2,
            CutsItsEnd::No => 0,
        }
    }
}
