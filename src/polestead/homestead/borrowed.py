"""Defaults as they count in this file: the clause of its own codes, or that it is borrowed; the length of its own yard."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from polestead.base.edition import READ, in_edition
from polestead.base.row import Row
from polestead.base.source import Source
from polestead.homestead.model import Homestead, Place

STEEL_AND_SOIL = ("ASCE", "IBC", "ACI", "AISC")
WIRES = {"NEC": ("NEC", "UL "), "Canada": ("CSA",), "IEC": ("IEC", "EN 5")}
METRIC = " in a metric file"
BORROWED = "borrowed from the United States: "


def of_this_file(rows: Iterable[Row], homestead: Homestead) -> tuple[Row, ...]:
    """The rows, each default with the clause of the code that counts, out of several; a foreign one told as borrowed.

    Args:
        rows: Of a file.
        homestead: The file: its codes and units.
    """
    return tuple(_counting(row, homestead) if row.standing == "default" else row for row in rows)


def _counting(row: Row, homestead: Homestead) -> Row:
    own = replace(row, source=_own(row.source, homestead.place))
    if not row.written.endswith(METRIC):
        return own
    feet, _, metric = row.written.removesuffix(METRIC).partition("; ")
    words = feet if homestead.units == "feet" else metric
    return replace(own, written=words, value=words)


def _own(source: str, place: Place) -> str:
    """Clauses are parted by semicolons; what names no code stays."""
    clauses = source.split("; ")
    own = [_edition(clause, place) for clause in clauses if not _foreign(clause, place)]
    if own:
        return "; ".join(own)
    american = [clause for clause in clauses if clause.startswith((*STEEL_AND_SOIL, *WIRES["NEC"]))]
    return f"{BORROWED}{'; '.join(american)}" if american else source


def _edition(clause: str, place: Place) -> str:
    work, _, where = clause.partition(", ")
    return str(in_edition(Source(READ, where), place.wind_basis)) if work == READ else clause


def _foreign(clause: str, place: Place) -> bool:
    if clause.startswith(STEEL_AND_SOIL):
        return place.wind_basis == "EN 1991-1-4"
    if clause.startswith("EN 19"):
        return place.wind_basis != "EN 1991-1-4"
    others = tuple(
        word for code, words in WIRES.items() if code != place.wired_by for word in words
    )
    return clause.startswith(others)
