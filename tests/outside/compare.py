"""Compare what fretloom prints with what music21 computes.

    tests/outside/run            # installs music21 into target/outside-venv and compares

Four things are compared, several thousand values in all: the notes of chord symbols, the spelled
triads of scales, the six-note sets of pairs (Forte name, prime form, interval vector), and the
inversions of shapes. music21 is a general-purpose library (BSD licence); nothing of it is copied
here.

Prints one line a part and exits with 1 at the first part that differs.
"""

import json
import subprocess
import sys
from collections import Counter

from music21 import chord, harmony, interval, pitch

ROOTS = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]

# Suffixes that music21 reads and lead sheets write alike. Where it reads something else (C13 with
# the 11, C2 without the third, a hyphen as a flat) there is nothing to compare.
SUFFIXES = """
    maj M m min dim o aug + 5 sus2 sus4 sus add9 add2 madd9 add11 6 m6 6add9 maj7 M7 maj7#11 maj7b5
    maj7#5 augmaj7 M9 m7 min7 m9 m11 m13 m7add11 m7b5 \u00f87 m9b5 m11b5 m7#5 mM7 mM9 dim7 o7 7 9 7b9 7#9
    7b9#9 7#11 9#11 7b5 7#5 7+ aug7 9b5 9#5 7b5b9 7b5#9 7#5b9 7#5#9 7b13 9b13 7b9b13 7#9b13 7b9#11
    7#9#11 7#11b13 7add13 7sus4 7sus 7sus4b9
""".split()

# Steps of the four parents in letters and semitones, as any textbook gives them.
PARENTS = {
    "major": ["P1", "M2", "M3", "P4", "P5", "M6", "M7"],
    "melodic minor": ["P1", "M2", "m3", "P4", "P5", "M6", "M7"],
    "harmonic minor": ["P1", "M2", "m3", "P4", "P5", "m6", "M7"],
    "harmonic major": ["P1", "M2", "M3", "P4", "P5", "m6", "M7"],
}

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else "target/release/fretloom"


def ask(*arguments, text=None):
    """The JSON answer of one command."""
    run = subprocess.run(
        [PROGRAM, *arguments, "--json"], input=text, capture_output=True, text=True, check=True
    )
    return json.loads(run.stdout)


def theirs(name):
    """A note name as music21 writes it: flats are hyphens."""
    return name[0] + name[1:].replace("b", "-")


def ours(name):
    """A note name of music21 as we write it."""
    return name.replace("-", "b")


def fail(part, what, expected, found):
    sys.exit(f"{part}: {what}: music21 says {expected}, fretloom says {found}")


def pitch_class(name):
    return pitch.Pitch(theirs(name)).pitchClass


def compare_chords():
    symbols = [root + suffix for root in ROOTS for suffix in SUFFIXES]
    answers = ask("chord", "--file", "-", text="\n".join(symbols))["chords"]
    count = 0
    for symbol, answer in zip(symbols, answers):
        suffix = symbol[2:] if symbol[1:2] in ("b", "#") else symbol[1:]
        figure = theirs(symbol[: len(symbol) - len(suffix)]) + suffix
        expected = sorted({p.pitchClass for p in harmony.ChordSymbol(figure).pitches})
        found = sorted({pitch_class(note) for note in answer["tones"]})
        if expected != found:
            fail("chords", symbol, expected, found)
        count += len(found)
    return count


def scale_notes(parent, mode, tonic):
    """The notes of a mode on a tonic, by music21's intervals."""
    steps = [interval.Interval(name) for name in PARENTS[parent]]
    low = steps[mode].reverse().transposePitch(pitch.Pitch(theirs(tonic) + "4"))
    rising = [step.transposePitch(low) for step in steps]
    return rising[mode:] + [step.transpose("P8") for step in rising[:mode]]


def modes():
    """Every mode of the four parents by its degrees, as fretloom reads typed degrees."""
    for parent in PARENTS:
        for mode in range(7):
            for tonic in ROOTS:
                notes = scale_notes(parent, mode, tonic)
                if max(abs(note.alter) for note in notes) < 2:
                    yield notes


def compare_triads():
    count = 0
    for notes in modes():
        typed = " ".join(ours(note.name) for note in notes)
        answer = ask("triads", typed, "--spelling", "strict")
        expected = []
        for degree in range(7):
            members = [notes[(degree + step) % 7].name for step in (0, 2, 4)]
            built = chord.Chord(members)
            expected.append((ours(members[0]), built.quality, [ours(name) for name in members]))
        found = [(t["root"], t["quality"], t["notes"]) for t in answer["triads"]]
        if expected != found:
            fail("triads", typed, expected, found)
        count += 7
    return count


def compare_pairs():
    count = 0
    answers = [ask("pairs", "--all", "--families", "all")]
    for answer in answers:
        for pair in answer["pairs"]:
            names = pair["first"]["notes"] + pair["second"]["notes"]
            six = chord.Chord([theirs(name) for name in names])
            expected = (six.forteClassTnI, six.primeForm, six.intervalVector)
            found = (
                pair["forte"].replace("Z", ""), pair["prime_form"], pair["interval_vector"]
            )
            if expected != found:
                fail("pairs", pair["name"], expected, found)
            for side in ("first", "second"):
                triad = pair[side]
                quality = chord.Chord([theirs(name) for name in triad["notes"]]).quality
                tertian = triad["quality"] in ("major", "minor", "diminished", "augmented")
                if tertian and quality != triad["quality"]:
                    fail("pairs", pair["name"], quality, triad["quality"])
            count += 4
    return count


STACKS = {"": ("M3", "P5"), "m": ("m3", "P5"), "dim": ("m3", "d5")}


def spelled(triad):
    """The three members of a triad by music21's intervals: pitch class to name."""
    length = 2 if triad[1:2] in ("b", "#") else 1
    root = pitch.Pitch(theirs(triad[:length]))
    above = [interval.Interval(name).transposePitch(root) for name in STACKS[triad[length:]]]
    return {member.pitchClass: member.name for member in [root, *above]}


def sounding(number, names):
    """A MIDI number as a pitch with its name, so that music21 need not guess the spelling."""
    for octave in range(10):
        candidate = pitch.Pitch(names[number % 12] + str(octave))
        if candidate.midi == number:
            return candidate
    raise ValueError(number)


def compare_shapes():
    words = {0: "root", 1: "first", 2: "second"}
    count = 0
    for tuning in ask("tunings")["tunings"]:
        for triad in ("C", "F#m", "Bbdim", "Eb", "Gm", "Adim"):
            names = spelled(triad)
            for voicing in ("close", "open"):
                answer = ask("shapes", triad, "--tuning", tuning["id"], "--voicing", voicing)
                for shape in answer["shapes"]:
                    built = chord.Chord([sounding(n, names) for n in shape["pitches"]])
                    expected = words[built.inversion()]
                    if expected != shape["inversion"]:
                        fail("shapes", f"{tuning['id']} {shape}", expected, shape["inversion"])
                    count += 1
    return count


def main():
    parts = [compare_chords, compare_triads, compare_pairs, compare_shapes]
    counts = Counter()
    for part in parts:
        name = part.__name__.removeprefix("compare_")
        counts[name] = part()
        print(f"{name}: {counts[name]} values agree", flush=True)
    print(f"outside check: {sum(counts.values())} values agree with music21")


if __name__ == "__main__":
    main()
