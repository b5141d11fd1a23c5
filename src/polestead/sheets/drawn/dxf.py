"""A plate as a DXF file in millimetres: outline, holes and words on layers of their own."""

from __future__ import annotations

import re
from io import StringIO
from math import hypot

from polestead.build.pieces.plates import PlateCut

OUTLINE, HOLES, TEXT = "OUTLINE", "HOLES", "TEXT"
COLOURS = {OUTLINE: 7, HOLES: 1, TEXT: 8}
LETTER_MM = 5.0
VERSION = "R2010"
STAMP = re.compile(r"(?<= @ )\d{4}-\d\d-\d\dT[\d:.+]+")  # when the library wrote it


def plate_words(plate: PlateCut) -> tuple[str, ...]:
    """What is written under a plate: name and count, steel, holes."""
    thick = "thickness not given" if plate.thickness_m is None else f"{plate.thickness_m * 1000.0:.2f} mm"  # fmt: skip
    if plate.kind == "wrap":
        thick = "paper, once round the pole"
    sizes = sorted({round(hole.diameter_m * 1000.0, 2) for hole in plate.holes})
    holes = f"{len(plate.holes)} holes, {', '.join(f'{one:g}' for one in sizes)} mm" if sizes else "no holes"  # fmt: skip
    return f"{plate.name}, {plate.count} off", f"{thick}, {plate.steel}", holes


def plate_dxf(plate: PlateCut) -> bytes:
    """The plate's file; the same plate gives the same bytes.

    Args:
        plate: From ``build.pieces.plates``.

    Returns:
        DXF R2010 in millimetres.  Layer OUTLINE is cut, its rounds true arcs; HOLES is drilled, TEXT is neither.
    """
    from ezdxf import units
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    doc = new(VERSION, units=units.MM)
    for name, colour in COLOURS.items():
        doc.layers.add(name, color=colour)
    space = doc.modelspace()
    outline = [(x * 1000.0, y * 1000.0) for x, y in plate.outline_m]
    cut = [(x * 1000.0, y * 1000.0, bulge) for x, y, bulge in plate.cut_m] or [(x, y, 0.0) for x, y in outline]  # fmt: skip
    if [bulge for _, _, bulge in cut] == [1.0, 1.0]:  # two half rounds
        (x1, y1, _), (x2, y2, _) = cut
        space.add_circle(((x1 + x2) / 2.0, (y1 + y2) / 2.0), hypot(x2 - x1, y2 - y1) / 2.0, dxfattribs={"layer": OUTLINE})  # fmt: skip
    else:
        space.add_lwpolyline(cut, format="xyb", close=True, dxfattribs={"layer": OUTLINE})
    for hole in plate.holes:
        space.add_circle((hole.x_m * 1000.0, hole.y_m * 1000.0), hole.diameter_m * 500.0, dxfattribs={"layer": HOLES})  # fmt: skip
    left, low = min(x for x, _ in outline), min(y for _, y in outline)
    for nth, words in enumerate(plate_words(plate), start=1):
        space.add_text(words, height=LETTER_MM, dxfattribs={"layer": TEXT, "insert": (left, low - nth * LETTER_MM * 1.8)})  # fmt: skip
    for kind in sorted(
        doc.entitydb.dxf_types_in_use()
    ):  # the library takes them from a set, in no order
        doc.classes.add_class(kind)
    stream = StringIO()
    kept = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no clock and no chance in the file
    try:
        doc.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = kept
    return STAMP.sub("2000-01-01T00:00:00+00:00", stream.getvalue()).encode("utf-8")


def plates_dxf(plates: tuple[PlateCut, ...]) -> dict[str, bytes]:
    """A file for every plate, by file name."""
    return {f"{plate.name.replace(' ', '-').replace(chr(39), '')}.dxf": plate_dxf(plate) for plate in plates}  # fmt: skip
