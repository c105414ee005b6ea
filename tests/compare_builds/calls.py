"""The calls: every command, good and bad input, text and JSON, made by a rule."""

import random
import shlex
from pathlib import Path
from typing import NamedTuple

import music

ROOT = Path(__file__).resolve().parents[2]


class Call(NamedTuple):
    """One call of the program."""

    arguments: tuple[str, ...]
    # Files in the folder where it is called, by name; those of `config/` are the player's own.
    files: tuple[tuple[str, bytes], ...] = ()
    typed: bytes = b""
    environment: tuple[tuple[str, str], ...] = ()

    def line(self) -> str:
        """As a shell would take it."""
        named = [f"{name}={value}" for name, value in self.environment]
        files = f"   (files: {', '.join(name for name, _ in self.files)})" if self.files else ""
        typed = f"   (typed: {self.typed[:40]!r})" if self.typed else ""
        return " ".join([*named, "fretloom", shlex.join(self.arguments)]) + files + typed


COMMANDS = ["pairs", "scales", "triads", "chord", "shapes", "ladder", "neck", "finger", "tunings",
            "check", "settings", "completions", "manual"]
ROOTS = ["C", "C#", "Db", "D", "D#", "Eb", "E", "F", "F#", "Gb", "G", "G#", "Ab", "A", "A#", "Bb",
         "B", "Cb", "B#", "E#", "Fb"]
EVERYDAY = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]
QUALITIES = ["", "m", "7", "maj7", "m7", "m7b5", "dim7", "dim", "aug", "+", "6", "m6", "6/9", "9",
             "m9", "maj9", "11", "m11", "13", "m13", "maj13", "7b9", "7#9", "7b5", "7#5", "7alt",
             "7#11", "maj7#11", "maj7#5", "mMaj7", "sus4", "sus2", "7sus4", "9sus4", "13sus4",
             "7b9b13", "7#9#5", "13b9", "13#11", "add9", "madd9", "5", "°", "ø", "Δ", "-7", "^7",
             "7(b9,#11)", "7sus4b9", "maj9#11", "m7b5/Eb", "/E", "7/Bb", "m/G", "maj7no3", "7omit5"]
BAD_CHORDS = ["", "H7", "c", "Cmaj7#", "C7(b9", "Cxyz", "C7b9#9b9", "7", "C/H", "Cm7b", "C13b", "N.C.",
              "C" * 90, "漢", "C7/", "Cmaj7maj7", "C7#", "Dm7 G7"]
KINDS = ["major", "Dorian", "Phrygian", "Lydian", "Mixolydian", "Aeolian", "Locrian", "minor",
         "melodic minor", "Dorian b2", "Lydian augmented", "Lydian dominant", "Mixolydian b6",
         "Locrian natural 2", "altered", "harmonic minor", "Locrian natural 6", "Ionian #5",
         "Dorian #4", "Phrygian dominant", "Lydian #2", "altered bb7", "harmonic major",
         "Dorian b5", "Phrygian b4", "Lydian b3", "Mixolydian b2", "Lydian augmented #2",
         "Locrian bb7", "whole tone", "half-whole diminished", "whole-half diminished",
         "augmented", "augmented inverse", "tritone", "major blues", "minor blues",
         "bebop dominant", "bebop major", "bebop dorian", "bebop melodic minor",
         "major pentatonic", "minor pentatonic", "double harmonic", "Hungarian minor",
         "Neapolitan major", "Neapolitan minor", "Prometheus", "chromatic"]
TYPED_SCALES = ["C D Eb F G A Bb", "C: 1 2 b3 4 5 6 b7", "G A B C# D E F#", "A: 1 b2 3 #4 5 b7",
                "E F G# A B C D#", "1 2 3 5 6"]
BAD_SCALES = ["", "C", "C Dorain", "H major", "C D", "C: 1 2 9x", "C: 2 3 4", "Dorian C",
              "C C D D", "C Lydian dominantt", "C D E F G A B c"]
TRIADS = ["", "m", "dim", "+", "sus4", "sus2", "b5", "maj", "min", "°", "aug"]
BAD_TRIADS = ["", "H", "Gx", "Gm7", "g", "G/B", "G##", "Gbb", "Gbbb"]
TUNINGS = ["E A D G B E", "D A D G A D", "EADGBE", "E2 A2 D3 G3 B3 E4", "G4 C4 E4 A4", "DADGAD",
           "B E A D G B E", "E A D G", "G D A E", "Eb Ab Db Gb Bb Eb"]
BAD_TUNINGS = ["", "gitar", "E A", "E A D G B H", "E2 A D3", "guitar-standart",
               "E A D G B E A D G B E A D"]
DEGREES = ["1", "b9", "9", "#9", "b3", "3", "4", "11", "#11", "b5", "5", "#5", "b13", "6", "13",
           "b7", "7"]
BAD_DEGREES = ["8", "b1", "x", "3,,5", "14", "#3"]
FAMILIES = ["tertian", "sus", "flat-five", "all", "major", "minor", "diminished", "augmented",
            "tertian,sus", "major,minor", "tertian,flat-five"]
SETS = ["3-2-1", "4-3-2", "5-4-3", "6-5-4"]
ODD_SETS = ["5-3-1", "2-1", "3", "6-4-3", "1-2-3", "4-3-2-1", "6-5-4-3-2-1"]
BAD_SETS = ["", "9-8-7", "a", "3-3-2", "3-2", "0-1-2"]
SHELLS = ["bash", "elvish", "fish", "powershell", "zsh"]


def all_calls(wanted: int) -> list[Call]:
    """The calls that are always made, and then others by a rule, until there are so many."""
    calls = [*usage(), *mistakes(), *lines(), *own_files(), *corpus(), *each_tuning(), *symbols(),
             *each_scale(), *pages()]
    seen, unique = set(), []
    for call in calls:
        if call not in seen:
            seen.add(call)
            unique.append(call)
    rng = random.Random(1)
    # Fewer are asked for only while something is tried out: then some of every sort.
    if wanted < len(unique):
        return rng.sample(unique, wanted)
    while len(unique) < wanted:
        call = made(rng)
        if call not in seen:
            seen.add(call)
            unique.append(call)
    return unique


def call(*arguments: str, **more) -> Call:
    return Call(tuple(arguments), **more)


def usage() -> list[Call]:
    """Help, versions, and use that is wrong."""
    calls = [call(*words) for words in [
        ["--help"], ["-h"], ["--version"], ["-V"], ["help"], ["--json"], [], ["Gmaj7"], ["--nope"],
        ["pears", "C7"], ["help", "pairs"], ["help", "nope"], ["tunings", "help", "compare"],
        ["--tuning"], ["--theme", "nope"], ["--pedal", "x"], ["--mouse=maybe"], ["--fresh=1"],
        ["Dm7", "--tuning", "nope"], ["Hm7"], ["Gmaj7", "#11", "x"], ["--capo", "99"],
    ]]
    for command in COMMANDS:
        calls += [call(command, "--help"), call(command, "-h"), call("help", command),
                  call(command), call(command, "--json"), call(command, "--nope"),
                  call(command, "a", "b", "c"), call(command, "--ascii=maybe", "C"),
                  call(command, "--capo", "x", "C"), call(command, "--spelling", "free", "C")]
    return calls


def mistakes() -> list[Call]:
    """Those of tests/bad: as they are, as JSON and in ASCII."""
    calls = []
    for file in sorted((ROOT / "tests/bad").glob("*.txt")):
        arguments = file.read_text().split("\n\n")[0].split("\n")
        calls += [call(*arguments), call(*arguments, "--json"), call(*arguments, "--ascii")]
    return calls


def lines_of(folder: str) -> list[tuple[str, bytes]]:
    files = sorted((ROOT / folder).rglob("*"))
    kinds = {".json", ".mid", ".xml", ".mxl", ".md", ".musicxml"}
    return [(file.name, file.read_bytes()) for file in files if file.suffix in kinds]


def line_files() -> list[tuple[str, bytes]]:
    """Every file of notes: ours, the wrong ones, those of the fuzzers, and made ones."""
    folders = ["assets/lines", "tests/bad/lines", "tests/fuzz/corpus"]
    given = [file for folder in folders for file in lines_of(folder)]
    return given + sorted(music.files().items())


FINGER_OPTIONS = [
    ["--strings", "4-3-2-1"], ["--strings", "2-1"], ["--frets", "5-12"], ["--no-open"],
    ["--reach", "90"], ["--reach", "160"], ["--position", "V"], ["--position", "7"],
    ["--home", "9"], ["--like-open"], ["--track", "1"], ["--track", "2"], ["--part", "P2"],
    ["--part", "1"], ["--no-pins"], ["--capo", "2"], ["--tuning", "guitar-dadgad"],
    ["--tuning", "bass-5-string"], ["--tuning", "ukulele-high-g"], ["--tuning", "mandolin-standard"],
    ["--ways", "1"], ["--ways", "7"], ["--ways", "0"], ["--ways", "x"], ["--spelling", "strict"],
    ["--ascii"], ["--tuning", "guitar-7-string"], ["--strings", "9"], ["--frets", "12-5"],
]


def lines() -> list[Call]:
    """`finger` with every file, each time with a few more of the options."""
    calls = []
    for index, (name, content) in enumerate(line_files()):
        files = ((name, content),)
        calls += [call("finger", name, files=files), call("finger", name, "--json", files=files),
                  call("finger", "-", typed=content)]
        for option in FINGER_OPTIONS[index % 7::7]:
            form = ["--json"] if len(calls) % 2 else []
            calls.append(call("finger", name, *option, *form, files=files))
    return [*calls, call("finger", "not-there.json"), call("finger", ".")]


OWN_NAMES = {"settings": "settings.toml", "keys": "keys.toml", "scales": "scales.toml",
             "patterns": "patterns.toml"}


def own_file(file: Path) -> tuple[str, bytes]:
    """A file of tests/bad where a player would have it."""
    kind = file.parent.name
    return f"config/{OWN_NAMES.get(kind, f'{kind}/{file.name}')}", file.read_bytes()


GOOD_SETTINGS = [
    'theme = "dark"\nlabels = "degree"\n', 'spelling = "strict"\nascii = "always"\n',
    'tuning = "D A D G A D"\nreach_mm = 90\n', 'families = "all"\nleft_handed = true\n',
    'upside_down = true\nfret_widths = "true"\npedal = "f12"\nfresh = true\nmouse = false\n',
    'tuning = "mine"\ntheme = "mine"\n',
]
OWN_TUNING = ('name = "Mine"\ninstrument = "guitar"\nstrings = ["E2", "A2", "D3", "G3"]\n'
              'frets = 19\nscale_mm = 648\n')
OWN_SCALES = '"six bright notes" = "1 2 3 5 6 7"\n"eight" = "1 2 b3 3 4 5 6 b7"\n'


def own_files() -> list[Call]:
    """A player's own files, wrong and right, and what commands then say."""
    checked = [["check"], ["check", "--json"], ["settings"]]
    asked = [["settings", "--json"], ["tunings"], ["pairs", "Dm7"], ["neck", "G7", "--json"],
             ["neck", "G7"], ["scales", "C7"], ["--help"], ["shapes", "G"]]
    calls = []
    for kind in ["settings", "keys", "themes", "tunings", "scales", "patterns"]:
        for index, file in enumerate(sorted((ROOT / "tests/bad" / kind).glob("*.toml"))):
            words = [*checked, asked[index % 8], asked[(index + 3) % 8]]
            calls += [call(*words, files=(own_file(file),)) for words in words]
    extra = [["triads", "C six bright notes"], ["pairs", "C7", "--scale", "eight"],
             ["pairs", "--scale", "G eight"], ["tunings", "--json"], ["shapes", "G", "--tuning", "mine"],
             ["pairs", "--help"], ["neck", "--help"], ["manual", "neck"]]
    for settings in GOOD_SETTINGS:
        files = (("config/settings.toml", settings.encode()),
                 ("config/scales.toml", OWN_SCALES.encode()),
                 ("config/themes/mine.toml", b'first = "green"\n'),
                 ("config/tunings/mine.toml", OWN_TUNING.encode()))
        calls += [call(*words, files=files) for words in checked + asked + extra]
    for name in ["key.toml", "setings.toml", "theme/dark.toml", "README.md"]:
        calls.append(call("check", files=((f"config/{name}", b""),)))
    for words in ["--sample", "--write"]:
        for kind in ["", "=settings", "=keys", "=theme", "=nope"]:
            calls.append(call("settings", words + kind))
            there = (("config/settings.toml", b'theme = "dark"\n'),)
            calls.append(call("settings", words + kind, files=there))
    return calls


def corpus() -> list[Call]:
    """What the fuzzers begin with: chord symbols and tunings."""
    calls = []
    folder = ROOT / "tests/fuzz/corpus"
    for file in sorted((folder / "chord_symbol").iterdir()):
        symbol = file.read_text(errors="replace").replace("\0", "")
        for command in ["chord", "pairs", "scales", "neck"]:
            calls += [call(command, symbol), call(command, symbol, "--json")]
    for file in sorted((folder / "tuning_text").iterdir()):
        tuning = file.read_text(errors="replace").replace("\0", "")
        calls += [call("shapes", "G", "--tuning", tuning), call("neck", "Dm7", "--tuning", tuning)]
    for file in sorted((folder / "toml_tuning").iterdir()):
        files = ((f"config/tunings/{file.name}", file.read_bytes()),)
        calls += [call("check", files=files), call("tunings", files=files),
                  call("shapes", "Em", "--tuning", file.stem, files=files)]
    return calls


def tuning_ids() -> list[str]:
    return sorted(file.stem for file in (ROOT / "tunings").glob("*.toml"))


def each_tuning() -> list[Call]:
    calls = [call("tunings", "--ascii")]
    for index, tuning in enumerate(tuning_ids()):
        chord = EVERYDAY[index % 12] + QUALITIES[index % len(QUALITIES)]
        calls += [
            call("shapes", EVERYDAY[index % 12], "--tuning", tuning, "--json"),
            call("shapes", "Am", "--tuning", tuning, "--skips", "--voicing", "both"),
            call("ladder", "F", "G", "--tuning", tuning),
            call("ladder", "Eb", "Dm", "--tuning", tuning, "--across-sets", "--json"),
            call("neck", chord, "--tuning", tuning),
            call("neck", "Gmaj7#11", "--tuning", tuning, "--view", "across", "--json"),
            call("neck", "Gmaj7#11", "--tuning", tuning, "--view", "two"),
            call("neck", "Dm7", "--tuning", tuning, "--view", "position", "--position", "V"),
            call("tunings", "compare", "guitar-standard", tuning),
            call("tunings", "compare", tuning, "guitar-dadgad", "--pair", "F & G", "--json"),
        ]
    return calls


def symbols() -> list[Call]:
    """Chord symbols: each quality by itself, all of them in one file."""
    calls = []
    for index, quality in enumerate(QUALITIES):
        root = EVERYDAY[index * 5 % 12]
        calls += [call("chord", root + quality), call("chord", root + quality, "--json"),
                  call("scales", root + quality), call("scales", root + quality, "--json"),
                  call("pairs", root + quality), call("pairs", root + quality, "--json")]
    for bad in BAD_CHORDS:
        calls += [call(command, bad) for command in ["chord", "scales", "pairs", "neck"]]
        calls.append(call("chord", bad, "--json"))
    every = "\n".join(root + quality for root in ROOTS for quality in QUALITIES)
    every += "\n" + "\n".join(BAD_CHORDS)
    for options in [[], ["--json"], ["--ascii"]]:
        calls.append(call("chord", "--file", "-", *options, typed=every.encode()))
        calls.append(call("chord", "--file", "all.txt", *options, files=(("all.txt", every.encode()),)))
    return [*calls, call("chord", "--file", "not-there.txt"), call("chord", "C", "--file", "-")]


def each_scale() -> list[Call]:
    calls = []
    for index, kind in enumerate(KINDS):
        scale = f"{EVERYDAY[index * 7 % 12]} {kind}"
        calls += [call("triads", scale), call("triads", scale, "--json", "--spelling", "strict"),
                  call("pairs", "--scale", scale), call("pairs", "--scale", scale, "--json"),
                  call("neck", "--scale", scale)]
    for scale in TYPED_SCALES + BAD_SCALES:
        calls += [call("triads", scale), call("triads", scale, "--json"),
                  call("pairs", "--scale", scale), call("pairs", "C7", "--scale", scale)]
    for family in FAMILIES:
        calls += [call("pairs", "--all", "--families", family),
                  call("pairs", "--all", "--families", family, "--json")]
    return calls


def pages() -> list[Call]:
    calls = [call("completions", shell) for shell in [*SHELLS, "sh"]]
    calls += [call("manual", command) for command in [*COMMANDS, "compare", "nope"]]
    for locale in ["C", "en_US.ISO-8859-1", "de_DE.UTF-8"]:
        for words in [["pairs", "Gmaj7#11"], ["neck", "Gmaj7#11"], ["shapes", "Eb"], ["chord", "B°"]]:
            calls.append(call(*words, environment=(("LANG", locale),)))
            calls.append(call(*words, "--ascii=never", environment=(("LC_ALL", locale),)))
    return calls


def made(rng: random.Random) -> Call:
    """One more call."""
    command = rng.choice([made_pairs, made_pairs, made_scales, made_triads, made_shapes,
                          made_shapes, made_ladder, made_neck, made_neck, made_neck, made_finger,
                          made_compare])
    arguments, files = command(rng)
    arguments += common(rng)
    return Call(tuple(arguments), tuple(files))


def mostly(rng: random.Random, good: list[str], bad: list[str]) -> str:
    return rng.choice(bad) if rng.random() < 0.04 else rng.choice(good)


def chord(rng: random.Random) -> str:
    good = rng.choice(EVERYDAY if rng.random() < 0.8 else ROOTS) + rng.choice(QUALITIES)
    return mostly(rng, [good], BAD_CHORDS)


def scale(rng: random.Random) -> str:
    good = f"{rng.choice(EVERYDAY)} {rng.choice(KINDS)}"
    return mostly(rng, [good, good, rng.choice(TYPED_SCALES), rng.choice(KINDS)], BAD_SCALES)


def triad(rng: random.Random) -> str:
    return mostly(rng, [rng.choice(EVERYDAY) + rng.choice(TRIADS)], BAD_TRIADS)


def tuning(rng: random.Random) -> str:
    return mostly(rng, [rng.choice(tuning_ids()), rng.choice(TUNINGS)], BAD_TUNINGS)


def maybe(rng: random.Random, chance: float, *words: str) -> list[str]:
    return list(words) if rng.random() < chance else []


def frets(rng: random.Random) -> str:
    low = rng.randint(0, 14)
    return mostly(rng, [f"{low}-{low + rng.randint(2, 10)}"], ["9-3", "x", "0-99", "5"])


def common(rng: random.Random) -> list[str]:
    capo = mostly(rng, ["1", "2", "3", "5"], ["40", "x", "-1", "22"])
    words = maybe(rng, 0.12, f"--capo={capo}")
    if words:
        words += maybe(rng, 0.3, "--capo-strings", mostly(rng, ["5-4-3", "4-3-2-1"], ["9", "x"]))
    words += maybe(rng, 0.25, "--tuning", tuning(rng))
    words += maybe(rng, 0.15, "--spelling", "strict")
    words += maybe(rng, 0.12, rng.choice(["--ascii", "--ascii=never", "--ascii=auto"]))
    return words + maybe(rng, 0.4, "--json")


def wishes(rng: random.Random) -> list[str]:
    def degrees() -> str:
        return mostly(rng, [",".join(rng.sample(DEGREES, rng.randint(1, 2)))], BAD_DEGREES)

    words = maybe(rng, 0.25, f"--with={degrees()}") + maybe(rng, 0.2, f"--without={degrees()}")
    return words + maybe(rng, 0.3, "--families", mostly(rng, FAMILIES, ["", "nope"]))


def made_pairs(rng):
    words = ["pairs"] + maybe(rng, 0.9, chord(rng)) + maybe(rng, 0.3, "--scale", scale(rng))
    pair = f"{triad(rng)} & {triad(rng)}"
    return words + maybe(rng, 0.15, "--pair", pair) + wishes(rng), []


def made_scales(rng):
    words = ["scales", chord(rng)]
    words += maybe(rng, 0.3, "--before", " ".join(chord(rng) for _ in range(rng.randint(1, 2))))
    words += maybe(rng, 0.4, "--after", " ".join(chord(rng) for _ in range(rng.randint(1, 2))))
    key = mostly(rng, ["Bb", "D minor", "F#", "C major", "A minor"], ["H", "C Dorian", ""])
    return words + maybe(rng, 0.3, "--key", key), []


def made_triads(rng):
    return ["triads", scale(rng)], []


def hand(rng):
    words = maybe(rng, 0.15, "--reach", mostly(rng, ["90", "110", "150", "200"], ["20", "x"]))
    return words + maybe(rng, 0.3, "--frets", frets(rng)) + maybe(rng, 0.2, "--no-open")


def made_shapes(rng):
    words = ["shapes", triad(rng)]
    words += maybe(rng, 0.4, "--strings", mostly(rng, SETS + ODD_SETS, BAD_SETS))
    words += maybe(rng, 0.2, "--skips")
    words += maybe(rng, 0.4, "--voicing", mostly(rng, ["close", "open", "both"], ["wide"]))
    words += maybe(rng, 0.2, "--arpeggio", mostly(rng, ["2", "3"], ["1", "4"]))
    words += maybe(rng, 0.3, "--inversion", mostly(rng, ["root", "first", "second"], ["third"]))
    return words + maybe(rng, 0.2, "--span", mostly(rng, ["60", "100"], ["x"])) + hand(rng), []


def made_ladder(rng):
    words = ["ladder", triad(rng), triad(rng)]
    words += maybe(rng, 0.6, "--strings", mostly(rng, SETS * 2 + ODD_SETS, BAD_SETS))
    return words + maybe(rng, 0.3, "--across-sets") + hand(rng), []


def view(rng):
    kind = mostly(rng, ["position", "set", "across", "two"], ["all"])
    words = ["--view", kind]
    position = mostly(rng, ["V", "5", "I", "XII", "2", "9"], ["0", "XL", "x"])
    words += maybe(rng, 0.9 if kind == "position" else 0.15, "--position", position)
    strings = mostly(rng, SETS * 2 + ODD_SETS, BAD_SETS)
    words += maybe(rng, {"set": 0.9, "two": 0.4}.get(kind, 0.05), "--strings", strings)
    words += maybe(rng, 0.3 if kind == "position" else 0.02, "--open")
    choice = mostly(rng, ["1", "2", "3", "5"], ["0", "99", "x"])
    words += maybe(rng, 0.4 if kind in ["across", "two"] else 0.03, "--choice", choice)
    words += maybe(rng, 0.3 if kind == "across" else 0.02, "--overlap", rng.choice(["yes", "no"]))
    inversions = mostly(rng, ["root,any", "any,first", "second,root", "root"], ["x,y"])
    return words + maybe(rng, 0.3 if kind == "across" else 0.02, "--inversions", inversions)


def made_neck(rng):
    words = ["neck"] + maybe(rng, 0.92, chord(rng)) + maybe(rng, 0.2, "--scale", scale(rng))
    pair = mostly(rng, ["1", "2", "3", "7", f"{triad(rng)} & {triad(rng)}"], ["0", "999", "F"])
    words += maybe(rng, 0.4, "--pair", pair) + wishes(rng) + maybe(rng, 0.3, "--frets", frets(rng))
    labels = mostly(rng, ["note", "degree", "member", "finger", "order"], ["name"])
    words += maybe(rng, 0.5, "--labels", labels)
    words += maybe(rng, 0.2, rng.choice(["--left-handed", "--left-handed=true", "--left-handed=false"]))
    words += maybe(rng, 0.15, rng.choice(["--upside-down", "--upside-down=false"]))
    words += maybe(rng, 0.2, "--fret-widths", mostly(rng, ["even", "true"], ["odd"]))
    if rng.random() < 0.6:
        words += view(rng)
    return words + maybe(rng, 0.1, "--reach", "140"), []


LINES = [file for file in line_files() if file[0].startswith("made") or file[0] == "f-and-g.json"]


def made_finger(rng):
    name, content = rng.choice(LINES)
    words = ["finger", name]
    for option in rng.sample(FINGER_OPTIONS, rng.randint(1, 3)):
        # What every command takes is added to all of them.
        if option[0] not in [*words, "--capo", "--tuning", "--spelling", "--ascii"]:
            words += option
    return words, [(name, content)]


def made_compare(rng):
    words = ["tunings", "compare", tuning(rng), tuning(rng)]
    return words + maybe(rng, 0.4, "--pair", f"{triad(rng)} & {triad(rng)}"), []
