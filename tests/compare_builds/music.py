"""Files of notes, made by a rule: JSON, MIDI and MusicXML."""

import json
import random
import struct

STEPS = [("C", 0), ("C", 1), ("D", 0), ("E", -1), ("E", 0), ("F", 0),
         ("F", 1), ("G", 0), ("A", -1), ("A", 0), ("B", -1), ("B", 0)]
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'


def files() -> dict[str, bytes]:
    """All files by name; the same in every run."""
    rng = random.Random(20)
    made = {}
    for number in range(16):
        made[f"made-{number}.json"] = json_line(rng, number)
        made[f"made-{number}.mid"] = midi_line(rng, number)
        made[f"made-{number}.musicxml"] = xml_line(rng, number)
    return made


def melody(rng: random.Random, count: int, low: int, high: int) -> list[int]:
    """MIDI numbers that mostly go by step."""
    note, notes = (low + high) // 2, []
    for _ in range(count):
        note += rng.choice([-7, -4, -3, -2, -2, -1, 1, 2, 2, 3, 4, 5])
        note = min(max(note, low), high)
        notes.append(note)
    return notes


def json_line(rng: random.Random, number: int) -> bytes:
    """Our own form: in turn a plain line, chords, pins, and gaps."""
    notes, onset = [], 0.0
    for midi in melody(rng, rng.randint(3, 28), 45, 81):
        note = {"onset_s": round(onset, 3), "duration_s": 0.2, "midi": midi}
        if number % 4 == 2 and rng.random() < 0.2:
            note["string"] = rng.randint(1, 6)
        notes.append(note)
        if number % 4 == 1 and rng.random() < 0.3:
            notes.append(dict(note, midi=min(midi + rng.choice([3, 4, 5]), 84)))
        onset += rng.choice([0.125, 0.25, 0.25, 0.5] + ([1.5] if number % 4 == 3 else []))
    return json.dumps({"title": f"made {number}", "notes": notes}).encode()


def quantity(value: int) -> bytes:
    """A length as MIDI files write it: seven bits a byte, the highest first."""
    out = [value & 0x7F]
    while value := value >> 7:
        out.append(0x80 | (value & 0x7F))
    return bytes(reversed(out))


def chunk(kind: bytes, content: bytes) -> bytes:
    return kind + struct.pack(">I", len(content)) + content


def midi_line(rng: random.Random, number: int) -> bytes:
    """Formats 0 and 1, tempo and meter changes, running status, chords; every fourth in frames."""
    ticks = [96, 480, 960, 220][number % 4]
    division = struct.pack(">H", ticks)
    if number % 8 == 7:
        division = bytes([256 - 25, 40])
    conductor = b"\x00\xff\x03\x04made" + b"\x00\xff\x51\x03" + (500_000).to_bytes(3, "big")
    meter = rng.choice([(4, 2), (3, 2), (6, 3), (7, 3)])
    conductor += b"\x00\xff\x58\x04" + bytes([meter[0], meter[1], 24, 8])
    if number % 2:
        slower = rng.choice([300_000, 666_667, 1_000_000])
        conductor += quantity(ticks * 4) + b"\xff\x51\x03" + slower.to_bytes(3, "big")
    events, rest = b"", 0
    for midi in melody(rng, rng.randint(3, 30), 43, 80):
        length = max(1, ticks * rng.choice([1, 2, 2, 4]) // rng.choice([2, 3, 4]))
        chord = [midi] + ([midi + 4] if rng.random() < 0.15 else [])
        for index, key in enumerate(chord):
            events += quantity(rest if index == 0 else 0)
            events += (b"\x90" if not number % 3 else bytes([0x90 | number % 10])) + bytes([key, 80])
        for index, key in enumerate(chord):
            events += quantity(length if index == 0 else 0)
            # A note-on without strength ends a note.
            events += bytes([0x90 if not number % 3 else 0x90 | number % 10, key, 0])
        rest = rng.choice([0, 0, 0, ticks // 2])
    end = b"\x00\xff\x2f\x00"
    if number % 4 == 0:
        head = chunk(b"MThd", struct.pack(">HH", 0, 1) + division)
        return head + chunk(b"MTrk", conductor + events + end)
    tracks = [conductor + end, events + end]
    if number % 4 == 3:
        tracks.append(b"\x00\x90\x3c\x50\x60\x80\x3c\x00" + end)
    head = chunk(b"MThd", struct.pack(">HH", 1, len(tracks)) + division)
    return head + b"".join(chunk(b"MTrk", track) for track in tracks)


def xml_note(rng: random.Random, midi: int, duration: int, extra: str, notations: str) -> str:
    step, alter = STEPS[midi % 12]
    alter = f"<alter>{alter}</alter>" if alter else ""
    pitch = f"<pitch><step>{step}</step>{alter}<octave>{midi // 12 - 1}</octave></pitch>"
    if rng.random() < 0.1:
        pitch = "<rest/>"
    voice = "<voice>1</voice>"
    return f"<note>{extra}{pitch}<duration>{duration}</duration>{voice}{notations}</note>"


def xml_measure(rng: random.Random, number: int, measure: int) -> str:
    """A bar of eighths: with chords, triplets, ties, frets, tempo, harmony and another voice."""
    out = [f'<measure number="{measure}">']
    if measure == 1:
        key = f"<key><fifths>{rng.randint(-4, 4)}</fifths></key>"
        octave = "<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>"
        out.append("<attributes><divisions>12</divisions>" + key
                   + "<time><beats>4</beats><beat-type>4</beat-type></time>"
                   + (octave if number % 3 == 0 else "") + "</attributes>")
    if measure == 1 or number % 5 == measure:
        out.append(f'<direction><sound tempo="{rng.choice([60, 96, 120, 183.5])}"/></direction>')
    out.append("<harmony><root><root-step>D</root-step></root><kind>minor-seventh</kind></harmony>")
    low, high = (57, 84) if number % 3 == 0 else (45, 76)
    duration = 4 if number % 4 == 1 else 6
    for index, midi in enumerate(melody(rng, 12 if duration == 4 else 8, low, high)):
        ties = '<tie type="start"/>' if number % 4 == 2 and index == 7 else ""
        pin = ""
        if number % 4 == 3 and rng.random() < 0.2:
            pin = "<notations><technical><string>2</string></technical></notations>"
        out.append(xml_note(rng, midi, duration, "", ties + pin))
        if number % 5 == 4 and rng.random() < 0.2:
            out.append(xml_note(rng, midi - 5, duration, "<chord/>", ""))
    if number % 7 == 6:
        out.append("<backup><duration>48</duration></backup>")
        out.append("<forward><duration>24</duration></forward>")
        out.append(xml_note(rng, 50, 24, "", ""))
    out.append("</measure>")
    return "".join(out)


def xml_line(rng: random.Random, number: int) -> bytes:
    parts = ["P1", "P2"] if number % 4 == 0 else ["P1"]
    names = "".join(f'<score-part id="{p}"><part-name>{p}</part-name></score-part>' for p in parts)
    out = [HEAD, f'<score-partwise version="4.0"><part-list>{names}</part-list>']
    for part in parts:
        bars = range(1, rng.randint(2, 5))
        measures = "".join(xml_measure(rng, number, measure) for measure in bars)
        out.append(f'<part id="{part}">{measures}</part>')
    return "".join([*out, "</score-partwise>"]).encode()
