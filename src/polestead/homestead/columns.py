"""Which column of a table of the owner's holds what, chosen by meaning: ``charge = "column 4, %"``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, get_args

from polestead.base.quantity import units

Meaning = Literal[
    "moment", "day", "time", "offset", "tilt", "rod", "charge", "rest", "made", "all_made", "engine", "meter", "fuel",
    "tank", "snow", "gust", "bank", "done", "note",
]  # fmt: skip
Order = Literal["", "year first", "day first", "month first"]
MEANINGS: tuple[str, ...] = get_args(Meaning)
COLUMN_FORMS = (
    '"column 4, %", "column 1, day first", "headed Engine, h" or "column 7, kWh, decimal comma"'
)
_WHERE = re.compile(r"""column\s+(?P<number>\d{1,3})|headed\s+(?:"(?P<quoted>[^"]+)"|(?P<plain>[^,"]+))""", re.IGNORECASE)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ColumnWords:
    """A column as the owner names it.

    Attributes:
        written: His words.
        number: Of the column, from 1; None where it is named by its heading.
        heading: Of the column, empty where it goes by number.
        unit: Of bare numbers in it; empty where each carries its own.
        order: Of day, month and year in its dates; empty: year first, or told.
        decimal_comma: Its numbers have a comma where others have a point.
    """

    written: str
    number: int | None
    heading: str
    unit: str
    order: Order
    decimal_comma: bool


def column_words(written: object) -> ColumnWords:
    """Read how a column is named.

    Raises:
        ValueError: It names none.

    Example:
        >>> words = column_words("column 4, %")
        >>> words.number, words.unit
        (4, '%')
        >>> words = column_words("headed Datum, day first")
        >>> words.heading, words.order
        ('Datum', 'day first')
    """
    text = " ".join(str(written).split())
    found = _WHERE.match(text)
    rest = "" if found is None else text[found.end() :].strip()
    if found is None or (rest and not rest.startswith(",")) or (found["number"] and int(found["number"]) == 0):  # fmt: skip
        message = f"{text[:60]} names no column: write it as {COLUMN_FORMS}"
        raise ValueError(message)
    unit, order, comma = "", "", False
    for word in (one.strip() for one in rest.split(",")[1:]):
        if word.lower() in get_args(Order)[1:] and not order:
            order = word.lower()
        elif word.lower() == "decimal comma":
            comma = True
        elif word in units() and not unit:
            unit = word
        else:
            message = f"{word or 'nothing'} is no unit, no order of dates (year first, day first, month first) and not 'decimal comma': write {COLUMN_FORMS}"
            raise ValueError(message)
    number = int(found["number"]) if found["number"] else None
    heading = (found["quoted"] or found["plain"] or "").strip()
    return ColumnWords(text, number, heading, unit, order, comma)  # type: ignore[arg-type]


def column_sentence(written: str) -> str:
    """The sentence as it stands, if it names a column.

    Raises:
        ValueError: It names none.
    """
    column_words(written)
    return written
