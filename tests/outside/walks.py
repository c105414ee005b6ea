"""Drills computed once more: groups of figures that walk up the inversions of two triads.

Nothing here is taken from the program. A figure counts the notes of a triad upward from the lowest of
the inversion in hand. On the ladder the next group is played on the next inversion of the other
triad above; linked, on the one whose first note is nearest to the last note played, the higher of
two. A note must lie on the neck.
"""

from fractions import Fraction

QUALITIES = {"": (0, 4, 7), "m": (0, 3, 7), "dim": (0, 3, 6), "+": (0, 4, 8)}
LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}

# A chord and two triads over it.
PAIRS = [
    ("Dm7", "F", "G"),
    ("Dm7", "Dm", "Em"),
    ("Gmaj7#11", "G", "A"),
    ("A7alt", "Eb", "F"),
    ("Cm(maj7)", "Eb+", "F"),
    ("Bm7b5", "Bdim", "C"),
]

PATTERNS = ["123", "321", "132", "132 32", "1232 321", "1234", "13 2", "123 =321"]

# The names of rhythms and how long their notes are, in quarters.
RHYTHMS = [("eighths", Fraction(1, 2)), ("triplets", Fraction(1, 3)), ("4.", Fraction(3, 2))]

LOWEST, HIGHEST = 40, 86


def triad(name):
    """The pitch classes of a triad by its name, root first."""
    root = LETTERS[name[0]]
    rest = name[1:]
    while rest[:1] in ("b", "#"):
        root += -1 if rest[0] == "b" else 1
        rest = rest[1:]
    return [(root + above) % 12 for above in QUALITIES[rest]]


def walk(names, pattern, linked, count):
    """The MIDI numbers of a drill, up to where the neck ends."""
    notes = [[n for n in range(128) if n % 12 in triad(name)] for name in names]
    played, side, at = [], 0, None
    groups = pattern.split()
    index = 0
    while len(played) < count:
        group = groups[index % len(groups)]
        stays = group.startswith("=")
        figures = [int(sign) for sign in group.lstrip("=")][: count - len(played)]
        if index > 0 and not stays:
            side = 1 - side
        own = notes[side]

        def fits(bass):
            heard = [own[bass + figure - 1] for figure in figures if bass + figure <= len(own)]
            return len(heard) == len(figures) and all(LOWEST <= n <= HIGHEST for n in heard)

        basses = [bass for bass in range(len(own)) if fits(bass)]
        if index == 0:
            at = next(b for b in basses if own[b] % 12 == triad(names[0])[0])
        elif not stays:
            if linked:
                first, last = figures[0] - 1, played[-1]
                ways = [(abs(own[b + first] - last), own[b + first] < last, b) for b in basses]
                at = min(way for way in ways if way[0] > 0)[2]
            else:
                at = next((b for b in basses if own[b] > below), None)
        if at is None:
            # The neck ends here, and how a drill turns is not computed.
            return played
        played += [own[at + figure - 1] for figure in figures]
        below = own[at]
        index += 1
    return played


def compare(ask, fail):
    """Drills of two bars; gives how many values agree."""
    count = 0
    for chord, *names in PAIRS:
        for pattern in PATTERNS:
            for rhythm, length in RHYTHMS:
                for linked in (False, True):
                    travel = "linked" if linked else "up"
                    call = ["line", chord, "--pair", " & ".join(names), "--pattern", pattern]
                    call += ["--rhythm", rhythm, "--travel", travel, "--exercise", "--bars", "2"]
                    found = ask(*call)["notes"]
                    # A note may be cut by the end, and it still begins before it.
                    onsets = [n * length for n in range(100) if n * length < 8]
                    midi = walk(names, pattern, linked, len(onsets))
                    told = [(round(n["onset"] * 5040), n["midi"]) for n in found]
                    expected = [(round(float(o) * 5040), m) for o, m in zip(onsets, midi)]
                    agree = len(told) == len(onsets) and told[: len(expected)] == expected
                    if not agree or len(expected) < min(8, len(onsets)):
                        fail("walks", " ".join(call), expected, told)
                    count += 2 * len(expected)
    return count
