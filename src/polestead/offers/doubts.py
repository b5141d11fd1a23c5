"""What nobody has yet said is so, and the act that settles each.

Not ranked yet by how far each moves the answers: facts of the place stand first, then what else was assumed, then the
tool's own defaults, each in the order of the file (``ORDER`` says so to the owner).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from polestead.base.row import Row
from polestead.homestead.model import Homestead

ORDER = "Facts of the place first, then other guesses, then defaults; how far each moves the answers is not worked out yet."
_PLACES_IN_A_LIST = re.compile(r"\[\d+\]|\.\d+|\s+\d+$")


@dataclass(frozen=True, slots=True)
class Doubt:
    """One unsettled row.

    Attributes:
        row: The row, assumed or default.
        of_the_place: A fact of the place, which somebody there can tell.
        act: What settles it.
        trap: What goes wrong in the reply, empty where none is known.
    """

    row: Row
    of_the_place: bool
    act: str
    trap: str


def doubts_of(rows: Iterable[Row]) -> tuple[Doubt, ...]:
    """The unsettled rows, facts of the place first, each with the act that settles it.

    Args:
        rows: All rows of the file, in its order.
    """
    doubts = [_doubt(row) for row in rows if row.unsettled]
    return tuple(sorted(doubts, key=_rank))


def _rank(doubt: Doubt) -> int:
    """Facts of the place, guesses, defaults; the sort keeps the order of the file within each."""
    if doubt.of_the_place:
        return 0
    return 1 if doubt.row.standing == "assumed" else 2


def _doubt(row: Row) -> Doubt:
    asked = _asked().get((_PLACES_IN_A_LIST.sub("", row.section), row.key))
    if asked is not None:
        whom = asked["ask"]
        return Doubt(row, True, f"{whom[0].upper()}{whom[1:]}: {asked['question']}", asked["trap"])
    where = f"[{row.section}] {row.key}" if row.section else row.key
    act = f"Measure it, or read it off the maker's sheet, and write it at {where}."
    return Doubt(row, False, act, "")


@cache
def _asked() -> dict[tuple[str, str], dict[str, str]]:
    """The fields that are asked for, by section and key."""
    return {
        (section, key): {name: str(extra.get(name, "")) for name in ("ask", "question", "trap")}
        for section, key, field in _fields(Homestead, "")
        if isinstance(extra := field.json_schema_extra, dict) and extra.get("ask")
    }


def _fields(model: type[BaseModel], section: str) -> Iterator[tuple[str, str, FieldInfo]]:
    """Every field of the file: its section with dots, its key, itself."""
    for name, field in model.model_fields.items():
        key = field.alias or name
        yield section, key, field
        for part in _parts(field.annotation):
            yield from _fields(part, f"{section}.{key}".strip("."))


def _parts(annotation: Any) -> Iterator[type[BaseModel]]:
    """The sections inside a field's type, through tuples and unions."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _parts(inner)
