"""Drill templates on paper at 1:1: outline, hole rounds with centre marks, bars that prove the print, over as many sheets as it takes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from math import ceil, hypot

from polestead.base.show import Style, dimension, drill
from polestead.build.pieces.plates import PlateCut
from polestead.sheets.clip import Box, clipped
from polestead.sheets.leaf import CARD_MM, PAPERS, Leaf, Paper, bank_card, leaf, leaves_pdf, say_pt
from polestead.sheets.svg import PAPER, Point, line, polygon, tag

MARGIN_MM, TOP_MM, FOOT_MM, SIDE_MM = 9.0, 26.0, 24.0, 18.0
OVERLAP_MM = 12.0
MARK_MM = 3.0  # a centre mark reaches so far beyond its hole
BARS_MM = ((50.0, "50 mm"), (50.8, "2 in"))


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet of a plate.

    Attributes:
        letter: Its number where there are several.
        column, row: Its place, from the lower left.
        x_mm, y_mm: Of the plate, at the window's lower left corner.
        wide_mm, high_mm: Of the window.
        left, right, below, above: Whether another sheet joins there.
    """

    letter: str
    column: int
    row: int
    x_mm: float
    y_mm: float
    wide_mm: float
    high_mm: float
    left: bool
    right: bool
    below: bool
    above: bool


def template_pdf(plates: tuple[PlateCut, ...], name: str, fingerprint: str, style: Style, paper: Paper, on: date | None = None, warning: str = "") -> bytes:  # fmt: skip
    """All templates as a PDF at 1:1, a warning over each."""
    return leaves_pdf(template_leaves(plates, name, fingerprint, style, paper, on), paper, f"{name}: drill templates", warning)  # fmt: skip


def template_leaves(plates: tuple[PlateCut, ...], name: str, fingerprint: str, style: Style, paper: Paper, on: date | None = None) -> tuple[Leaf, ...]:  # fmt: skip
    """A sheet that proves the print, then every plate.

    Args:
        plates: Plates and wraps.
        name: Of the homestead.
        fingerprint: Of its file.
        style: Whose units.
        paper: Letter or A4.
        on: Day it is printed; None leaves a blank.
    """
    printed = "printed ____________" if on is None else f"{on.day} {on:%b %Y}"
    laid = [(plate, tiles_of(plate, paper)) for plate in (turned(one, paper) for one in plates)]
    sheets = [(plate, tile, tiles) for plate, tiles in laid for tile in tiles]

    def foot(page: int) -> str:
        return f"{name} · {printed} · homestead {fingerprint} · print at 100 %, not fitted · page {page} of {len(sheets) + 1}"

    return (
        _proof(plates, style, paper, foot(1)),
        *(_sheet(plate, tile, tiles, style, paper, foot(page)) for page, (plate, tile, tiles) in enumerate(sheets, start=2)),
    )  # fmt: skip


def turned(plate: PlateCut, paper: Paper) -> PlateCut:
    """The plate turned a quarter where that takes fewer sheets."""
    other = replace(
        plate,
        outline_m=tuple((-y, x) for x, y in plate.outline_m),
        holes=tuple(replace(hole, x_m=-hole.y_m, y_m=hole.x_m) for hole in plate.holes),
    )
    return other if len(tiles_of(other, paper)) < len(tiles_of(plate, paper)) else plate


def tiles_of(plate: PlateCut, paper: Paper) -> tuple[Tile, ...]:
    """The sheets a plate takes, upright, from the lower left."""
    size = PAPERS[paper]
    window = (size.width_mm - MARGIN_MM - SIDE_MM, size.height_mm - TOP_MM - FOOT_MM)
    xs, ys = [x * 1000.0 for x, _ in plate.outline_m], [y * 1000.0 for _, y in plate.outline_m]
    low, span = (min(xs), min(ys)), (max(xs) - min(xs), max(ys) - min(ys))
    counts = [1 if span[k] <= window[k] else ceil((span[k] - OVERLAP_MM) / (window[k] - OVERLAP_MM)) for k in (0, 1)]  # fmt: skip
    sizes = [span[k] if counts[k] == 1 else window[k] for k in (0, 1)]
    kept: dict[tuple[int, int], Box] = {}
    for row in range(counts[1]):
        for column in range(counts[0]):
            x, y = (low[k] + at * (window[k] - OVERLAP_MM) for k, at in ((0, column), (1, row)))
            wide, high = min(sizes[0], low[0] + span[0] - x), min(sizes[1], low[1] + span[1] - y)
            if _something(plate, (x, y, x + wide, y + high)):
                kept[column, row] = (x, y, wide, high)
    found: list[Tile] = []
    for (column, row), (x, y, wide, high) in kept.items():
        letter = f"{len(found) + 1}" if len(kept) > 1 else ""
        found.append(Tile(
            letter, column, row, x, y, wide, high,
            (column - 1, row) in kept, (column + 1, row) in kept, (column, row - 1) in kept, (column, row + 1) in kept,
        ))  # fmt: skip
    return tuple(found)


def _something(plate: PlateCut, window: Box) -> bool:
    """Whether an edge or a hole of the plate lies on a sheet."""
    ring = [(x * 1000.0, y * 1000.0) for x, y in plate.outline_m]
    if any(clipped((a, b), window) is not None for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)):  # fmt: skip
        return True
    left, low, right, top = window
    return any(left <= hole.x_m * 1000.0 <= right and low <= hole.y_m * 1000.0 <= top for hole in plate.holes)  # fmt: skip


def _sheet(plate: PlateCut, tile: Tile, tiles: tuple[Tile, ...], style: Style, paper: Paper, foot: str) -> Leaf:  # fmt: skip
    size = PAPERS[paper]
    base = size.height_mm - FOOT_MM

    def at(x_mm: float, y_mm: float) -> tuple[float, float]:
        return MARGIN_MM + x_mm - tile.x_mm, base - (y_mm - tile.y_mm)

    left, low = at(tile.x_mm, tile.y_mm)
    right, top = left + tile.wide_mm, low - tile.high_mm
    defs = tag("clipPath", tag("rect", x=left - 0.4, y=top - 0.4, width=tile.wide_mm + 0.8, height=tile.high_mm + 0.8), id="window")  # fmt: skip
    shape = polygon([at(x * 1000.0, y * 1000.0) for x, y in plate.outline_m], "none", PAPER.ink, 0.35)  # fmt: skip
    inside = "".join(_round(at(hole.x_m * 1000.0, hole.y_m * 1000.0), hole.diameter_m * 500.0) for hole in plate.holes)  # fmt: skip
    body = [tag("g", shape + inside, clip_path="url(#window)"), *_joints(tile, tiles, at)]
    names = set()
    for nth, hole in enumerate(plate.holes, start=1):
        x, y = at(hole.x_m * 1000.0, hole.y_m * 1000.0)
        if not (left - 0.01 <= x <= right + 0.01 and top - 0.01 <= y <= low + 0.01):
            continue
        reach = hole.diameter_m * 500.0 + MARK_MM
        body += [line((x - reach, y), (x + reach, y), PAPER.ink, 0.18), line((x, y - reach), (x, y + reach), PAPER.ink, 0.18)]  # fmt: skip
        if x + reach + 9.0 < size.width_mm - MARGIN_MM:
            body.append(say_pt((x + reach * 0.72, y - reach * 0.72), str(nth), 10, weight="bold"))
        names.add(nth)
    body += _head(plate, tile, tiles, style)
    body += _bars(size.width_mm, size.height_mm)
    body.append(say_pt((MARGIN_MM, size.height_mm - 6.0), foot, 8))
    sheet = f", sheet {tile.letter}" if tile.letter else ""
    words = f"Drill template of the {plate.name}{sheet} at 1:1; {_holes_words(plate, style)}"
    return leaf(paper, defs, body, f"Drill template: {plate.name}{sheet}", words)


def _round(at: tuple[float, float], radius: float) -> str:
    return tag("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke=PAPER.ink, stroke_width=0.3) + tag("circle", cx=at[0], cy=at[1], r=0.5, fill=PAPER.ink)  # fmt: skip


def _joints(tile: Tile, tiles: tuple[Tile, ...], at: Callable[[float, float], Point]) -> Iterator[str]:  # fmt: skip
    """Where sheets are laid over one another: a dashed edge and two lozenges that must fall on their likes."""
    middle = OVERLAP_MM / 2.0
    ends = ((tile.left, tile.x_mm + middle, True, -1), (tile.right, tile.x_mm + tile.wide_mm - middle, True, 1),
            (tile.below, tile.y_mm + middle, False, -1), (tile.above, tile.y_mm + tile.high_mm - middle, False, 1))  # fmt: skip
    for here, across, upright, way in ends:
        if not here:
            continue
        other = next(one for one in tiles if (one.column, one.row) == ((tile.column + way, tile.row) if upright else (tile.column, tile.row + way)))  # fmt: skip
        far = across + way * middle
        low, span = (tile.y_mm, tile.high_mm) if upright else (tile.x_mm, tile.wide_mm)
        ends_at = ((far, low), (far, low + span)) if upright else ((low, far), (low + span, far))
        yield line(at(*ends_at[0]), at(*ends_at[1]), PAPER.pencil, 0.25, "2.4 1.2")
        for share in (0.06, 0.94):
            along = low + span * share
            x, y = at(across, along) if upright else at(along, across)
            yield polygon([(x, y - 3.0), (x + 2.0, y), (x, y + 3.0), (x - 2.0, y)], "none", PAPER.ink, 0.3)  # fmt: skip
        x, y = at(across, low + span * 0.25) if upright else at(low + span * 0.25, across)
        both = sorted((int(tile.letter), int(other.letter)))
        yield say_pt((x, y), f"{both[1]} over {both[0]}", 7, "middle")  # within the overlap


def _head(plate: PlateCut, tile: Tile, tiles: tuple[Tile, ...], style: Style) -> list[str]:
    sheet = f", sheet {tile.letter} of {tiles[-1].letter}" if tile.letter else ""
    thick = (
        "" if plate.thickness_m is None else f", {dimension(plate.thickness_m, style, 32)} thick"
    )
    if plate.kind == "wrap":
        thick = ", paper once round the pole"
    told = [f"{plate.count} off{thick}, {plate.steel}; {plate.where}. {_holes_words(plate, style)}"]
    lines = [say_pt((MARGIN_MM, 12.5), f"{plate.name}{sheet}", 17, weight="bold")]
    most = 124
    row = 17.0
    for words in told:
        for part in _broken(words, most):
            lines.append(say_pt((MARGIN_MM, row), part, 9))
            row += 3.9
    return lines


def _broken(words: str, most: int) -> list[str]:
    from textwrap import wrap

    return wrap(words, most)[:2] or [""]


def _holes_words(plate: PlateCut, style: Style) -> str:
    if not plate.holes:
        return "No holes."
    sizes = sorted({hole.diameter_m for hole in plate.holes})
    apart = [hypot(b.x_m - a.x_m, b.y_m - a.y_m) for a, b in zip(plate.holes, plate.holes[1:], strict=False)]  # fmt: skip
    told = f"{len(plate.holes)} to drill {', '.join(drill(one, style) for one in sizes)}"
    if apart and max(apart) - min(apart) < 1e-6:
        return f"{told}; {dimension(apart[0], style)} from middle to middle."
    if apart:
        return f"{told}; middle to middle in order: {', '.join(dimension(one, style) for one in apart)}."  # fmt: skip
    return f"{told}."


def _bars(width: float, height: float) -> list[str]:
    """50 mm and 2 in, along both ways of the sheet."""
    parts = []
    y = height - 12.5
    for nth, (long, words) in enumerate(BARS_MM):
        x = MARGIN_MM + nth * 80.0
        parts += _bar((x, y), (x + long, y), words, (x + long + 2.5, y + 1.2))
        x = width - 6.0 - 5.5 * (1 - nth)
        parts += _bar((x, height - 90.0), (x, height - 90.0 + long), words, (width - 4.5, height - 93.0 - 3.6 * (1 - nth)))  # fmt: skip
    return parts


def _bar(a: tuple[float, float], b: tuple[float, float], words: str, at: tuple[float, float]) -> list[str]:  # fmt: skip
    upright = a[0] == b[0]
    dx, dy = (1.8, 0.0) if upright else (0.0, 1.8)
    parts = [line(a, b, PAPER.ink, 0.45)]
    parts += [line((x - dx, y - dy), (x + dx, y + dy), PAPER.ink, 0.3) for x, y in (a, b)]
    return [*parts, say_pt(at, words, 8.5, "end" if upright else "start")]


def _proof(plates: tuple[PlateCut, ...], style: Style, paper: Paper, foot: str) -> Leaf:
    """What to measure before a centre is punched, and the list of what follows."""
    size = PAPERS[paper]
    wide, high = CARD_MM
    x, y = MARGIN_MM, 30.0
    body = [
        say_pt((MARGIN_MM, 18.0), "Drill templates at 1:1", 24, weight="bold"),
        *bank_card((x, y), ("Lay a bank card here.", "It must fit exactly, edge to edge.", "If not: print again at 100 %.")),
        *_bars(size.width_mm, size.height_mm),
        say_pt((MARGIN_MM, size.height_mm - 6.0), foot, 8),
    ]  # fmt: skip
    told = ("Measure the bars of each sheet, both ways,", "before a centre is punched.", "Cut on the outline, glue, punch through the", "middle of each hole, check middle to middle", "with a rule, then drill small and open up.", "Holes for pins are drilled or bored, not burned.")  # fmt: skip
    body += [say_pt((x + wide + 8.0, y + 6.0 + 6.0 * nth), words, 11) for nth, words in enumerate(told)]  # fmt: skip
    row = y + high + 14.0
    body.append(say_pt((MARGIN_MM, row), "What follows", 14, weight="bold"))
    for plate in plates:
        count = len(tiles_of(turned(plate, paper), paper))
        row += 8.0
        body.append(say_pt((MARGIN_MM, row), f"{plate.name}: {plate.count} off, {count} sheet{'s' if count > 1 else ''}", 12, weight="bold"))  # fmt: skip
        for words in (_holes_words(plate, style), *plate.notes):
            for part in _all_broken(words, 112):
                row += 4.6
                body.append(say_pt((MARGIN_MM + 4.0, row), part, 9.5))
    words = f"Proof of the print and list of templates: {', '.join(plate.name for plate in plates)}"
    return leaf(paper, "", body, "Drill templates, proof of the print", words)


def _all_broken(words: str, most: int) -> list[str]:
    from textwrap import wrap

    return wrap(words, most)
