"""Scores in musical time: what music21 and mido wrote, and what fretloom reads of it.

Exact onsets and durations, names, ties, bars, beats, meters, keys, tempi and chord symbols.
"""

import json
import subprocess
import sys
from fractions import Fraction

import mido
from music21 import (
    chord, harmony, instrument, interval, key, metadata, meter, note, stream, tempo, tie,
)

# Chord symbols that music21 and lead sheets read alike, by kinds with and without degrees.
FIGURES = "maj7 m7 7 dim7 m7b5 6 m6 9 m9 M9 7b9 7#9 maj7#11 7b5 aug sus4 7sus4 add9 mM7".split()

ROOTS = ["C", "D", "E-", "F", "G", "A", "B-", "F#"]

# In quarter notes; those of one line fill a quarter note.
GROUPS = [
    ["1"], ["1/2", "1/2"], ["3/4", "1/4"], ["1/3", "1/3", "1/3"], ["2/3", "1/3"],
    ["1/5"] * 5, ["1/7"] * 7, ["1/6"] * 6, ["1/4", "1/8", "1/8", "1/2"],
]


def ours(name):
    return name.replace("-", "b")


def pitch_of(name):
    """A note name as fretloom writes it, as music21 has it: flats are hyphens there."""
    return note.Note(name[0] + name[1:].replace("b", "-")).pitch


def printed(printer, file):
    run = subprocess.run([printer, str(file)], capture_output=True, text=True)
    if run.returncode:
        sys.exit(f"scores: {file}: {run.stdout}")
    return json.loads(run.stdout)


def compare(what, expected, found):
    for one, other in zip(expected, found):
        if one != other:
            sys.exit(f"{what} differ\nexpected {one}\nfound    {other}")
    if len(expected) != len(found):
        sys.exit(f"{what}: expected {len(expected)}, found {len(found)}: {expected} {found}")
    return len(found)


def a_name(chance):
    return chance.choice("CDEFGAB") + chance.choice(["", "", "-", "#", "--", "##"])


def whole(signature):
    return Fraction(signature.barDuration.quarterLength)


def measures(chance):
    """The lengths of the bars in quarter notes, each with its meter; the first may be a pick-up."""
    found = []
    for _ in range(chance.randint(1, 3)):
        signature = meter.TimeSignature(chance.choice(["4/4", "3/4", "6/8", "2/4", "9/8"]))
        if not found and chance.random() < 0.5:
            found.append((Fraction(1), signature))
        found += [(whole(signature), signature)] * chance.randint(1, 3)
    return found


def filled(chance, length):
    """Durations that fill a bar."""
    left, found = length, []
    while left:
        group = [Fraction(part) for part in chance.choice(GROUPS)] if left >= 1 else [left]
        found += group
        left -= sum(group)
    return found


class Tune:
    """A part, made bar by bar, and beside it what must be found in it."""

    def __init__(self, chance, transposed):
        self.chance, self.part = chance, stream.Part()
        self.notes, self.chords, self.keys, self.tempi = [], [], [], []
        self.end = Fraction(0)
        # The note that the next one is tied to, and what is told of it.
        self.tied = None
        self.part.partName = f"Guitar {chance.randint(1, 9)}"
        player = instrument.Instrument(self.part.partName)
        if transposed:
            player.transposition = interval.Interval("M-2")
        self.part.insert(0, player)
        bars = measures(chance)
        first = 0 if bars[0][0] < whole(bars[0][1]) else 1
        before = None
        for number, (length, signature) in enumerate(bars, first):
            self.bar(number, length, signature, signature is not before)
            before = signature

    def bar(self, number, length, signature, is_new):
        measure = stream.Measure(number=number)
        missing = whole(signature) - length
        if missing:
            measure.paddingLeft = missing
        if is_new:
            measure.timeSignature = meter.TimeSignature(signature.ratioString)
        if is_new or self.chance.random() < 0.2:
            sharps, speed = self.chance.randint(-6, 6), self.chance.randint(40, 200)
            measure.insert(0, key.KeySignature(sharps))
            measure.insert(0, tempo.MetronomeMark(number=speed, referent=1))
            self.keys.append([str(self.end), sharps])
            self.tempi.append([str(self.end), float(speed)])
        if self.chance.random() < 0.7:
            symbol = harmony.ChordSymbol(self.chance.choice(ROOTS) + self.chance.choice(FIGURES))
            measure.insert(0, symbol)
            self.chords.append((self.end, symbol))
        into = Fraction(0)
        for duration in filled(self.chance, length):
            told = {
                "bar": str(number), "meter": signature.ratioString, "counted": missing + into,
                "onset": self.end + into, "duration": duration, "ties": [],
            }
            measure.insert(into, self.event(told))
            into += duration
        self.part.append(measure)
        self.end += length

    def event(self, told):
        """A note, a chord, a rest, or what the note before is tied to."""
        duration, kind = told["duration"], self.chance.random()
        if self.tied:
            return self.tied_note(told, goes_on=kind < 0.3)
        if kind < 0.15:
            return note.Rest(quarterLength=duration)
        if kind < 0.3:
            names = [a_name(self.chance) + octave for octave in "45"]
            self.notes += [{**told, "name": name, "ties": []} for name in names]
            return chord.Chord(names, quarterLength=duration)
        element = note.Note(a_name(self.chance) + "4", quarterLength=duration)
        self.notes.append({**told, "name": element.nameWithOctave})
        if kind > 0.85:
            element.tie = tie.Tie("start")
            self.tied = (element.pitch, self.notes[-1])
        return element

    def tied_note(self, told, goes_on):
        sounding_pitch, first = self.tied
        first["ties"].append(str(told["onset"]))
        first["duration"] += told["duration"]
        element = note.Note(sounding_pitch, quarterLength=told["duration"])
        element.tie = tie.Tie("continue" if goes_on else "stop")
        self.tied = self.tied if goes_on else None
        return element


def beat(meter_text, counted):
    """The beat that a foot taps, from 1, and what comes after it, in quarter notes."""
    units, kind = map(int, meter_text.split("/"))
    length = Fraction(4, kind) * (3 if units > 3 and units % 3 == 0 and kind >= 8 else 1)
    number, after = divmod(counted, length)
    return int(number) + 1, str(after)


def expected_note(told, transposed):
    name = told["name"]
    if transposed:
        name = interval.Interval("M-2").transposeNote(note.Note(name)).nameWithOctave
    number, after = beat(told["meter"], told["counted"])
    return {
        "onset": str(told["onset"]), "duration": str(told["duration"]), "name": ours(name),
        "ties": told["ties"], "is_grace": False, "bar": told["bar"], "beat": number,
        "after_beat": after, "meter": told["meter"],
    }


def expected_chord(at, symbol, transposed):
    if transposed:
        symbol = symbol.transpose("M-2")
    return str(at), ours(symbol.root().name), frozenset(p.pitchClass for p in symbol.pitches)


def found_chord(told):
    tones = told["tones"] or []
    return told["from"], told["root"], frozenset(pitch_of(name).pitchClass for name in tones)


def in_order(notes):
    return sorted(notes, key=lambda told: (Fraction(told["onset"]), told["name"]))


def compare_music_xml(printer, folder, number, chance):
    transposed = number % 3 == 0
    tune = Tune(chance, transposed)
    score = stream.Score([tune.part])
    score.metadata = metadata.Metadata(title=f"Score {number}")
    file = folder / f"{number}.musicxml"
    score.write("musicxml", fp=file, makeNotation=False)
    found = printed(printer, file)
    expected = [expected_note(told, transposed) for told in tune.notes]
    if transposed:
        # A written double accidental may need a third one where it sounds.
        for told in expected + found["notes"]:
            told["name"] = str(pitch_of(told["name"]).midi)
    what = f"score {number}: "
    count = 9 * compare(what + "notes", in_order(expected), in_order(found["notes"]))
    chords = [expected_chord(at, symbol, transposed) for at, symbol in tune.chords]
    count += 3 * compare(what + "chords", chords, [found_chord(told) for told in found["chords"]])
    count += compare(what + "keys", tune.keys, found["keys"])
    count += compare(what + "tempi", tune.tempi, found["tempi"])
    head = [score.metadata.title, tune.part.partName, str(tune.end)]
    return count + compare(what + "head", head, [found["title"], found["part"], found["end"]])


def compare_midi(printer, folder, number, chance):
    ticks = chance.choice([96, 480, 25, 960, 7])
    beats, unit = chance.choice([(4, 4), (3, 4), (6, 8), (5, 4), (12, 8)])
    speed = chance.randint(200_000, 1_500_000)
    conductor, track = mido.MidiTrack(), mido.MidiTrack()
    conductor.extend([
        mido.MetaMessage("track_name", name=f"Song {number}"),
        mido.MetaMessage("time_signature", numerator=beats, denominator=unit),
        mido.MetaMessage("set_tempo", tempo=speed),
    ])
    track.append(mido.MetaMessage("track_name", name="Bass"))
    expected, now = [], 0
    for _ in range(30):
        wait, length = chance.randint(0, ticks), chance.randint(1, 3 * ticks)
        midi = chance.randint(30, 80)
        track.append(mido.Message("note_on", note=midi, velocity=80, time=wait))
        track.append(mido.Message("note_off", note=midi, velocity=0, time=length))
        now += wait
        bar, into = divmod(Fraction(now, ticks), Fraction(4 * beats, unit))
        expected.append((
            str(Fraction(now, ticks)), str(Fraction(length, ticks)), midi, str(bar + 1),
            *beat(f"{beats}/{unit}", into),
        ))
        now += length
    file = folder / f"{number}.mid"
    mido.MidiFile(type=1, ticks_per_beat=ticks, tracks=[conductor, track]).save(file)
    found = printed(printer, file)
    heard = [
        (n["onset"], n["duration"], pitch_of(n["name"]).midi, n["bar"], n["beat"], n["after_beat"])
        for n in found["notes"]
    ]
    what = f"track {number}: "
    head = [f"Song {number}", "Bass", str(Fraction(now, ticks))]
    compare(what + "head", head, [found["title"], found["part"], found["end"]])
    (_, a_minute), = found["tempi"]
    if abs(a_minute * speed - 60_000_000) > 0.001:
        sys.exit(f"{what}tempo {a_minute} of {speed}")
    return 4 + 6 * compare(what + "notes", expected, heard)
