#!/usr/bin/env python3
"""Makes the fonts of this folder again.

    pip install fonttools
    npm pack @vexflow-fonts/bravura@1.0.2 && tar xzf vexflow-fonts-bravura-1.0.2.tgz
    apt-get install fonts-dejavu-core
    python3 make_subsets.py package/bravura.otf /usr/share/fonts/truetype/dejavu

The licences stand beside the fonts. That of Bravura keeps its name for the whole font, so the subset
is called Fretloom Music; that of DejaVu lets a subset keep its name.
"""

import pathlib
import sys

from fontTools import subset
from fontTools.ttLib import TTFont

HERE = pathlib.Path(__file__).parent

# Latin with its accents, Greek and Cyrillic for names and titles; typographers' signs; the signs of
# chords and of the program. A sign without a glyph is shown as U+25AF.
TEXT = [
    *range(0x20, 0x7F),
    *range(0xA0, 0x180),
    *(code for code in range(0x386, 0x3CF) if code not in (0x38B, 0x38D, 0x3A2)),
    *range(0x400, 0x460),
    0x0218, 0x0219, 0x021A, 0x021B,
    0x2010, 0x2011, 0x2012, 0x2013, 0x2014, 0x2018, 0x2019, 0x201A, 0x201C, 0x201D, 0x201E, 0x2022,
    0x2026, 0x2032, 0x2033, 0x2039, 0x203A, 0x20AC, 0x2116,
    0x2190, 0x2191, 0x2192, 0x2193, 0x2206, 0x2212, 0x2248, 0x2260, 0x2264, 0x2265, 0x2293,
    0x25AF, 0x25B8, 0x25CB, 0x25CF, 0x2669, 0x266A, 0x266D, 0x266E, 0x266F, 0x2713, 0x2717,
]

# By the names and numbers of the Standard Music Font Layout.
MUSIC = [
    0xE050, 0xE052, 0xE062, 0xE064,  # gClef, gClef8vb, fClef, fClef8vb
    *range(0xE080, 0xE08A),  # timeSig0 to timeSig9
    0xE0A2, 0xE0A3, 0xE0A4,  # noteheadWhole, noteheadHalf, noteheadBlack
    0xE1E7,  # augmentationDot
    *range(0xE240, 0xE250),  # flags up and down, eighth to 1024th
    0xE260, 0xE261, 0xE262, 0xE263, 0xE264,  # flat, natural, sharp, double sharp, double flat
    *range(0xE4E3, 0xE4EE),  # rests, whole to 1024th
    0xE4A0, 0xE4A1,  # accent above, below
    0xE610, 0xE612,  # down, up stroke
    *range(0xE880, 0xE88A),  # tuplet0 to tuplet9
    0xE044,  # repeatDots
    0xE500,  # repeat1Bar
]


def make(source: pathlib.Path, target: str, unicodes: list[int], family: str | None) -> None:
    options = subset.Options()
    options.layout_features = []
    options.name_IDs = [0, 1, 2, 4, 6, 13, 14]
    options.hinting = False
    options.notdef_outline = True
    options.drop_tables += ["GPOS", "GSUB", "GDEF", "kern", "DSIG", "FFTM"]
    font = TTFont(source, recalcTimestamp=False)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=unicodes)
    cutter.subset(font)
    missing = [hex(code) for code in unicodes if code not in font.getBestCmap()]
    if missing:
        print(f"{target}: not in {source.name}: {' '.join(missing)}", file=sys.stderr)
    if family is not None:
        for record in font["name"].names:
            if record.nameID in (1, 4, 6):
                record.string = family.replace(" ", "") if record.nameID == 6 else family
        if "CFF " in font:
            cff = font["CFF "].cff
            cff.fontNames = [family.replace(" ", "")]
            cff.topDictIndex[0].FullName = family
            cff.topDictIndex[0].FamilyName = family
    font.save(HERE / target, reorderTables=True)
    print(f"{target}: {(HERE / target).stat().st_size} bytes")


def main() -> None:
    bravura, dejavu = map(pathlib.Path, sys.argv[1:3])
    make(bravura, "fretloom-music.otf", MUSIC, "Fretloom Music")
    make(dejavu / "DejaVuSans.ttf", "text.ttf", TEXT, None)
    make(dejavu / "DejaVuSans-Bold.ttf", "text-bold.ttf", TEXT, None)


main()
