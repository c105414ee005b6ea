//! A performance as a WAV file.

use std::io::{self, Write};
use std::sync::Arc;

use super::mix::Mix;
use super::performance::Performance;
use super::samples::{Frames, RATE, to_16_bits};

/// How large the part of a file before its samples is, and the first eight bytes of that, which the
/// size that a file tells of itself leaves out.
const HEAD: u32 = 44;
const UNTOLD: u32 = 8;
/// A frame is one sample of 16 bits.
const FRAME_BYTES: u32 = 2;

/// How many frames are made at a time.
const BLOCK: usize = 4_096;

/// Why there can be no WAV file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TooLongForWav;

impl Performance {
    /// The longest that a WAV file can hold: its sizes are numbers of 32 bits. More than twelve hours.
    pub const LONGEST_WAV: Frames = Frames(((u32::MAX - (HEAD - UNTOLD)) / FRAME_BYTES) as u64);

    /// How many frames its WAV file has.
    ///
    /// # Errors
    ///
    /// Where it is longer than a WAV file can be, as one that goes round and round is.
    pub fn wav_frames(&self) -> Result<Frames, TooLongForWav> {
        self.frames().filter(|frames| *frames <= Performance::LONGEST_WAV).ok_or(TooLongForWav)
    }

    /// Writes it as a WAV file of 16 bits, 48,000 frames a second, one channel: bytes in order, so that
    /// it can also go where there is no way back. The samples are made while they are written.
    ///
    /// # Errors
    ///
    /// Where the writer fails, and `InvalidInput` where there can be [no such file](Self::wav_frames).
    pub fn write_wav(&self, mix: &Arc<Mix>, to: &mut impl Write) -> io::Result<()> {
        let frames = self.wav_frames().map_err(|_| io::ErrorKind::InvalidInput)?;
        // At most the largest number of 32 bits, as just checked.
        let bytes = u32::try_from(frames.0).unwrap_or(u32::MAX).saturating_mul(FRAME_BYTES);
        to.write_all(&head(bytes))?;
        let mut samples = self.samples(mix);
        let mut block = [0.0; BLOCK];
        let mut encoded = Vec::with_capacity(BLOCK * FRAME_BYTES as usize);
        loop {
            let made = samples.fill(&mut block);
            encoded.clear();
            let numbers = block.iter().take(made).map(|sample| to_16_bits(*sample));
            encoded.extend(numbers.flat_map(i16::to_le_bytes));
            to.write_all(&encoded)?;
            if made < BLOCK {
                return to.flush();
            }
        }
    }
}

/// What stands before so many bytes of samples.
fn head(bytes: u32) -> Vec<u8> {
    const PCM: u16 = 1;
    const CHANNELS: u16 = 1;
    const FORMAT_BYTES: u32 = 16;
    let frame_bytes = CHANNELS * FRAME_BYTES as u16;
    let mut head = Vec::with_capacity(HEAD as usize);
    head.extend(b"RIFF");
    head.extend((bytes + HEAD - UNTOLD).to_le_bytes());
    head.extend(b"WAVEfmt ");
    head.extend(FORMAT_BYTES.to_le_bytes());
    head.extend(PCM.to_le_bytes());
    head.extend(CHANNELS.to_le_bytes());
    head.extend(RATE.to_le_bytes());
    head.extend((RATE * FRAME_BYTES).to_le_bytes());
    head.extend(frame_bytes.to_le_bytes());
    head.extend((frame_bytes * 8).to_le_bytes());
    head.extend(b"data");
    head.extend(bytes.to_le_bytes());
    head
}

#[cfg(test)]
mod tests {
    use fretloom_theory::{Pitch, Quarters, Score};

    use super::*;
    use crate::sound::{PlayStyle, Rounds, Struck};

    fn a3(quarters: u32, style: &PlayStyle) -> Performance {
        let pitches = vec![Pitch::from_midi(57).unwrap()];
        let end = Quarters::whole(quarters);
        let note = Struck { onset: Quarters::ZERO, end, pitches, accent: false };
        Performance::new(&Score::default(), &[note], style)
    }

    /// hound reads it, and finds the samples rounded to 16 bits.
    #[test]
    fn another_reader_finds_the_samples() {
        let (performance, mix) = (a3(1, &PlayStyle::default()), Arc::new(Mix::full()));
        let mut written = Vec::new();
        performance.write_wav(&mix, &mut written).unwrap();
        let mut read = hound::WavReader::new(&written[..]).unwrap();
        let hound::WavSpec { channels, sample_rate, bits_per_sample, sample_format } = read.spec();
        assert_eq!((channels, sample_rate, bits_per_sample), (1, 48_000, 16));
        assert_eq!(sample_format, hound::SampleFormat::Int);
        let found: Vec<i16> = read.samples().map(Result::unwrap).collect();
        let mut expected = vec![0.0; found.len() + 1];
        let made = performance.samples(&mix).fill(&mut expected);
        assert_eq!(made, found.len());
        for (found, expected) in found.iter().zip(&expected) {
            assert!((f32::from(*found) - expected * 32_767.0).abs() <= 0.5 + 1e-3);
        }
    }

    /// A writer that takes so many bytes and then no more.
    struct Full(usize);

    impl Write for Full {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let taken = bytes.len().min(self.0);
            self.0 -= taken;
            if taken == 0 { Err(io::ErrorKind::StorageFull.into()) } else { Ok(taken) }
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_full_disk_is_told_wherever_it_is_full() {
        let performance = a3(1, &PlayStyle::default());
        let mix = Arc::new(Mix::default());
        let whole = 44 + 2 * performance.frames().unwrap().0 as usize;
        for room in (0..100).chain((100..whole).step_by(1_777)).chain([whole - 1]) {
            let error = performance.write_wav(&mix, &mut Full(room)).unwrap_err();
            assert_eq!(error.kind(), io::ErrorKind::StorageFull, "{room}");
        }
        assert!(performance.write_wav(&mix, &mut Full(whole)).is_ok());
    }

    /// By hand: 2³² bytes less 36 are 2,147,483,629 frames, 12 hours and 25 minutes.
    #[test]
    fn what_is_too_long_is_refused_before_anything_is_written() {
        assert_eq!(Performance::LONGEST_WAV, Frames(2_147_483_629));
        let endless = PlayStyle { rounds: Rounds::Endless, ..PlayStyle::default() };
        // At 120 a quarter lasts half a second.
        for performance in [a3(4, &endless), a3(89_480, &PlayStyle::default())] {
            assert_eq!(performance.wav_frames(), Err(TooLongForWav));
            let mut written = Vec::new();
            let mix = Arc::new(Mix::default());
            let error = performance.write_wav(&mix, &mut written).unwrap_err();
            assert_eq!((error.kind(), written.len()), (io::ErrorKind::InvalidInput, 0));
        }
        assert!(a3(89_470, &PlayStyle::default()).wav_frames().is_ok());
    }
}
