"""What a terminal shows after the bytes that a program wrote: signs, colours, attributes.

It knows what the program writes and raises on anything else, so that nothing is passed over.
"""

import codecs
import re
import unicodedata

TOKEN = re.compile(
    r"\x1b\[(?P<private>[?<=>]?)(?P<numbers>[0-9;:]*)(?P<final>[ -/]*[@-~])"
    r"|\x1b\](?P<osc>[^\x07\x1b]*)(?:\x07|\x1b\\)"
    r"|(?P<text>[^\x00-\x1f\x7f\x1b]+)"
    r"|(?P<control>[\x07\x08\n\r])")
# A sequence whose end has not come yet.
UNFINISHED = re.compile(r"\x1b(\[[?<=>]?[0-9;:]*[ -/]*|\][^\x07\x1b]*\x1b?)?$")
PLAIN = ("", "", frozenset())
ATTRIBUTES = {1: "bold", 2: "dim", 3: "italic", 4: "underlined", 5: "blink", 6: "fast blink",
              7: "reversed", 8: "hidden", 9: "crossed out"}
ENDED = {22: {"bold", "dim"}, 23: {"italic"}, 24: {"underlined"}, 25: {"blink", "fast blink"},
         27: {"reversed"}, 28: {"hidden"}, 29: {"crossed out"}}
BLANK = (" ", PLAIN)


class Unknown(Exception):
    """Bytes that this terminal does not know."""


def width(sign: str) -> int:
    if unicodedata.category(sign) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


class Terminal:
    """The cells of a window, its modes, and what was copied."""

    def __init__(self, columns: int, rows: int):
        self.columns, self.rows = columns, rows
        self.cells = self.blank()
        self.main = None
        self.row = self.column = 0
        self.style = PLAIN
        self.modes: dict[int, bool] = {}
        self.copied: list[str] = []
        self.decoder = codecs.getincrementaldecoder("utf-8")("replace")
        self.rest = ""

    def blank(self) -> list[list[tuple]]:
        return [[BLANK] * self.columns for _ in range(self.rows)]

    def resize(self, columns: int, rows: int) -> None:
        def fitted(cells):
            lines = [(line + [BLANK] * columns)[:columns] for line in cells[:rows]]
            return lines + [[BLANK] * columns for _ in range(rows - len(lines))]

        self.columns, self.rows = columns, rows
        self.cells = fitted(self.cells)
        self.main = self.main and fitted(self.main)
        self.row, self.column = min(self.row, rows - 1), min(self.column, columns - 1)

    def feed(self, written: bytes) -> None:
        text = self.rest + self.decoder.decode(written)
        unfinished = UNFINISHED.search(text)
        self.rest = unfinished.group() if unfinished else ""
        end, at = len(text) - len(self.rest), 0
        while at < end:
            token = TOKEN.match(text, at, end)
            if token is None:
                raise Unknown(repr(text[at:at + 20]))
            at = token.end()
            if token["text"] is not None:
                for sign in token["text"]:
                    self.put(sign)
            elif token["control"] is not None:
                self.control(token["control"])
            elif token["osc"] is not None:
                self.copied.append(token["osc"])
            else:
                self.sequence(token["private"], token["numbers"], token["final"])

    def shown(self) -> tuple:
        """All that can be seen, to be compared with another."""
        visible = self.modes.get(25, True)
        cursor = (self.row, self.column) if visible else None
        modes = tuple(sorted((mode, on) for mode, on in self.modes.items() if mode != 2026))
        return tuple(map(tuple, self.cells)), cursor, modes, tuple(self.copied)

    def put(self, sign: str) -> None:
        wide = width(sign)
        if wide == 0:
            column = max(self.column - 1, 0)
            before, style = self.cells[self.row][column]
            self.cells[self.row][column] = (before + sign, style)
            return
        if self.column + wide > self.columns:
            self.control("\r")
            self.control("\n")
        line = self.cells[self.row]
        line[self.column] = (sign, self.style)
        if wide == 2 and self.column + 1 < self.columns:
            line[self.column + 1] = ("", self.style)
        self.column += wide

    def control(self, control: str) -> None:
        if control == "\r":
            self.column = 0
        elif control == "\b":
            self.column = max(self.column - 1, 0)
        elif control == "\n" and self.row + 1 < self.rows:
            self.row += 1
        elif control == "\n":
            self.cells = self.cells[1:] + [[BLANK] * self.columns]

    def sequence(self, private: str, numbers: str, final: str) -> None:
        values = [int(value or 0) for value in re.split("[;:]", numbers)] if numbers else []
        first = values[0] if values else 0
        if private == "?" and final in "hl":
            for mode in values:
                self.switch(mode, final == "h")
        elif private:
            raise Unknown(f"CSI {private}{numbers}{final}")
        elif final in "Hf":
            row, column = (values + [1, 1])[:2]
            self.row = min(max(row, 1), self.rows) - 1
            self.column = min(max(column, 1), self.columns) - 1
        elif final == "m":
            self.restyle(values or [0])
        elif final == "J":
            self.erase(first)
        elif final == "K":
            spans = {0: (self.column, self.columns), 1: (0, self.column + 1), 2: (0, self.columns)}
            low, high = spans[first]
            for column in range(low, high):
                self.cells[self.row][column] = (" ", self.style)
        elif final in "ABCD":
            by = max(first, 1) * (-1 if final in "AD" else 1)
            if final in "AB":
                self.row = min(max(self.row + by, 0), self.rows - 1)
            else:
                self.column = min(max(self.column + by, 0), self.columns - 1)
        else:
            raise Unknown(f"CSI {numbers}{final}")

    def switch(self, mode: int, on: bool) -> None:
        if mode == 1049 and on and self.main is None:
            self.main, self.cells = self.cells, self.blank()
        elif mode == 1049 and not on and self.main is not None:
            self.cells, self.main = self.main, None
        self.modes[mode] = on

    def erase(self, which: int) -> None:
        if which in (2, 3):
            self.cells = self.blank()
        elif which == 0:
            self.cells[self.row][self.column:] = [BLANK] * (self.columns - self.column)
            for row in range(self.row + 1, self.rows):
                self.cells[row] = [BLANK] * self.columns
        else:
            raise Unknown(f"CSI {which}J")

    def restyle(self, values: list[int]) -> None:
        front, back, attributes = self.style
        values = list(reversed(values))
        while values:
            value = values.pop()
            if value == 0:
                front, back, attributes = PLAIN
            elif value in ATTRIBUTES:
                attributes = attributes | {ATTRIBUTES[value]}
            elif value in ENDED:
                attributes = attributes - ENDED[value]
            elif value in (38, 48):
                colour = self.colour(values)
                front, back = (colour, back) if value == 38 else (front, colour)
            elif 30 <= value <= 37 or 90 <= value <= 97:
                front = str(value - 30 if value < 90 else value - 82)
            elif 40 <= value <= 47 or 100 <= value <= 107:
                back = str(value - 40 if value < 100 else value - 92)
            elif value == 39:
                front = ""
            elif value == 49:
                back = ""
            elif value != 59:
                raise Unknown(f"CSI {value}m")
        self.style = (front, back, attributes)

    @staticmethod
    def colour(values: list[int]) -> str:
        kind = values.pop()
        if kind == 5:
            return str(values.pop())
        return "#" + "".join(f"{values.pop():02x}" for _ in range(3))
