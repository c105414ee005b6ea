"""Compare what fretloom prints with what music21 computes.

    tests/outside/run            # installs music21 and mido into target/outside-venv and compares

Nine things are compared, many thousand values in all: the notes of chord symbols, the spelled
triads of scales, the six-note sets of pairs (Forte name, prime form, interval vector), the
inversions of shapes, and files of notes: music21 writes them as MusicXML and mido as MIDI, and what
fretloom reads must have their pitches in their order, in their bars and on their beats (lines), and
their exact times, names, ties, bars, meters, keys, tempi and chord symbols (scores, `scores.py`).
The drills of `line` are computed once more, without any library (walks, `walks.py`), and the pitch of
every note from C1 to C7 is measured in the WAV files of lines, which soundfile reads (sounds, `sounds.py`).
Files that `line` writes are read by music21, partitura, mido and pretty_midi (written, `written.py`).
music21 is a general-purpose library (BSD licence), mido one for MIDI (MIT); nothing of them is
copied here.

Prints one line a part and exits with 1 at the first part that differs.
"""

import json
import random
import re
import subprocess
import sys
import tempfile
from collections import Counter
from fractions import Fraction
from pathlib import Path

import mido
import scores
import sounds
import walks
import written
from music21 import chord, harmony, instrument, interval, meter, note, pitch, stream, tempo

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
PRINTER = sys.argv[2] if len(sys.argv) > 2 else "target/release/examples/print_score"


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
    sys.exit(f"{part}: {what}: expected {expected}, fretloom says {found}")


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


def in_thirds(names):
    """A triad by letters that skip one: a member with a double accidental is named otherwise."""
    root, *others = [pitch.Pitch(theirs(name)) for name in names]
    letters = "CDEFGAB"
    stacked = [root]
    for skipped, member in zip((2, 4), others):
        step = letters[(letters.index(root.step) + skipped) % 7]
        same = [member, *member.getAllCommonEnharmonics()]
        stacked.append(next((each for each in same if each.step == step), member))
    return stacked


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
                quality = chord.Chord(in_thirds(triad["notes"])).quality
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


# An instrument that has none of the notes below: fretloom then names each of them with its place.
NOWHERE = "C7 D7 E7"

# How long the lines are: a message names eight notes.
LINE = 8


def read_line(file):
    """The notes of a line as fretloom reads them: bar, beat and MIDI number of each."""
    midi = [n["midi"] for n in ask("finger", str(file), "--ways", "1")["ways"][0]["notes"]]
    run = subprocess.run(
        [PROGRAM, "finger", str(file), "--tuning", NOWHERE], capture_output=True, text=True
    )
    places = re.findall(r"bar (\d+), beat ([\d.]+)", run.stderr)
    if len(places) != len(midi):
        fail("lines", file, f"{len(midi)} places", run.stderr)
    # Notes that begin together have no order.
    return sorted((int(bar), float(beat), n) for (bar, beat), n in zip(places, midi))


def same_line(expected, found):
    """Do bars and pitches agree, and beats to the two decimals that are printed?"""
    same = [
        one[0] == other[0] and abs(one[1] - other[1]) < 0.006 and one[2] == other[2]
        for one, other in zip(expected, found)
    ]
    return len(expected) == len(found) and all(same)


def rhythm(chance, count):
    """Durations in quarter notes: dotted, tied over bar lines, triplets."""
    usual = ["1/2", "1", "1/3", "3/2", "1/4", "5/2"]
    return [Fraction(chance.choice(usual)) for _ in range(count)]


def written_score(chance, transposed):
    """A part as music21 makes it, with rests, double stops, ties and a change of metre."""
    part = stream.Part()
    player = instrument.Instrument()
    if transposed:
        player.transposition = interval.Interval("P-8")
    part.append(player)
    part.append(meter.TimeSignature(chance.choice(["4/4", "3/4", "6/8"])))
    part.append(tempo.MetronomeMark(number=chance.randint(40, 200)))
    left = LINE
    while left:
        (length,) = rhythm(chance, 1)
        midi = chance.randint(52, 74)
        if left > 1 and chance.random() < 0.2:
            part.append(chord.Chord([midi, midi + 12], quarterLength=length))
            left -= 2
        elif chance.random() < 0.2:
            part.append(note.Rest(quarterLength=length))
        else:
            part.append(note.Note(midi, quarterLength=length))
            left -= 1
    return part


def told_by_music21(part):
    """Bar, beat and sounding MIDI number of each note of a part with bars."""
    told = []
    for element in part.recurse().notes:
        is_held = element.tie is not None and element.tie.type in ("stop", "continue")
        if not is_held:
            # Beats as the lower number of the signature counts them, also in 6/8.
            signature = element.getContextByClass(meter.TimeSignature)
            beat = element.offset * signature.denominator / 4 + 1
            for p in element.pitches:
                told.append((element.measureNumber, float(beat), p.midi))
    return sorted(told)


def compare_score(folder, number, chance):
    transposed = number % 2 == 1
    part = written_score(chance, transposed)
    barred = part.makeNotation()
    file = folder / f"{number}.musicxml"
    barred.write("musicxml", fp=file)
    if transposed and "<transpose>" not in file.read_text():
        sys.exit("lines: music21 wrote no <transpose>")
    octave = 12 if transposed else 0
    expected = [(bar, beat, midi - octave) for bar, beat, midi in told_by_music21(barred)]
    found = read_line(file)
    if not same_line(expected, found):
        fail("lines", f"score {number}", expected, found)
    return 3 * len(found)


def compare_midi(folder, number, chance):
    """A track as mido writes it; bars and beats are those of the signature in it."""
    ticks = chance.choice([96, 480, 25])
    beats, unit = chance.choice([(4, 4), (3, 4), (6, 8), (5, 4)])
    kind = number % 2
    conductor, track = mido.MidiTrack(), mido.MidiTrack()
    (conductor if kind else track).extend(
        [
            mido.MetaMessage("time_signature", numerator=beats, denominator=unit),
            mido.MetaMessage("set_tempo", tempo=chance.randint(200_000, 1_500_000)),
        ]
    )
    for length in rhythm(chance, LINE):
        midi, wait = chance.randint(40, 74), chance.randint(0, ticks)
        track.append(mido.Message("note_on", note=midi, velocity=80, time=wait))
        end = "note_on" if chance.random() < 0.5 else "note_off"
        track.append(mido.Message(end, note=midi, velocity=0, time=max(1, int(length * ticks))))
    tracks = [conductor, track] if kind else [track]
    file = folder / f"{number}.mid"
    mido.MidiFile(type=kind, ticks_per_beat=ticks, tracks=tracks).save(file)
    expected, tick = [], 0
    for message in mido.MidiFile(file).tracks[-1]:
        tick += message.time
        if message.type == "note_on" and message.velocity > 0:
            in_beats = Fraction(tick, ticks) * unit / 4
            bar, beat = divmod(in_beats, beats)
            expected.append((int(bar) + 1, float(beat) + 1, message.note))
    found = read_line(file)
    if not same_line(sorted(expected), found):
        fail("lines", f"track {number}", sorted(expected), found)
    return 3 * len(found)


def compare_lines():
    chance = random.Random(1)
    with tempfile.TemporaryDirectory() as folder:
        kinds = [compare_score, compare_midi]
        return sum(kind(Path(folder), n, chance) for n in range(40) for kind in kinds)


def compare_scores():
    chance = random.Random(2)
    with tempfile.TemporaryDirectory() as folder:
        kinds = [scores.compare_music_xml, scores.compare_midi]
        made = [kind(PRINTER, Path(folder), n, chance) for n in range(40) for kind in kinds]
        return sum(made)


def compare_walks():
    return walks.compare(ask, fail)


def compare_sounds():
    with tempfile.TemporaryDirectory() as folder:
        return sounds.compare(ask, Path(folder))


def compare_written():
    with tempfile.TemporaryDirectory() as folder:
        valid, read = written.compare(PROGRAM, Path(folder))
    print(f"written: {valid} files are valid MusicXML, {read} lines were read by four readers")
    return valid + read


def main():
    parts = [
        compare_chords, compare_triads, compare_pairs, compare_shapes, compare_lines,
        compare_scores, compare_walks, compare_sounds, compare_written,
    ]
    counts = Counter()
    for part in parts:
        name = part.__name__.removeprefix("compare_")
        counts[name] = part()
        print(f"{name}: {counts[name]} values agree", flush=True)
    print(f"outside check: {sum(counts.values())} values agree with music21, mido and libsndfile")


if __name__ == "__main__":
    main()
