#!/usr/bin/env python3
"""Makes the text fonts in `text/` from the OpenType files of TeX Gyre, which Debian packages bring:

    apt-get install fonts-texgyre fonts-texgyre-math python3-fonttools
    /usr/bin/python3 convert.py /usr/share/texmf/fonts/opentype/public text

Outlines become TrueType (quadratic, within a thousandth of the em), as writers of PDF embed those as real fonts and cubic
ones only as drawings. Kerning and ligatures are left out: the page is measured letter by letter, and a reader that kerns
would set it otherwise. Signs that no character stands for are left out too. The names change, as the licence asks.
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable

FONTS = [
    # file, new file, family, style, characters (None: all)
    ("tex-gyre/texgyreschola-regular.otf", "serif-regular.ttf", "Rollwright Serif", "Regular", None),
    ("tex-gyre/texgyreschola-italic.otf", "serif-italic.ttf", "Rollwright Serif", "Italic", None),
    ("tex-gyre/texgyreschola-bold.otf", "serif-bold.ttf", "Rollwright Serif", "Bold", None),
    ("tex-gyre/texgyreheros-regular.otf", "sans-regular.ttf", "Rollwright Sans", "Regular", None),
    ("tex-gyre/texgyreheros-bold.otf", "sans-bold.ttf", "Rollwright Sans", "Bold", None),
    ("tex-gyre-math/texgyreschola-math.otf", "signs-regular.ttf", "Rollwright Signs", "Regular", "♭♮♯"),
]
WITHIN = 1.0  # of the em's 1000 units


def convert(source, family, style, characters):
    font = TTFont(source, recalcTimestamp=False)
    options = subset.Options(layout_features=[], notdef_outline=True, drop_tables=["DSIG", "FFTM", "GDEF", "MATH"])
    chosen = subset.Subsetter(options)
    chosen.populate(unicodes=map(ord, characters) if characters else font.getBestCmap().keys())
    chosen.subset(font)
    outlines = font.getGlyphSet()
    glyphs = {}
    for name in font.getGlyphOrder():
        pen = TTGlyphPen(None)
        outlines[name].draw(Cu2QuPen(pen, WITHIN, reverse_direction=True))
        glyphs[name] = pen.glyph()
    font["glyf"] = newTable("glyf")
    font["glyf"].glyphs, font["glyf"].glyphOrder = glyphs, font.getGlyphOrder()
    font["loca"] = newTable("loca")
    largest = font["maxp"]
    largest.tableVersion = 0x00010000
    for name in (
        "maxTwilightPoints maxStorage maxFunctionDefs maxInstructionDefs maxStackElements "
        "maxSizeOfInstructions maxComponentElements"
    ).split():
        setattr(largest, name, 0)
    largest.maxZones = 1
    font["post"].formatType = 3.0
    for table in ("CFF ", "VORG", "GPOS", "GSUB"):
        if table in font:
            del font[table]
    font.sfntVersion = "\0\1\0\0"
    rename(font, family, style)
    return font


def rename(font, family, style):
    words = {1: family, 2: style, 3: f"{family} {style} 1.0", 4: f"{family} {style}",
             6: f"{family} {style}".replace(" ", "-", 2).replace("-", "", 1)}
    for record in list(font["name"].names):
        if record.nameID in words:
            font["name"].setName(words[record.nameID], record.nameID, record.platformID, record.platEncID, record.langID)
        elif record.nameID not in (0, 5, 13, 14):
            font["name"].removeNames(record.nameID)


if __name__ == "__main__":
    source, target = Path(sys.argv[1]), Path(sys.argv[2])
    for file, new, family, style, characters in FONTS:
        convert(source / file, family, style, characters).save(target / new, reorderTables=False)
