"""Read what `fretloom line` and `fretloom changes` write with programs that share nothing with it.

Lines of many kinds (chords, meters, rhythms, patterns, instruments, capos, keys) are written as
MusicXML and as MIDI, and printed as JSON, which says what must be found again. The schema of MusicXML
4.0 (from the package `musicxml`, of which no code runs) must accept every file; music21 and partitura find the same pitches, onsets, durations, strings,
frets and chords in MusicXML, mido and pretty_midi the same notes in MIDI.
"""

import importlib.metadata
import itertools
import json
import random
import subprocess
import warnings
from collections import Counter
from fractions import Fraction

import mido
import partitura
import pretty_midi
import xmlschema
from music21 import articulations, converter, harmony

CHORDS = [
    "Dm7",
    "Gmaj7#11",
    "| Dm7 | G7alt | Cmaj7 | % |",
    "| Ebm9 Ab13 | Dbmaj9/F | C7#9 | Fm11 |",
    "| F#m7b5 / B7b9 / | Em6 | A7sus4 | D6/9 |",
    "pickup=1 | G7 | Cm7 F7 | Bbmaj7 | N.C. |",
    "| Am7 | 3/4 D7 | 5/4 G | 6/8 Cmaj7#5 | 7/8 Cdim7 |",
    "| C7sus2 | Fm(maj7) | G13b9 | Abadd9 |",
]
METERS = ["4/4", "3/4", "6/8", "5/4", "7/8", "12/8"]
RHYTHMS = [None, "eighths", "triplets", "4. 8~2", "8 -8 >4", "16 16 8", "3:2(4 4 4)",
           "5:4(16 16 16 16 16)", "8. 16 4~16 -8.", "7:4(16 16 16 16 16 16 16)"]
PATTERNS = [None, "132 32", "1232 321 a", "(13) 2 3"]
INSTRUMENTS = [("guitar-standard", 0), ("guitar-standard", 2), ("guitar-7-string", 0),
               ("guitar-drop-d", 0), ("bass-4-string", 0), ("ukulele-high-g", 0),
               ("mandolin-standard", 0), ("banjo-open-g", 0), ("guitar-12-string", 3)]
FILES = 240
# Reading a file takes music21 and partitura half a second.
READ_EVERY = 6


def calls():
    """What is asked for: a choice of all there is, the same in every run."""
    chance = random.Random(12)
    everything = list(itertools.product(CHORDS, METERS, RHYTHMS, PATTERNS, INSTRUMENTS))
    for chords, meter, rhythm, pattern, (tuning, capo) in chance.sample(everything, FILES):
        call = ["line", chords, "--meter", meter, "--tuning", tuning, "--slurs", "--swing", "2:1"]
        call += ["--tempo", str(chance.choice([60, 92, 132.5, 210]))]
        call += ["--rhythm", rhythm] if rhythm else []
        call += ["--pattern", pattern] if pattern else []
        call += ["--capo", str(capo)] if capo else []
        call += ["--exercise"] if chance.random() < 0.5 else []
        yield call, capo


def of_charts(folder):
    """Lines and comping of the same chords as charts, each with its answer as that of a line."""
    for number, chords in enumerate(CHORDS):
        chart = folder / f"chart-{number}.txt"
        chart.write_text(chords)
        for tuning, capo in INSTRUMENTS[:3]:
            more = ["--tuning", tuning] + (["--capo", str(capo)] if capo else [])
            pick_up = "pickup" in chords
            yield ["line", "--chart", str(chart), *more], capo, pick_up
            yield ["changes", str(chart), "--comping", *more], capo, pick_up


def as_line(answer):
    """The comping of a chart in the words of a line."""
    if "comping" not in answer:
        return answer
    comping = answer["comping"]
    chords = [chord for bar in answer["bars"] for chord in bar["chords"] if not chord["goes_on"]]
    chords = [one for before, one in zip([None, *chords], chords)
              if before is None or before["symbol"] != one["symbol"]]
    notes = [
        {"onset": stab["onset"], "duration": stab["duration"], "midi": midi, "string": string, "fret": fret}
        for stab in comping["stabs"]
        for midi, string, fret in zip(stab["pitches"], stab["strings"], stab["frets"])
    ]
    return {"tempo": comping["tempo"], "bars": [bar["onset"] for bar in answer["bars"]],
            "chords": chords, "notes": notes}


def close(found, expected):
    return abs(float(found) - float(expected)) < 1e-4


def fail(call, what, expected, found):
    raise SystemExit(f"written: {what} of {call}:\n expected {expected}\n found    {found}")


def same_notes(call, what, expected, found):
    """Notes as (onset, duration, midi, …), in any order of those that begin together."""
    key = lambda one: (round(float(one[0]), 4), one[2], round(float(one[1]), 4))
    expected, found = sorted(expected, key=key), sorted(found, key=key)
    if len(expected) != len(found):
        fail(call, f"{what}, the number of notes", len(expected), len(found))
    for one, other in zip(expected, found):
        times = close(one[0], other[0]) and close(one[1], other[1])
        if not times or tuple(one[2:]) != tuple(other[2:]):
            fail(call, what, one, other)


def by_music21(call, path, answer, places, tones):
    score = converter.parse(path, format="musicxml", forceSource=True)
    staff, tab = score.parts
    for part, with_places in ((staff, False), (tab, True)):
        found, tied = [], {}
        for one in part.flatten().notes:
            if isinstance(one, harmony.Harmony):
                continue
            for inner in one.notes if one.isChord else [one]:
                midi, begins = inner.pitch.midi, Fraction(one.offset).limit_denominator(1000)
                ends = begins + Fraction(one.duration.quarterLength).limit_denominator(1000)
                kind = inner.tie.type if inner.tie else None
                at = (None, None)
                # Of a chord, music21 gives all strings and frets to the chord.
                if with_places and not one.isChord:
                    marks = one.articulations
                    at = (next(m.number for m in marks if isinstance(m, articulations.StringIndication)),
                          next(m.number for m in marks if isinstance(m, articulations.FretIndication)))
                # Its own way to join ties leaves those of chords that overlap others.
                before = tied.pop((midi, begins), None) if kind in ("stop", "continue") else None
                note_ = before or [begins, 0, midi, *at][: 5 if with_places else 3]
                note_[1] = ends - note_[0]
                if before is None:
                    found.append(note_)
                if kind in ("start", "continue"):
                    tied[midi, ends] = note_
        expected = [n if with_places else n[:3] for n in places]
        chords = Counter(n[0] for n in places)
        if with_places:
            expected = [n if chords[n[0]] == 1 else n[:3] + (None, None) for n in expected]
        same_notes(call, f"music21, {'tablature' if with_places else 'staff'}", expected, found)
    symbols = [
        (one.getOffsetInHierarchy(score), None if isinstance(one, harmony.NoChord)
         else frozenset(p.pitchClass for p in one.pitches))
        for one in score.recurse().getElementsByClass(harmony.Harmony)
    ]
    expected = [(c["onset"], tones(c["symbol"])) for c in answer["chords"]]
    if len(symbols) != len(expected):
        fail(call, "music21, chords", expected, symbols)
    for one, other in zip(expected, sorted(symbols, key=lambda s: s[0])):
        if not close(one[0], other[0]) or one[1] != other[1]:
            fail(call, "music21, chords", one, other)


def by_partitura(call, path, answer, places, has_pick_up):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        part = partitura.load_musicxml(path)[0]
    notes = part.note_array(include_staff=True)
    # It counts from the first whole bar.
    pick_up = answer["bars"][1] if has_pick_up else 0.0
    # It ties one pitch of a moment once, on the last staff that has it, which is the tablature.
    found = [(n["onset_quarter"] + pick_up, n["duration_quarter"], n["pitch"])
             for n in notes if n["staff"] == 2]
    same_notes(call, "partitura", [n[:3] for n in places], found)
    bars = [m.start.t for m in part.measures]
    if len(bars) < len(answer["bars"]):
        fail(call, "partitura, bars", len(answer["bars"]), len(bars))


def by_mido(call, path, answer, places):
    file = mido.MidiFile(path, charset="utf-8")
    if (file.type, len(file.tracks)) != (1, 4):
        fail(call, "mido, type and tracks", (1, 4), (file.type, len(file.tracks)))
    found, held, now = [], {}, 0
    for event in file.tracks[1]:
        now += event.time
        if event.type == "note_on" and event.velocity > 0:
            held.setdefault((event.channel, event.note), []).append(now)
        elif event.type in ("note_off", "note_on"):
            begun = held[event.channel, event.note].pop(0)
            ticks = file.ticks_per_beat
            found.append((Fraction(begun, ticks), Fraction(now - begun, ticks), event.note))
    same_notes(call, "mido", [n[:3] for n in places], found)
    now, marks, tempo, meters = 0, [], [], []
    for event in file.tracks[0]:
        now += event.time
        if event.type == "marker":
            marks.append((now / file.ticks_per_beat, event.text))
        elif event.type == "set_tempo":
            tempo.append(mido.tempo2bpm(event.tempo))
        elif event.type == "time_signature":
            meters.append((now / file.ticks_per_beat, Fraction(4 * event.numerator, event.denominator)))
    expected = [(c["onset"], c["symbol"]) for c in answer["chords"]]
    if marks != expected:
        fail(call, "mido, markers", expected, marks)
    if len(tempo) != 1 or abs(tempo[0] - answer["tempo"]) > 1e-3:
        fail(call, "mido, tempo", answer["tempo"], tempo)
    begins = []
    for (at, length), (until, _) in zip(meters, meters[1:] + [(answer["bars"][-1] + 0.01, 0)]):
        while at < until:
            begins.append(at)
            at += float(length)
    if [round(b, 4) for b in begins] != [round(b, 4) for b in answer["bars"]]:
        fail(call, "mido, bars", answer["bars"], begins)
    if {event.channel for event in file.tracks[3] if event.type == "note_on"} - {9}:
        fail(call, "mido, the channel of the click", 9, "another")


def by_pretty_midi(call, path, answer, places):
    file = pretty_midi.PrettyMIDI(path)
    quarter = 60 / answer["tempo"]
    line = [one for one in file.instruments if one.name not in ("Drone", "Click")]
    found = [(n.start / quarter, (n.end - n.start) / quarter, n.pitch) for i in line for n in i.notes]
    same_notes(call, "pretty_midi", [n[:3] for n in places], found)
    drums = {one.name for one in file.instruments if one.is_drum}
    if drums != {"Click"}:
        fail(call, "pretty_midi, drums", {"Click"}, drums)


def schema():
    files = importlib.metadata.files("musicxml") or []
    found = next(file for file in files if str(file).endswith("generate_classes/musicxml_4_0.xsd"))
    return xmlschema.XMLSchema(str(found.locate()), allow="local")


def compare(program, folder):
    """How many files were valid, and how many were read by the four readers."""
    valid, read, schema_4 = 0, 0, schema()
    known = {}

    def tones(symbol):
        """The pitch classes of a symbol with its bass, by fretloom, which music21 checks elsewhere."""
        if symbol == "N.C.":
            return None
        if symbol not in known:
            run = subprocess.run([program, "chord", symbol, "--json"], capture_output=True, text=True,
                                 check=True)
            chord = json.loads(run.stdout)["chord"]
            notes = chord["tones"] + ([chord["bass"]] if chord["bass"] else [])
            known[symbol] = frozenset(
                ("C_D_EF_G_A_B".index(n[0]) + n.count("#") - n.count("b")) % 12 for n in notes)
        return known[symbol]

    lines = [(call, capo, "pickup" in call[1]) for call, capo in calls()]
    charts = list(of_charts(folder))
    for number, (call, capo, has_pick_up) in enumerate(lines + charts):
        xml, midi = (str(folder / f"written-{number}.{kind}") for kind in ("musicxml", "mid"))
        run = subprocess.run([program, *call, "--json", "--musicxml", xml, "--midi", midi],
                             capture_output=True, text=True)
        if run.returncode != 0:
            continue
        answer = as_line(json.loads(run.stdout))
        error = next(schema_4.iter_errors(xml), None)
        if error is not None:
            raise SystemExit(f"written: {xml} of {call} is not valid: {error}")
        valid += 1
        if valid % READ_EVERY and number < len(lines):
            continue
        places = [(n["onset"], n["duration"], n["midi"], n["string"], n["fret"] - capo)
                  for n in answer["notes"]]
        by_music21(call, xml, answer, places, tones)
        by_partitura(call, xml, answer, places, has_pick_up)
        by_mido(call, midi, answer, places)
        by_pretty_midi(call, midi, answer, places)
        read += 1
    if valid < FILES // 2:
        raise SystemExit(f"written: only {valid} of {FILES} lines were made")
    return valid, read
