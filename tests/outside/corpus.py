"""Scores that other programs wrote: what fretloom reads of them, beside music21 and partitura.

    target/outside-venv/bin/python tests/outside/corpus.py PRINTER [N [FROM]]

The scores are those in music21's package, read from there and not copied: compressed and not, UTF-8
and UTF-16, of many programs. Every sixteenth is read, or every Nth, with FROM from that one on. Of
each part are compared, grace notes apart: how many notes there are, which pitches sound, and when each
begins. music21 misplaces some notes in time, and partitura knows no transposition; a part agrees where
one of the two finds the same.
"""

import json
import subprocess
import sys
import warnings
from collections import Counter
from fractions import Fraction
from pathlib import Path

warnings.filterwarnings("ignore")

import music21
import partitura
from music21 import converter, harmony, note

# What cannot be played on frets, and files without a note with a pitch.
REFUSALS = ["it holds no notes", "whole number, 0 to 127", "stays within the measure"]
# Notes without divisions or durations, which the standard asks for.
REFUSALS += ["the divisions of a quarter note first", "a note without a duration"]

# Of a hundred parts that fretloom reads so many agree at least.
LEAST = 97


def files(step, first):
    root = Path(music21.__file__).parent
    kinds = {".mxl", ".xml", ".musicxml"}
    return sorted(file for file in root.rglob("*") if file.suffix in kinds)[first::step]


def midi(name):
    """The MIDI number of a name as fretloom writes it: `Bb4`."""
    return note.Note(name[0] + name[1:].replace("b", "-")).pitch.midi


def ours(printer, file, number):
    """The notes of a part; its refusal where there are none."""
    run = subprocess.run([printer, str(file), str(number)], capture_output=True, text=True)
    if run.returncode:
        return None, run.stdout.strip()
    notes = [told for told in json.loads(run.stdout)["notes"] if not told["is_grace"]]
    return Counter((grid(Fraction(told["onset"])), midi(told["name"])) for told in notes), ""


def grid(onset):
    """To a 48th of a quarter note: both libraries count in floats."""
    return round(float(onset) * 48)


def of_music21(score):
    """The notes of each part of the file, whose staves are parts of their own there."""
    parts = {}
    for part in score.parts:
        sounding = part.toSoundingPitch().stripTies()
        found = parts.setdefault(str(part.id).split("-Staff")[0], Counter())
        for element in sounding.recurse().notes:
            if isinstance(element, harmony.Harmony) or element.duration.isGrace:
                continue
            onset = grid(element.getOffsetInHierarchy(sounding))
            found.update((onset, pitch.midi) for pitch in getattr(element, "pitches", []))
    return list(parts.values())


def of_partitura(file):
    """The same, in the same order; from the first note on, since pick-ups are counted back."""
    parts = []
    for part in partitura.load_score(str(file)).parts:
        notes = part.note_array(include_grace_notes=True)
        notes = [(n["onset_quarter"], n["pitch"]) for n in notes if not n["is_grace"]]
        parts.append(Counter((grid(onset), int(pitch)) for onset, pitch in notes))
    return parts


def attempt(read, *arguments):
    """What a library reads; nothing where it fails."""
    try:
        return read(*arguments)
    except Exception:
        return []


def from_the_first(notes):
    """The same notes, counted in time from the first."""
    first = min((onset for onset, _ in notes), default=0)
    return Counter({(onset - first, pitch): count for (onset, pitch), count in notes.items()})


def pitches(notes):
    counted = Counter()
    for (_, pitch), count in notes.items():
        counted[pitch] += count
    return counted


def agreement(found, other):
    """How far two agree: in everything, in pitches, in how many notes."""
    if from_the_first(found) == from_the_first(other):
        return "all"
    if pitches(found) == pitches(other):
        return "pitches"
    return "count" if found.total() == other.total() else "nothing"


def main():
    printer = sys.argv[1]
    step = int(sys.argv[2]) if len(sys.argv) > 2 else 16
    first = int(sys.argv[3]) if len(sys.argv) > 3 else 0
    seen, against = Counter(), {"music21": Counter(), "partitura": Counter()}
    for file in files(step, first):
        seen["files"] += 1
        score = attempt(lambda: converter.parse(str(file), forceSource=True))
        by_music21 = attempt(of_music21, score) if score else []
        by_partitura = attempt(of_partitura, file)
        for number in range(max(len(by_music21), len(by_partitura), 1)):
            found, refusal = ours(printer, file, number + 1)
            if found is None:
                seen["refused"] += 1
                if not any(words in refusal for words in REFUSALS):
                    sys.exit(f"{file}, part {number + 1}: {refusal}")
                continue
            seen["parts"] += 1
            seen["notes"] += found.total()
            best = set()
            for name, parts in [("music21", by_music21), ("partitura", by_partitura)]:
                same = agreement(found, parts[number]) if number < len(parts) else "unread"
                against[name][same] += 1
                best.add(same)
            seen["agree"] += "all" in best
        if "all" not in best:
                seen["same pitches"] += "pitches" in best
                print(f"{file.name}, part {number + 1}: {sorted(best)}", flush=True)
    print(f"corpus: {dict(seen)}")
    for name, counts in against.items():
        print(f"corpus, beside {name}: {dict(counts)}")
    if seen["agree"] * 100 < LEAST * seen["parts"]:
        sys.exit(f"corpus: {seen['agree']} of {seen['parts']} parts agree, expected {LEAST} of 100")


if __name__ == "__main__":
    main()
