"""Strokes of a drawing as straight pieces, read back from its own SVG; and the words they run through."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from itertools import pairwise
from math import cos, pi, radians, sin

from polestead.sheets.svg import Ink
from tests.sheets.boxes import HEAVY, SVG, Box

Point = tuple[float, float]
Piece = tuple[float, float, float, float]
PAPER = ("none", "transparent", "var(--leaf)")
WORD = re.compile(r"[MLHVCSAZmlhvcsaz]|-?\d*\.?\d+(?:e-?\d+)?")
NUMBERS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "A": 7, "Z": 0}
STEPS = 10


def pieces_of(node: ET.Element) -> Iterator[Piece]:
    """Every inked stroke under a node, groups turned and moved as they say; fills of patterns left out."""
    yield from _walk(node, (0.0, 0.0, 0.0, 0.0, 0.0))


def _walk(node: ET.Element, move: tuple[float, float, float, float, float]) -> Iterator[Piece]:
    if node.tag == f"{SVG}defs":
        return
    turned = re.match(r"rotate\((\S+) (\S+) (\S+)\)", node.get("transform", ""))
    moved = re.match(r"translate\((\S+) (\S+)\)", node.get("transform", ""))
    if turned:
        move = (*(float(one) for one in turned.groups()), 0.0, 0.0)  # type: ignore[assignment]
    if moved:
        move = (0.0, 0.0, 0.0, float(moved[1]), float(moved[2]))
    if node.get("stroke", "none") not in PAPER and node.tag != f"{SVG}text":
        for points in _shape(node):
            for a, b in pairwise(_moved(point, move) for point in points):
                yield (*a, *b)
    for child in node:
        yield from _walk(child, move)


def _moved(at: Point, move: tuple[float, float, float, float, float]) -> Point:
    degrees, x, y, dx, dy = move
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return x + (at[0] - x) * c - (at[1] - y) * s + dx, y + (at[0] - x) * s + (at[1] - y) * c + dy


def _shape(node: ET.Element) -> Iterator[list[Point]]:
    kind = node.tag.removeprefix(SVG)
    number = lambda name: float(node.get(name, 0.0))  # noqa: E731
    if kind == "path":
        yield from _path(node.get("d", ""))
    elif kind == "line":
        yield [(number("x1"), number("y1")), (number("x2"), number("y2"))]
    elif kind in ("polyline", "polygon"):
        points = [(float(x), float(y)) for x, y in (one.split(",") for one in node.get("points", "").split())]  # fmt: skip
        yield [*points, points[0]] if kind == "polygon" else points
    elif kind in ("circle", "ellipse"):
        rx, ry = (number("r"), number("r")) if kind == "circle" else (number("rx"), number("ry"))
        turns = [2.0 * pi * n / 24 for n in range(25)]
        yield [(number("cx") + rx * cos(t), number("cy") + ry * sin(t)) for t in turns]
    elif kind == "rect":
        x, y, w, h = (number(name) for name in ("x", "y", "width", "height"))
        yield [(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)]


def _path(d: str) -> Iterator[list[Point]]:
    """Straight pieces of a path; an arc of a circle is taken by its chord's own bow."""
    words, n, at, kind = WORD.findall(d), 0, (0.0, 0.0), "M"
    points: list[Point] = []
    while n < len(words):
        if words[n].isalpha():
            kind, n = words[n], n + 1
        big, count = kind.upper(), NUMBERS[kind.upper()]
        given = [float(word) for word in words[n : n + count]]
        n += count
        x, y = at if kind.islower() else (0.0, 0.0)
        if big == "M":
            if points:
                yield points
            at = (x + given[0], y + given[1])
            points, kind = [at], "l" if kind == "m" else "L"
        elif big == "Z":
            points.append(points[0])
        elif big == "H":
            at = (x + given[0], at[1])
            points.append(at)
        elif big == "V":
            at = (at[0], y + given[0])
            points.append(at)
        elif big == "C":
            b, c, end = ((x + given[k], y + given[k + 1]) for k in (0, 2, 4))
            points += [_bow(at, b, c, end, step / STEPS) for step in range(1, STEPS + 1)]
            at = end
        elif big == "A":
            end = (x + given[5], y + given[6])
            points += _arc(at, end, given[0], bool(given[4]))
            at = end
        else:
            at = (x + given[-2], y + given[-1])
            points.append(at)
    if points:
        yield points


def _bow(a: Point, b: Point, c: Point, d: Point, s: float) -> Point:
    shares = ((1 - s) ** 3, 3 * s * (1 - s) ** 2, 3 * s * s * (1 - s), s**3)
    x, y = (sum(share * one[k] for share, one in zip(shares, (a, b, c, d), strict=True)) for k in (0, 1))  # fmt: skip
    return x, y


def _arc(a: Point, b: Point, radius: float, clockwise: bool) -> list[Point]:
    """The smaller arc of a circle from one point to another."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    far = (dx * dx + dy * dy) ** 0.5
    if far < 1e-9:
        return [b]
    up = max(radius * radius - far * far / 4.0, 0.0) ** 0.5 * (-1.0 if clockwise else 1.0)
    cx, cy = (a[0] + b[0]) / 2.0 + up * dy / far, (a[1] + b[1]) / 2.0 - up * dx / far
    found = []
    for step in range(1, STEPS + 1):
        x, y = a[0] + dx * step / STEPS - cx, a[1] + dy * step / STEPS - cy
        long = (x * x + y * y) ** 0.5 or 1.0
        found.append((cx + x / long * radius, cy + y / long * radius))
    return found


def words_of(node: ET.Element, ink: Ink) -> Iterator[Box]:
    """Every word under a node with its box, a little less than its letters may take."""
    for text in node.iter(f"{SVG}text"):
        words, high = text.text or "", float(text.get("font-size", 0))
        letters = len(words) + 0.5 * sum(letter in "mwMW" for letter in words)
        wide = letters * high * ink.letter * (HEAVY if text.get("font-weight") else 1.0)
        x, y = float(text.get("x", 0)), float(text.get("y", 0))
        x -= {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
        yield words, x + 1.0, y - high * 0.72, x + wide - 1.0, y + high * 0.2


def run_through(words: list[Box], pieces: list[Piece]) -> list[str]:
    """Words that a stroke runs through."""
    found = []
    for name, left, top, right, bottom in words:
        for x1, y1, x2, y2 in pieces:
            if max(x1, x2) <= left or min(x1, x2) >= right or max(y1, y2) <= top or min(y1, y2) >= bottom:  # fmt: skip
                continue
            if _cut(x1, y1, x2, y2, left, top, right, bottom):
                found.append(f"{name} | {x1:.0f} {y1:.0f} {x2:.0f} {y2:.0f}")
                break
    return found


def _cut(x1: float, y1: float, x2: float, y2: float, left: float, top: float, right: float, bottom: float) -> bool:  # fmt: skip
    """Whether a straight piece has a point inside a box: an end in it, or a side of it crossed."""
    for n in range(41):
        x, y = x1 + (x2 - x1) * n / 40, y1 + (y2 - y1) * n / 40
        if left < x < right and top < y < bottom:
            return True
    return False
