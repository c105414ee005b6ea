//! The pipe to a program, which never waits for long.

use std::io::{self, Write};
use std::process::ChildStdin;

use rustix::event::{PollFd, PollFlags, Timespec, poll};
use rustix::io::{ioctl_fionbio, ioctl_fionread};

/// The input of a program.
pub(super) struct Pipe(ChildStdin);

/// What became of a write.
pub(super) enum Written {
    /// So many bytes were taken.
    Some(usize),
    /// There was no room for a while.
    Nothing,
}

impl Pipe {
    /// So many bytes it holds, 85 ms of sound. A pipe holds eight times as much otherwise, and a stop would
    /// come as much later.
    pub(super) const SIZE: usize = 8_192;

    pub(super) fn new(input: ChildStdin) -> io::Result<Pipe> {
        #[cfg(target_os = "linux")]
        rustix::pipe::fcntl_setpipe_size(&input, Pipe::SIZE)?;
        ioctl_fionbio(&input, true)?;
        Ok(Pipe(input))
    }

    /// Writes what there is room for, and waits for room 20 ms at most.
    pub(super) fn write(&mut self, bytes: &[u8]) -> io::Result<Written> {
        match self.0.write(bytes) {
            Ok(0) => Ok(Written::Nothing),
            Ok(written) => Ok(Written::Some(written)),
            Err(error) if error.kind() == io::ErrorKind::WouldBlock => {
                let limit = Timespec { tv_sec: 0, tv_nsec: 20_000_000 };
                let _ = poll(&mut [PollFd::new(&self.0, PollFlags::OUT)], Some(&limit));
                Ok(Written::Nothing)
            }
            Err(error) if error.kind() == io::ErrorKind::Interrupted => Ok(Written::Nothing),
            Err(error) => Err(error),
        }
    }

    /// How many bytes are in it.
    pub(super) fn holds(&self) -> usize {
        ioctl_fionread(&self.0)
            .map_or(Pipe::SIZE, |bytes| usize::try_from(bytes).unwrap_or(Pipe::SIZE))
    }
}
