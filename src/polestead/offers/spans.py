"""Over what span a doubtful row may plausibly lie, and how each end would be written in the file."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import Any, Literal, cast

from polestead.base.quantity import in_unit
from polestead.base.row import Row
from polestead.base.show import significant
from polestead.base.source import Source, Status
from polestead.base.table import table

Moves = Literal["stand", "house", "wires"]
_NUMBER_AND_UNIT = re.compile(r"\s*([-+]?\d+(?:\.\d+)?)\s*([^\d\s].*?)?\s*$")
_ITS_NUMBER = re.compile(r"\[\d+\]|\.\d+|\s+[^.]*")


@dataclass(frozen=True, slots=True)
class Variant:
    """One end of a span.

    Attributes:
        written: As the owner would write it.
        value: What goes into the file's text; None where the file's text stays as it is.
        uses_times: The house uses so many times what was worked.
        lean: To which side of the weather source's error the years lean, -1 dark to 1 bright.
    """

    written: str
    value: Any = None
    uses_times: float = 1.0
    lean: float = 0.0


@dataclass(frozen=True, slots=True)
class Span:
    """The plausible span of a row.

    Attributes:
        variants: Its ends, without what stands in the file.
        moves: Which of the sums it enters.
        act: What settles it, empty where it is measured or read off a sheet like anything else.
        source: Who says that it is plausible.
    """

    variants: tuple[Variant, ...]
    moves: Moves
    act: str
    source: Source


def span_of(row: Row) -> Span | None:
    """The span of a row, None where none is known or it cannot be laid on what is written.

    Source: ``spans.csv`` beside this room, a source to each line; most are judgements of ours and say so.

    Args:
        row: An unsettled row of the file.

    Example:
        >>> wind = Row("place", "wind_speed", "107 mph", 47.8, "m/s", "assumed")
        >>> [end.written for end in span_of(wind).variants]
        ['94.2 mph', '123 mph']
        >>> [end.written for end in span_of(Row("place", "exposure", "C", "C", "", "assumed")).variants]
        ['B', 'D']
    """
    line = _line(_ITS_NUMBER.sub("", row.section), row.key)
    if line is None:
        return None
    variants = tuple(end for end in _ends(line, row) if end.written != row.written)
    if not variants:
        return None
    source = Source(line["source"], status=cast("Status", {"practice": "common practice"}.get(line["status"], line["status"])))  # fmt: skip
    return Span(variants, cast("Moves", line["moves"]), line["act"], source)


def _line(section: str, key: str) -> dict[str, str] | None:
    for line in table("offers", "spans"):
        if line["section"] == section and line["key"] in (key, "*"):
            return line
    return None


def _ends(line: dict[str, str], row: Row) -> tuple[Variant, ...]:
    low, high, kind = line["low"], line["high"], line["kind"]
    if kind == "times":
        return tuple(_scaled(row, float(times)) for times in (low, high) if float(times) != 1.0)
    if kind == "plus":
        return tuple(one for more in (low, high) if (one := _moved(row, more)) is not None)
    if kind == "beside":
        return tuple(Variant(word, word) for word in _neighbours(row.written, low, high))
    if kind == "uses":
        return tuple(Variant(f"{float(times):g} times as much", None, float(times)) for times in (low, high))  # fmt: skip
    if kind == "lean":
        sides = {-1.0: "as dark as its error allows", 1.0: "as bright as its error allows"}
        return tuple(Variant(sides[float(lean)], None, 1.0, float(lean)) for lean in (low, high))
    return tuple(_named(word) for word in _words(low))


def _scaled(row: Row, times: float) -> Variant:
    """The owner's own number and unit where he wrote one of each, else SI."""
    found = _NUMBER_AND_UNIT.match(row.written)
    if found:
        text = f"{significant(float(found[1]) * times, 3)} {found[2] or ''}".strip()
    else:
        text = f"{significant(float(row.value) * times, 4)} {row.unit}".strip()
    return Variant(text, text if row.unit or "%" in text else float(text))


def _moved(row: Row, more: str) -> Variant | None:
    """So much more or less; None where it does not move (0) or the row is no number."""
    if isinstance(row.value, str):
        return None
    percent = more.endswith("%")
    step = float(more.removesuffix("%")) / 100.0 if percent else _difference(more)
    value = row.value + step
    if percent:
        value = min(value, 1.0)
        text = f"{significant(100.0 * value, 3)} %"
    else:
        found = _NUMBER_AND_UNIT.match(row.written)
        unit = found[2] if found and found[2] else row.unit
        try:
            text = f"{significant(in_unit(value, unit), 3)} {unit}"
        except (KeyError, ValueError):
            text = f"{significant(value, 3)} {row.unit}"
    return Variant(text, text) if value != row.value else None


def _difference(text: str) -> float:
    """A difference of temperatures or angles, as ``-6 C``: no zero of a scale is in it."""
    found = _NUMBER_AND_UNIT.match(text)
    if not found or found[2] not in ("C", "deg"):
        message = f"{text} is no difference"
        raise ValueError(message)
    return float(found[1])


def _neighbours(word: str, *orders: str) -> tuple[str, ...]:
    """What stands beside a word in the order it belongs to."""
    for order in orders:
        words = order.split("|")
        if word in words:
            at = words.index(word)
            return tuple(words[max(at - 1, 0) : at] + words[at + 1 : at + 2])
    return ()


def _words(text: str) -> tuple[str, ...]:
    return (text,) if text.startswith("[") else tuple(filter(None, text.split("|")))


def _named(word: str) -> Variant:
    if word.startswith("["):
        many = json.loads(word)
        return Variant("; ".join(many), many)
    if word in ("true", "false"):
        return Variant(word, word == "true")
    try:
        return Variant(word, float(word))
    except ValueError:
        return Variant(word, word)
