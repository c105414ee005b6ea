"""Key scripts: what a player types and points at, in windows of several sizes, made by a rule."""

import random
from typing import NamedTuple


class Size(NamedTuple):
    """A window in cells."""

    columns: int
    rows: int

    @staticmethod
    def read(text: str) -> "Size":
        """From `80x24`."""
        columns, rows = text.split("x")
        return Size(int(columns), int(rows))

    def __str__(self) -> str:
        return f"{self.columns}x{self.rows}"


class Start(NamedTuple):
    """One start of the program and what is done in it.

    A step is a key (`down`, `ctrl-c`, `S`), `click:COLUMN,ROW`, `wheel-up:…`, `wheel-down:…` (from
    1), `paste:TEXT` or `size:80x24`.
    """

    steps: tuple[str, ...]
    arguments: tuple[str, ...] = ()
    environment: tuple[tuple[str, str], ...] = ()


class Script(NamedTuple):
    """Starts one after another, which share a home; the session goes from one to the next."""

    name: str
    size: Size
    starts: tuple[Start, ...]
    files: tuple[tuple[str, bytes], ...] = ()


SIZES = [Size(80, 24), Size(120, 40), Size(200, 55)]
NAMED = {"enter": "\r", "esc": "\x1b", "tab": "\t", "backtab": "\x1b[Z", "backspace": "\x7f",
         "delete": "\x1b[3~", "up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D",
         "home": "\x1b[H", "end": "\x1b[F", "pageup": "\x1b[5~", "pagedown": "\x1b[6~",
         "space": " ", "f1": "\x1bOP", "f12": "\x1b[24~", "alt-left": "\x1b[1;3D",
         "alt-right": "\x1b[1;3C", "shift-left": "\x1b[1;2D", "alt-x": "\x1bx"}
MOUSE = {"click": 0, "wheel-up": 64, "wheel-down": 65}


def written(step: str) -> bytes:
    """The bytes that a terminal sends for a step."""
    kind, colon, rest = step.partition(":")
    if colon and kind in MOUSE:
        column, row = rest.split(",")
        button = MOUSE[kind]
        release = f"\x1b[<{button};{column};{row}m" if kind == "click" else ""
        return f"\x1b[<{button};{column};{row}M{release}".encode()
    if colon and kind == "paste":
        return f"\x1b[200~{rest}\x1b[201~".encode()
    if step in NAMED:
        return NAMED[step].encode()
    if step.startswith("ctrl-"):
        return bytes([ord(step[-1]) & 0x1F])
    if len(step) != 1:
        raise ValueError(f"no such key: {step}")
    return step.encode()


def keys(text: str) -> tuple[str, ...]:
    """Steps with spaces between them; what stands in single quotes is typed sign by sign."""
    steps: list[str] = []
    for index, part in enumerate(text.split("'")):
        if index % 2:
            steps += ["space" if sign == " " else sign for sign in part]
        else:
            steps += part.split()
    return tuple(steps)


# By topic; each ends the program. Every command of the table of keys is somewhere among them.
BY_HAND = {
    "pairs": "down j down up k m m s s S e down enter down down m f f down f f z z Z q",
    "chords": "c 'C7alt' enter down c 'Dm7' tab enter c 'Hm7' enter esc c 'Bbma' tab tab enter "
              "c backspace backspace left left 'x' delete home 'G' end esc < < > > alt-left "
              "alt-right enter 'A7' enter c ctrl-c",
    "wishes": "w '7,-1' enter down w backspace backspace enter w 'x' enter esc w '#11 -13' enter "
              "f w '9' tab tab enter z z Z Z w 'b9' esc q",
    "ladder": "space space u u d backspace 1 2 a b 1 1 t space t T l space space space space l o "
              "o h h o h 8 space space space space space space d d d d d d d d q",
    "views": "v x x X v x x x v x x X X v x x space space d v n n n n V V l v v v h o right 8 q",
    "neck": "n n n n n p c 'A7alt' enter down p right right . left , end 9 home 0 end 8 r right y "
            "W W L L r y n end right right left space 8 q",
    "capo": "i i i space I + - v i i I i i i i i i i i i i i i - - - - - - - - - - q",
    "tunings": "g down down pagedown up pageup enter space v v g 'banjo' enter v space g 'uku' down "
               "enter v v v space g 'D A D G B E' enter space t t v v g 'zzz' enter esc g "
               "'bass' enter down space v v g esc g backspace home end enter q",
    "lists": "? down down pagedown pageup up 'capo' esc f1 'x' enter e j k space pageup pagedown q "
             "tab 'neck' down up enter : 'tun' enter esc tab esc : 'undo' enter tab 'left' enter q",
    "undo": "down s space i l v p n z z z z z z z z Z Z Z Z Z Z Z down c 'Dm7' enter down space < z "
            "> Z z z c 'G7' enter < down > z Z z z z z z z z z z z z z z z z z z z z z z z z z q",
    "copies": "H N space H v N W N y H r N n N M M ctrl-z n H q",
    "mouse": "click:5,5 click:5,6 click:60,4 click:60,5 wheel-down:10,5 wheel-down:10,6 wheel-up:10,6 "
             "click:20,16 click:26,17 click:30,18 click:2,17 click:3,15 wheel-down:40,17 "
             "wheel-up:40,17 click:3,24 wheel-down:40,10 wheel-down:40,10 wheel-up:40,10 esc e "
             "click:5,3 click:5,3 g click:5,4 click:5,4 click:12,24 esc click:20,24 esc M click:5,5 "
             "M click:5,4 click:60,3 wheel-down:60,4 wheel-down:60,4 click:79,24 esc esc q",
    "sizes": "size:100x30 down size:60x20 space size:40x12 v size:20x6 n size:5x3 size:1x1 size:80x24 "
             "? size:50x10 down size:120x30 esc g size:30x8 down size:90x25 enter c 'Dm' size:25x5 "
             "'7' size:80x24 enter size:300x80 space size:132x43 q",
    "pastes": "c paste:Dm7 enter paste:C7alt c paste:漢字 enter esc w paste:7,-1 enter g paste:uku "
              "enter c paste:9999999999999999999999999999999999999999999999 enter esc é 漢 alt-x "
              "shift-left backtab delete f12 q",
}

# What a player's own files change on the screen.
OWN = {
    "own-settings": ((("config/settings.toml",
                       b'theme = "mine"\nlabels = "degree"\nfamilies = "all"\nleft_handed = true\n'
                       b'tuning = "mine"\npedal = "f12"\nreach_mm = 100\nfret_widths = "true"\n'),
                      ("config/themes/mine.toml", b'first = "green"\nsecond = "#aa00ff"\n'),
                      ("config/tunings/mine.toml",
                       b'name = "Mine"\ninstrument = "guitar"\nstrings = ["E2", "A2", "D3", "G3"]\n'
                       b"frets = 19\nscale_mm = 648\n"),
                      ("config/scales.toml", b'"six bright notes" = "1 2 3 5 6 7"\n')),
                     "f12 f12 down g down up enter e 'six' down enter f12 e f12 esc ? f12 esc n s q"),
    "own-keys": ((("config/keys.toml",
                   b'[explore]\nclimb = ["f12", "x"]\nnext-choice = ["space"]\nundo = ["u"]\n'
                   b'[everywhere]\nhelp = ["h"]\nquit = ["Q"]\n[list]\ndown = ["n"]\n'
                   b'[picking]\ndown = ["f12"]\n[typing]\naccept = ["enter", "tab"]\n'),),
                 "f12 x space u h f12 esc ? e n n enter g f12 enter tab 'h' esc c 'Dm7' tab x x Q "
                 "ctrl-c"),
    "wrong-files": ((("config/settings.toml", b'theme = "drak"\nlabels = 7\nnope = 1\n'),
                     ("config/keys.toml", b'[explore]\nclimb = ["bogus"]\n[nope]\n'),
                     ("config/tunings/bad.toml", b'name = "Bad"\n')),
                    "down n ? esc tab 'files' enter q"),
    "older-session": ((("state/fretloom/session.json",
                        b'{"format":1,"chord":"A7alt","scale":"A altered","pair":"Db & Eb",'
                        b'"tuning":"guitar-dadgad","capo":2,"strings":"5-4-3","locked":true,'
                        b'"rung":3,"place":1,"fingers":1,"labels":"member","spelling":"strict",'
                        b'"view":"set 5-4-3","families":"tertian,sus","wishes":"","left_handed":'
                        b'true,"upside_down":false,"fret_widths":"true","left_out":true,'
                        b'"first_fret":3}'),),
                      "space down v z z Z q"),
    "newer-session": ((("state/fretloom/session.json", b'{"format":2,"chord":"Dm7"}'),),
                      "down space q"),
    "stale-session": ((("state/fretloom/session.json",
                        b'{"format":1,"chord":"Hm7","tuning":"gone","capo":40,"rung":999,'
                        b'"strings":"12-11-10","view":"set 9","first_fret":200,"pair":"?"}'),),
                      "down space q"),
}

CHORDS = ["Gmaj7#11", "Dm7", "C7alt", "F#m7b5", "Bb13", "E7#9", "Ab6/9", "A7sus4", "Cdim7", "D+"]
TUNINGS = ["guitar-standard", "guitar-7-string", "guitar-dadgad", "ukulele-high-g", "bass-5-string",
           "banjo-open-g", "mandolin-standard", "D A D G B E", "guitar-12-string"]
THEMES = ["terminal", "dark", "light", "high-contrast", "monochrome"]
TERMINALS = [(), (("COLORTERM", "truecolor"),), (("NO_COLOR", "1"),), (("TERM", "linux"),),
             (("LANG", "C"),)]
# Every key that means something somewhere, but those that end the program.
PLAYED = keys("? f1 c enter w f m e down j up k s S space u backspace d 1 a 2 b t T l v V x X h o n "
              "p g i + I - r y W L right . left , home 0 end 9 z Z tab : H N < > alt-left "
              "alt-right 8 esc pagedown pageup M")
NECK = keys("down up space d v x n t l i I s o h right left m z Z 2 1")
WORDS = ["Dm7", "C7alt", "Bbma", "7,-1", "#11", "capo", "uku", "E A D G", "Hx"]


def all_scripts() -> list[Script]:
    """Every script, the same in every run."""
    scripts = []
    for size in SIZES:
        for index, (name, steps) in enumerate(BY_HAND.items()):
            start = Start(keys(steps), environment=TERMINALS[index % 2])
            scripts.append(Script(f"{name} {size}", size, (start,)))
    for index, (name, (files, steps)) in enumerate(OWN.items()):
        size = SIZES[index % 3]
        again = Start(keys("down q"))
        scripts.append(Script(f"{name} {size}", size, (Start(keys(steps)), again), files))
    scripts += sessions()
    scripts += looks()
    scripts += [at_random(number) for number in range(30)]
    return scripts


def sessions() -> list[Script]:
    """What one start leaves, the next one takes up; options win over it."""
    before = ["c 'A7alt' enter down s space space l p q", "g 'dad' enter i i v x n n ctrl-c",
              "w '7' enter f r y W L end space q", "v v x t t o h q", "v v v x g 'uku' enter q",
              "? down q ctrl-c", "c 'Dm7' enter c 'G7' enter < down q"]
    scripts = []
    for index, steps in enumerate(before):
        later = [(), ("Dm7",), ("--tuning", "ukulele-high-g"), ("--capo", "3"), ("--fresh",)]
        options = later[index % len(later)]
        starts = (Start(keys(steps)), Start(keys("space z q")), Start(keys("down q"), options),
                  Start(keys("q")))
        scripts.append(Script(f"session-{index} {SIZES[index % 3]}", SIZES[index % 3], starts))
    return scripts


def looks() -> list[Script]:
    """The same few keys in every theme, in terminals of every kind."""
    scripts = []
    for index, theme in enumerate(THEMES):
        for number, terminal in enumerate(TERMINALS):
            size = SIZES[(index + number) % 3]
            start = Start(keys("space v n ? esc e esc tab esc L q"), ("--theme", theme), terminal)
            scripts.append(Script(f"look-{theme}-{number} {size}", size, (start,)))
    return scripts


def at_random(number: int) -> Script:
    rng = random.Random(1000 + number)
    size = SIZES[number % 3]
    arguments = [rng.choice(CHORDS)]
    if rng.random() < 0.6:
        arguments += ["--tuning", rng.choice(TUNINGS)]
    if rng.random() < 0.5:
        arguments += ["--theme", rng.choice(THEMES)]
    if rng.random() < 0.2:
        arguments += ["--spelling", "strict"]
    steps: list[str] = []
    while len(steps) < 70:
        steps += random_steps(rng, size)
    again = Start(("space", "down", rng.choice(["q", "ctrl-c"])))
    # Whatever is open at the end, this ends the program.
    start = Start((*steps, "ctrl-c"), tuple(arguments), rng.choice(TERMINALS))
    return Script(f"random-{number} {size}", size, (start, again))


def random_steps(rng: random.Random, size: Size) -> list[str]:
    kind = rng.random()
    if kind < 0.55:
        return [rng.choice(PLAYED)]
    if kind < 0.80:
        return [rng.choice(NECK)]
    if kind < 0.86:
        word = rng.choice(WORDS)
        opener = rng.choice(["c", "w", "g", "tab"])
        signs = ["space" if sign == " " else sign for sign in word]
        return [opener, *signs, rng.choice(["enter", "enter", "tab", "esc"])]
    if kind < 0.96:
        what = rng.choice(["click", "click", "click", "wheel-up", "wheel-down"])
        return [f"{what}:{rng.randint(1, size.columns)},{rng.randint(1, size.rows)}"]
    if kind < 0.98:
        return [f"paste:{rng.choice(WORDS)}"]
    return [f"size:{rng.randint(20, 140)}x{rng.randint(6, 45)}", f"size:{size}"]
