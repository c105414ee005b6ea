"""Compares two builds of the program: the answers of calls, the screens after keys."""

import argparse
import difflib
import fcntl
import hashlib
import itertools
import pickle
import re
import shutil
import sys
import tempfile
import time
import tomllib
import zlib
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

import calls
import keys
from program import QUICK, SLOW, Performance, Played, Said, run_call, run_script
from terminal import Terminal

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
KEPT = ROOT / "target" / "compare_builds"
# So long on every run of this tree, since the program's own words may hold it.
MARK = hashlib.sha256(str(ROOT).encode()).hexdigest()[:8]
FOLDERS = Path(tempfile.gettempdir()) / f"fretloom-compare-{MARK}"
TOLD = 5
LINES_TOLD = 14
MOST_SLOW = 12


def main() -> int:
    options = read_options()
    KEPT.mkdir(parents=True, exist_ok=True)
    lock = open(KEPT / "lock", "w", encoding="utf-8")
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        sys.exit("compare_builds: a comparison of this tree is running")
    expected = Expected()
    # Copies: a build may go on meanwhile.
    old, new = (copied(build, name) for build, name in [(options.old, "old"), (options.new, "new")])
    different = 0
    with ProcessPoolExecutor(2) as pool:
        if options.only != "keys":
            different += compare_calls(pool, old, new, calls.all_calls(options.calls), expected)
        if options.only != "calls":
            scripts = [s for s in keys.all_scripts() if options.script in s.name]
            different += compare_keys(pool, old, new, scripts, expected)
    shutil.rmtree(FOLDERS, ignore_errors=True)
    expected.tell(options.only is None and not options.script)
    print("no differences" if different == 0 else f"{different} differences")
    return 1 if different else 0


def read_options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="run", description=__doc__)
    parser.add_argument("old", type=Path, help="the build that is right")
    parser.add_argument("new", type=Path, help="the build to compare with it")
    parser.add_argument("--calls", type=int, default=5000, metavar="N", help="how many calls")
    parser.add_argument("--only", choices=["calls", "keys"], help="one half of it")
    parser.add_argument("--script", default="", metavar="WORD",
                        help="only key scripts with this in their name")
    return parser.parse_args()


def copied(build: Path, name: str) -> str:
    if not build.is_file():
        sys.exit(f"compare_builds: there is no build {build}")
    copy = KEPT / name
    shutil.copy2(build, copy)
    return str(copy)


class Expected:
    """The differences that are meant, each with its reason: expected.toml."""

    def __init__(self):
        rows = tomllib.loads((HERE / "expected.toml").read_text()).get("difference", [])
        self.rows = [(re.compile(row["where"]), row["reason"]) for row in rows]
        self.met = [0] * len(self.rows)

    def holds(self, where: str) -> bool:
        for index, (pattern, _) in enumerate(self.rows):
            if pattern.search(where):
                self.met[index] += 1
                return True
        return False

    def tell(self, everything: bool) -> None:
        for (pattern, reason), met in zip(self.rows, self.met):
            if met:
                print(f"expected, {met} times: {reason}")
            elif everything:
                print(f"expected and not met; take it out of expected.toml: {pattern.pattern}")


def digest(*parts: bytes) -> str:
    total = hashlib.sha256()
    for part in parts:
        total.update(hashlib.sha256(part).digest())
    return total.hexdigest()[:24]


def kept_results(name: str, binary: str, asked: list, make) -> list:
    """The results of the old build; made once for this build and these questions."""
    how = (HERE / "program.py").read_bytes()
    key = digest(Path(binary).read_bytes(), repr(asked).encode(), how)
    file = KEPT / f"{name}-{key}"
    if file.exists():
        return pickle.loads(zlib.decompress(file.read_bytes()))
    results = make()
    keep_results(file, results)
    return results


def keep_results(file: Path, results: list) -> None:
    half = file.with_suffix(".half")
    half.write_bytes(zlib.compress(pickle.dumps(results), 1))
    half.replace(file)


def folders(count: int) -> list[Path]:
    return [FOLDERS / f"{number:05}" for number in range(count)]


def timed(what: str, make):
    begun = time.monotonic()
    result = make()
    print(f"  {what}: {time.monotonic() - begun:.0f} s", flush=True)
    return result


def compare_calls(pool, old: str, new: str, asked: list[calls.Call], expected: Expected) -> int:
    def run(binary: str) -> list[Said]:
        return list(pool.map(partial(run_call, binary), asked, folders(len(asked)), chunksize=20))

    print(f"calls: {len(asked)}", flush=True)
    before = kept_results("calls", old, asked, lambda: timed("old build", lambda: run(old)))
    after = timed("new build", lambda: run(new))
    differing = [(call, was, now) for call, was, now in zip(asked, before, after)
                 if was != now and not expected.holds(call.line())]
    for call, was, now in differing[:TOLD]:
        tell_call(call, was, now)
    failed = sum(said.status != "0" for said in before)
    print(f"calls: {len(asked)} compared, {failed} of them refused; {len(differing)} differ")
    return len(differing)


def tell_call(call: calls.Call, was: Said, now: Said) -> None:
    print(f"\ndiffers: {call.line()}")
    if was.status != now.status:
        print(f"  status: {was.status} before, {now.status} now")
    for name, one, other in [("standard output", was.out, now.out),
                             ("standard error", was.err, now.err)]:
        tell_text(name, one, other)
    for name in sorted({name for name, _ in set(was.left) ^ set(now.left)}):
        tell_text(f"file {name}", dict(was.left).get(name, b""), dict(now.left).get(name, b""))
    print(flush=True)


def tell_text(name: str, was: bytes, now: bytes) -> None:
    if was == now:
        return
    one, other = (text.decode(errors="replace").splitlines() for text in (was, now))
    # One line of JSON is cut where the two part.
    if len(one) == len(other) == 1:
        at = next((i for i, (a, b) in enumerate(zip(*one, *other)) if a != b), 0)
        one, other = (["…" + text[0][max(at - 60, 0):at + 100]] for text in (one, other))
    lines = difflib.unified_diff(one, other, f"{name} before", f"{name} now", n=1, lineterm="")
    for line in itertools.islice(lines, LINES_TOLD):
        print(f"  {line[:200]}")
    if one == other:
        print(f"  {name}: other ends of lines")


def compare_keys(pool, old: str, new: str, scripts: list[keys.Script], expected: Expected) -> int:
    def run(binary: str, some: list[keys.Script], pace) -> list[Performance]:
        play = partial(run_script, binary, pace=pace)
        return list(pool.map(play, some, folders(len(some))))

    pressed = sum(len(start.steps) for script in scripts for start in script.starts)
    print(f"keys: {pressed} in {len(scripts)} scripts", flush=True)
    before = kept_results("keys", old, scripts,
                          lambda: timed("old build", lambda: run(old, scripts, QUICK)))
    after = timed("new build", lambda: run(new, scripts, QUICK))
    doubtful = [index for index, script in enumerate(scripts)
                if before[index] != after[index] and differences(script, before[index], after[index])]
    # Noise never counts: what differs is played once more, slowly, with both builds.
    again = [scripts[index] for index in doubtful[:MOST_SLOW]]
    if again:
        print(f"  {len(doubtful)} scripts seem to differ; {len(again)} are played slowly", flush=True)
    slow = list(zip(run(old, again, SLOW), run(new, again, SLOW)))
    found = []
    for position, index in enumerate(doubtful):
        was, now = slow[position] if position < len(slow) else (before[index], after[index])
        found += [(scripts[index], told) for told in differences(scripts[index], was, now)]
    found = [(script, told) for script, told in found if not expected.holds(script.name)]
    for script, told in found[:TOLD]:
        print(f"\ndiffers: script {script.name}, {told}", flush=True)
    print(f"keys: {pressed} compared; {len(found)} scripts differ")
    return len(found)


def differences(script: keys.Script, was: Performance, now: Performance) -> list[str]:
    """The first thing that differs, told to a reader; nothing where a player sees the same."""
    for number, (start, one, other) in enumerate(zip(script.starts, was.starts, now.starts), 1):
        told = different_screen(script, start, one, other)
        if told is None and one.status != other.status:
            told = f"its end: status {one.status} before, {other.status} now"
        if told is not None:
            return [f"start {number}, {told}"]
    if was.left != now.left:
        lines = [f"{name}: {content.decode(errors='replace')}" for name, content in was.left]
        others = [f"{name}: {content.decode(errors='replace')}" for name, content in now.left]
        diff = difflib.unified_diff("\n".join(lines).split("\n"), "\n".join(others).split("\n"),
                                    "before", "now", n=1, lineterm="")
        return ["the files left behind:\n  " + "\n  ".join(itertools.islice(diff, LINES_TOLD))]
    return []


def different_screen(script: keys.Script, start: keys.Start, was: Played, now: Played):
    if was.steps == now.steps:
        return None
    one, other = Terminal(*script.size), Terminal(*script.size)
    steps = ["(start)", *start.steps]
    for index, (before, after) in enumerate(itertools.zip_longest(was.steps, now.steps)):
        if before is None or after is None:
            return f"the program ended before step {index} in one of the builds"
        if steps[index].startswith("size:"):
            size = keys.Size.read(steps[index].removeprefix("size:"))
            one.resize(*size)
            other.resize(*size)
        one.feed(before)
        other.feed(after)
        if one.shown() != other.shown():
            last = " ".join(steps[max(index - 7, 0):index + 1])
            return f"step {index}, after … {last}\n" + different_cells(one, other)
    return None


def different_cells(one: Terminal, other: Terminal) -> str:
    told = []
    for row, (before, after) in enumerate(zip(one.cells, other.cells), 1):
        texts = ["".join(sign for sign, _ in line) for line in (before, after)]
        if texts[0] != texts[1]:
            told += [f"  row {row} before |{texts[0].rstrip()}", f"  row {row} now    |{texts[1].rstrip()}"]
        elif before != after:
            column = next(i for i, cells in enumerate(zip(before, after)) if cells[0] != cells[1])
            styles = [style_words(line[column][1]) for line in (before, after)]
            told.append(f"  row {row} column {column + 1} {before[column][0]!r}: "
                        f"{styles[0]} before, {styles[1]} now")
    if not told:
        told = [f"  cursor, modes or clipboard: {one.shown()[1:]} before, {other.shown()[1:]} now"]
    return "\n".join(told[:LINES_TOLD])


def style_words(style: tuple) -> str:
    front, back, attributes = style
    return f"[{front or 'usual'} on {back or 'usual'} {' '.join(sorted(attributes))}]".replace(" ]", "]")


if __name__ == "__main__":
    sys.exit(main())
