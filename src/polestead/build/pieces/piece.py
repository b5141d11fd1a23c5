"""One line of the list of pieces, what it costs, and how its letter is given."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import pi
from typing import Literal

from polestead.base.show import Style, cut_length, reaching, sawn
from polestead.homestead.model import Prices
from polestead.strength.pole import material

StockKind = Literal["pole", "tube", "rebar", "round"]
STEEL_KG_M3 = 7850.0


@dataclass(frozen=True, slots=True)
class Piece:
    """One line of the list of pieces.

    Attributes:
        mark: Letter on the drawing and on the steel.
        name: What.
        count: How many.
        material: As the owner names it.
        length_m: Cut length of each, None for what is not cut.
        mass_kg: Of all of them together, None where it is not known.
        guessed: Whether that mass is taken from a usual size, for want of the file's.
        reaches: Whether it must reach and is cut rather too long: a wire, a pipe, a ribbon.
        to_weigh: Whether it is lifted with the rest and nobody knows what it weighs.
        where: Where it goes.
        how: How its length came about, or what to know before it is cut.
        price: Of all of them, None where not known: never invented.
        paid_in: Line of the prices it is part of, where that line holds more than this.
        cut_from: What kind of bar it is cut from, None for what is not.
    """

    name: str
    count: int
    material: str
    length_m: float | None
    mass_kg: float | None
    where: str
    how: str = ""
    cut_from: StockKind | None = None
    mark: str = ""
    price: float | None = None
    paid_in: str = ""
    guessed: bool = False
    to_weigh: bool = False
    reaches: bool = False

    def long(self, style: Style) -> str:
        """Its length as it is marked: sawn down to the mark, or long enough to reach; empty for what is not cut."""
        if self.length_m is None:
            return ""
        if self.reaches:
            return reaching(self.length_m, style)
        return (cut_length if self.cut_from is None else sawn)(self.length_m, style)


@dataclass(frozen=True, slots=True)
class Listed:
    """Some pieces, and what the file does not give of them.

    Attributes:
        pieces: Lines of the list.
        not_given: In words: what to measure, choose or ask before it can be bought.
    """

    pieces: tuple[Piece, ...]
    not_given: tuple[str, ...] = ()


def letters() -> Iterator[str]:
    """A to Z without I and O, then AA, AB, ...: I and O are read as 1 and 0 on steel.

    Example:
        >>> from itertools import islice
        >>> list(islice(letters(), 26))[-3:]
        ['Z', 'AA', 'AB']
    """
    signs = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    yield from signs
    for first in signs:
        for second in signs:
            yield first + second


def marked(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Each line with its letter."""
    return tuple(replace(piece, mark=mark) for piece, mark in zip(pieces, letters(), strict=False))


def priced(pieces: Iterable[Piece], prices: Prices) -> tuple[Piece, ...]:
    """Each line with its price: by the metre of its stock, else from a line of the prices that holds it alone.

    A line that holds several things (``rails_clamps_hinge``) is named, and not shared out.

    Args:
        pieces: Lines.
        prices: The prices section.
    """
    return tuple(_priced(piece, prices) for piece in pieces)


def _priced(piece: Piece, prices: Prices) -> Piece:
    per_m = prices.stock.get(piece.material)
    if per_m is not None and piece.length_m is not None:
        return replace(piece, price=piece.count * piece.length_m * per_m)
    head = _words(re.split(r",| on | of ", piece.name)[0].split())
    for line, amount in prices.lines.items():
        words = _words(line.split("_"))
        if words == head:
            return replace(piece, price=amount)
        if words & head:
            return replace(piece, paid_in=line)
    return piece


def _words(parts: Iterable[str]) -> frozenset[str]:
    return frozenset(part.lower().removesuffix("s") for part in parts) - {"and", "or"}


def bar_kg(diameter_m: float, length_m: float, steel: str = "") -> float:
    """Mass of a round bar.

    Args:
        diameter_m: Its diameter [m].
        length_m: Its length [m].
        steel: A row of ``materials.csv``; plain steel where it has none.

    Example:
        >>> round(bar_kg(0.016, 1.0), 2)
        1.58
    """
    try:
        density = float(material(steel)["density_kg_m3"])
    except StopIteration:
        density = STEEL_KG_M3
    return pi / 4.0 * diameter_m**2 * length_m * density
