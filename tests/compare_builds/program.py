"""Runs a build of the program: a call, or a script of keys in a pseudo-terminal."""

import fcntl
import os
import pty
import select
import shutil
import signal
import struct
import subprocess
import termios
import time
from pathlib import Path
from typing import NamedTuple

from calls import Call
from keys import Script, Size, Start, written

END_OF_FRAME = b"\x1b[?2026l"
LONGEST_CALL_S = 60


class Said(NamedTuple):
    """What a call said and what it left in its folder."""

    status: str
    out: bytes
    err: bytes
    left: tuple[tuple[str, bytes], ...]


class Played(NamedTuple):
    """What a start wrote after each step, and how it ended."""

    steps: tuple[bytes, ...]
    status: str


class Performance(NamedTuple):
    """All starts of a script, and the files left behind."""

    starts: tuple[Played, ...]
    left: tuple[tuple[str, bytes], ...]


class Pace(NamedTuple):
    """How long is waited, in seconds: for a frame, and for silence after it."""

    frame: float
    quiet: float
    # After a start, a new size or a stop there may be more than one frame.
    quiet_after_change: float


QUICK = Pace(frame=0.4, quiet=0.004, quiet_after_change=0.05)
SLOW = Pace(frame=3.0, quiet=0.1, quiet_after_change=0.4)


def environment(folder: Path, more: tuple[tuple[str, str], ...]) -> dict[str, str]:
    """Nothing of whoever compares: a home, a configuration and a state of its own."""
    own = {"HOME": str(folder), "XDG_STATE_HOME": str(folder / "state"), "FRETLOOM_CONFIG": "config",
           "LANG": "C.UTF-8", "TERM": "xterm-256color", "RUST_BACKTRACE": "0"}
    return own | dict(more)


def furnish(folder: Path, files: tuple[tuple[str, bytes], ...]) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name, content in files:
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)


def left_in(folder: Path, given: tuple[tuple[str, bytes], ...]) -> tuple[tuple[str, bytes], ...]:
    """The files that are new or changed, or gone."""
    there = {str(file.relative_to(folder)): file.read_bytes()
             for file in sorted(folder.rglob("*")) if file.is_file()}
    gone = [(name, b"(gone)") for name, _ in given if name not in there]
    return tuple(sorted(set(there.items()) - set(given))) + tuple(gone)


def run_call(binary: str, call: Call, folder: Path) -> Said:
    furnish(folder, call.files)
    try:
        done = subprocess.run(["fretloom", *call.arguments], executable=binary, cwd=folder,
                              env=environment(folder, call.environment), input=call.typed,
                              capture_output=True, timeout=LONGEST_CALL_S, check=False)
        said = Said(str(done.returncode), done.stdout, done.stderr, left_in(folder, call.files))
    except subprocess.TimeoutExpired:
        said = Said(f"no end in {LONGEST_CALL_S} s", b"", b"", ())
    shutil.rmtree(folder, ignore_errors=True)
    return said


def run_script(binary: str, script: Script, folder: Path, pace: Pace) -> Performance:
    furnish(folder, script.files)
    starts = tuple(play(binary, script, start, folder, pace) for start in script.starts)
    performance = Performance(starts, left_in(folder, script.files))
    shutil.rmtree(folder, ignore_errors=True)
    return performance


def set_size(terminal: int, size: Size) -> None:
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", size.rows, size.columns, 0, 0))


def play(binary: str, script: Script, start: Start, folder: Path, pace: Pace) -> Played:
    env = environment(folder, start.environment)
    process, terminal = pty.fork()
    if process == 0:
        try:
            set_size(0, script.size)
            os.chdir(folder)
            os.execve(binary, ["fretloom", *start.arguments], env)
        finally:
            os._exit(127)
    try:
        steps, ended = [], False
        seen, ended = settle(terminal, pace.frame + 2, pace.quiet_after_change)
        steps.append(seen)
        for step in start.steps:
            if ended:
                break
            quiet = pace.quiet
            if step.startswith("size:"):
                set_size(terminal, Size.read(step.removeprefix("size:")))
                quiet = pace.quiet_after_change
            else:
                os.write(terminal, written(step))
                if step == "ctrl-z":
                    quiet = pace.quiet_after_change
            seen, ended = settle(terminal, pace.frame, quiet)
            steps.append(seen)
        return Played(tuple(steps), end_of(process, terminal))
    finally:
        os.close(terminal)


def settle(terminal: int, frame: float, quiet: float) -> tuple[bytes, bool]:
    """Reads until a whole frame has come and then nothing; whether the program has ended."""
    seen = bytearray()
    while True:
        patience = quiet if END_OF_FRAME in seen else frame
        if not select.select([terminal], [], [], patience)[0]:
            return bytes(seen), False
        try:
            piece = os.read(terminal, 65536)
        except OSError:
            # Linux says so when the last program has closed its end.
            piece = b""
        if not piece:
            return bytes(seen), True
        seen += piece


def end_of(process: int, terminal: int) -> str:
    """Waits for the end, and brings it about where it does not come."""
    limit = time.monotonic() + 10
    while time.monotonic() < limit:
        ended, status = os.waitpid(process, os.WNOHANG)
        if ended:
            return str(os.waitstatus_to_exitcode(status))
        if select.select([terminal], [], [], 0.002)[0]:
            try:
                os.read(terminal, 65536)
            except OSError:
                time.sleep(0.002)
    os.kill(process, signal.SIGKILL)
    os.waitpid(process, 0)
    return "did not end"
