"""Looks at pages of the program with programs of others: qpdf, poppler, MuPDF and an XML parser.

    python3 -m venv venv && venv/bin/pip install pymupdf pillow numpy
    venv/bin/python tests/outside/pages.py target/release/fretloom

qpdf and poppler-utils come from the system. What is missing is told and not passed over.

The first page of some calls is kept small in tests/pages/reference/, in eight greys. With --write after the
program they are made again: look at them before they are kept.
"""

import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

import pymupdf
import numpy
from PIL import Image

CALLS = {
    "neck": (["neck", "Gmaj7#11"], ["Gmaj7♯11", "G Lydian", "C♯", "F♯", "Guitar, standard"]),
    "position": (
        ["neck", "Dm7", "--view", "position", "--position", "V", "--capo", "2", "--left-handed"],
        ["Dm7", "capo at 2", "a stretch"],
    ),
    "shapes": (["shapes", "G"], ["root position", "2nd inversion 6-5-4"]),
    "ladder": (["ladder", "F", "G", "--strings", "4-3-2"], ["F & G", "4-3-2"]),
    "line": (
        ["line", "| Ebm7 | Ab7alt | Dbmaj7 | % |", "--slurs", "--sentences", "--rhythm", "4. 8 5:4(16)"],
        ["E♭m7", "A♭7alt", "D♭maj7", "1"],
    ),
    "keys": (["line", "Dm7", "--exercise", "--keys", "fourths", "--rhythm", "triplets"], ["in G", "Cm7"]),
    "bass": (["line", "| Dm7 | G7 |", "--tuning", "bass-4-string", "--paper", "letter"], ["Dm7", "G7"]),
    "sheet": (["sheet", "Dm7"], ["name", "date", "tempo", "B♭m7", "stop when it hurts"]),
    "empty": (["sheet", "Dm7", "--no-answers", "--left-handed"], ["name", "date", "tempo"]),
    "lesson": (
        ["sheet", "Gmaj7#11", "--sentences", "--reader", "Mira,bass-5-string", "--paper", "letter"],
        ["Mira", "Bass, 5 strings", "position", "G & A over Gmaj7♯11", "an octave lower"],
    ),
    "chart": (["changes", "nine-doors-and-a-stair"], ["Nine Doors and a Stair", "F♯m7♭5", "C+ & D"]),
}
# Kept as they once looked.
KEPT = ["position", "ladder", "line", "bass", "sheet", "empty", "lesson"]
REFERENCE = pathlib.Path(__file__).parent.parent / "pages" / "reference"
REFERENCE_DPI = 50
# How much darker or lighter a cell of so many dots may be, of 255: a reader of another version smooths in
# another way, which its mean hardly shows. A mark that is missing, or a line that has moved, is more.
CELL = 8
MOST_CHANGED = 16
DPI = 150
# Readers smooth edges each in their own way: so much of a page may differ, of the ink that there is.
MOST_DIFFERENT = 0.05


def run(*words: str) -> str:
    return subprocess.run(words, check=True, capture_output=True, text=True).stdout


def of_poppler(pdf: pathlib.Path, folder: pathlib.Path) -> list[numpy.ndarray]:
    run("pdftoppm", "-r", str(DPI), "-gray", str(pdf), str(folder / pdf.stem))
    pages = sorted(folder.glob(f"{pdf.stem}-*.pgm"))
    return [numpy.asarray(Image.open(page).convert("L"), dtype=float) for page in pages]


def of_mupdf(pdf: pathlib.Path) -> list[numpy.ndarray]:
    pages = []
    for page in pymupdf.open(pdf):
        pixels = page.get_pixmap(dpi=DPI, colorspace=pymupdf.csGRAY)
        samples = numpy.frombuffer(pixels.samples, dtype=numpy.uint8)
        pages.append(samples.reshape(pixels.height, pixels.width).astype(float))
    return pages


def blurred(page: numpy.ndarray) -> numpy.ndarray:
    """Every pixel as the mean of the nine around it."""
    padded = numpy.pad(page, 1, mode="edge")
    height, width = page.shape
    parts = [padded[y : y + height, x : x + width] for y in range(3) for x in range(3)]
    return sum(parts) / 9


def as_kept(pdf: pathlib.Path, folder: pathlib.Path) -> Image.Image:
    """The first page, small and in eight greys."""
    run("pdftoppm", "-r", str(REFERENCE_DPI), "-gray", "-l", "1", "-singlefile", str(pdf), str(folder / "small"))
    return Image.open(folder / "small.pgm").convert("L").quantize(8, dither=Image.Dither.NONE)


def compare(name: str, pdf: pathlib.Path, folder: pathlib.Path, write: bool) -> None:
    """The first page looks as it did when somebody looked at it."""
    file, now = REFERENCE / f"{name}.png", as_kept(pdf, folder)
    if write:
        REFERENCE.mkdir(exist_ok=True)
        now.save(file, optimize=True)
        return
    pages = [numpy.asarray(page.convert("L"), dtype=float) for page in (Image.open(file), now)]
    assert pages[0].shape == pages[1].shape, (name, "size")
    changed = abs(cells(pages[0]) - cells(pages[1]))
    where = [int(at) * CELL * 25.4 / REFERENCE_DPI for at in numpy.unravel_index(changed.argmax(), changed.shape)]
    told = f"{changed.max():.0f} at {where[1]:.0f} mm from the left, {where[0]:.0f} mm from the top"
    assert changed.max() < MOST_CHANGED, (name, told, "look at it, then --write")


def cells(page: numpy.ndarray) -> numpy.ndarray:
    """The mean of each cell."""
    height, width = (size // CELL for size in page.shape)
    page = page[: height * CELL, : width * CELL]
    return page.reshape(height, CELL, width, CELL).mean(axis=(1, 3))


def check(name: str, words: list[str], labels: list[str], program: str, folder: pathlib.Path, write: bool) -> None:
    pdf, svg = folder / f"{name}.pdf", folder / f"{name}.svg"
    run(program, *words, "--pdf", str(pdf), "--svg", str(svg))
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", str(pdf)), name
    fonts = [line.split() for line in run("pdffonts", str(pdf)).splitlines()[2:]]
    assert fonts and all(row[-5:-2] == ["yes", "yes", "yes"] for row in fonts), (name, fonts)
    text = run("pdftotext", "-layout", str(pdf), "-")
    missing = [label for label in labels if label not in text]
    assert not missing, (name, missing, text)
    assert not re.search("[\ue000-\uf8ff]", text), (name, "a sign without meaning can be copied")
    root = xml.etree.ElementTree.parse(svg).getroot()
    in_svg = " ".join(element.text or "" for element in root.iter("{http://www.w3.org/2000/svg}text"))
    assert all(label in in_svg for label in labels), (name, labels)
    poppler, mupdf = of_poppler(pdf, folder), of_mupdf(pdf)
    assert len(poppler) == len(mupdf), name
    for number, (one, other) in enumerate(zip(poppler, mupdf), 1):
        height, width = (min(a, b) for a, b in zip(one.shape, other.shape))
        one, other = blurred(one[:height, :width]), blurred(other[:height, :width])
        ink = (255 - one).sum()
        different = numpy.clip(abs(one - other) - 40, 0, None).sum() / ink
        assert different < MOST_DIFFERENT, (name, number, different)
        # White all round, and something within.
        edge = int(DPI * 14 / 25.4)
        assert one[:edge].min() > 250 and one[:, :edge].min() > 250, (name, number, "margin")
        assert ink > 1000, (name, number)
    if name in KEPT:
        compare(name, pdf, folder, write)
    print(f"{name}: {len(poppler)} pages, {pdf.stat().st_size} bytes")


def black_and_white(program: str, folder: pathlib.Path) -> None:
    """In one bit a note of the first triad is mostly black, one of the second mostly white."""
    pdf = folder / "bits.pdf"
    run(program, "neck", "Gmaj7#11", "--pdf", str(pdf))
    page = pymupdf.open(pdf)[0]
    bits = of_mupdf(pdf)[0] < 128
    scale = DPI / 72
    dark = {"first": [], "second": []}
    for x0, y0, x1, y1, word, *_ in page.get_text("words"):
        which = {"G": "first", "B": "first", "D": "first", "A": "second", "E": "second"}.get(word)
        # The notes of the neck are small and bold; its names stand further left.
        if which and 100 < y0 < 400 and x0 > 75:
            middle = ((x0 + x1) / 2 * scale, (y0 + y1) / 2 * scale)
            half = int(7 * DPI / 100)
            left, top = int(middle[0] - half), int(middle[1] - half)
            dark[which].append(bits[top : top + 2 * half, left : left + 2 * half].mean())
    assert len(dark["first"]) > 20 and len(dark["second"]) > 15, dark
    assert min(dark["first"]) > max(dark["second"]), (min(dark["first"]), max(dark["second"]))
    print(f"black and white: first {min(dark['first']):.2f} up, second {max(dark['second']):.2f} down")


def main() -> None:
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as place:
        folder = pathlib.Path(place)
        for name, (words, labels) in CALLS.items():
            check(name, words, labels, program, folder, "--write" in sys.argv[2:])
        black_and_white(program, folder)


main()
