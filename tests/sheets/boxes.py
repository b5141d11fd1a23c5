"""Where the words and lines of a drawing lie, letters taken as wide as the face's mean, heavy ones an eighth wider."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import combinations, pairwise

from polestead.sheets.svg import Ink

SVG = "{http://www.w3.org/2000/svg}"
HEAVY = 1.12
Box = tuple[str, float, float, float, float]
Segment = tuple[tuple[float, float], tuple[float, float]]


def text_boxes(svg: str, ink: Ink) -> list[Box]:
    found = []
    for text in ET.fromstring(svg).iter(f"{SVG}text"):  # noqa: S314  our own drawing
        words, high = text.text or "", float(text.get("font-size", 0))
        wide = len(words) * high * ink.letter * (HEAVY if text.get("font-weight") else 1.0)
        x, y = float(text.get("x", 0)), float(text.get("y", 0))
        x -= {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
        found.append((words, x, y - high * 0.75, x + wide, y + high * 0.2))
    return found


def size_of(svg: str) -> tuple[float, float]:
    _, _, wide, high = (ET.fromstring(svg).get("viewBox") or "").split()  # noqa: S314
    return float(wide), float(high)


def outside(svg: str, ink: Ink) -> list[str]:
    wide, high = size_of(svg)
    return [
        words
        for words, x1, y1, x2, y2 in text_boxes(svg, ink)
        if x1 < 0.0 or y1 < 0.0 or x2 > wide or y2 > high
    ]


def overlaps(svg: str, ink: Ink) -> list[tuple[str, str]]:
    return [
        (one[0], two[0])
        for one, two in combinations(text_boxes(svg, ink), 2)
        if not (one[3] <= two[1] or two[3] <= one[1] or one[4] <= two[2] or two[4] <= one[2])
    ]


def level_and_upright_lines(svg: str) -> list[Segment]:
    """Lines that run level or upright and stand in no group: all wires of a one-line."""
    root = ET.fromstring(svg)  # noqa: S314  our own drawing
    found: list[Segment] = []
    for one in root:
        if one.tag == f"{SVG}polyline":
            points = [tuple(map(float, p.split(","))) for p in (one.get("points") or "").split()]
            found += list(pairwise(points))  # type: ignore[arg-type]
        if one.tag == f"{SVG}line":
            a = (float(one.get("x1", 0)), float(one.get("y1", 0)))
            b = (float(one.get("x2", 0)), float(one.get("y2", 0)))
            found.append((a, b))
    return [(a, b) for a, b in found if a[0] == b[0] or a[1] == b[1]]


def crossed(svg: str, ink: Ink) -> list[str]:
    """Words a wire runs through."""
    return [
        words
        for words, x1, y1, x2, y2 in text_boxes(svg, ink)
        for a, b in level_and_upright_lines(svg)
        if min(a[0], b[0]) < x2
        and max(a[0], b[0]) > x1
        and min(a[1], b[1]) < y2
        and max(a[1], b[1]) > y1
    ]
