"""The asking list: whom to ring, the sentence to say, the trap in the reply."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from polestead.base.row import Row
from polestead.base.table import table
from polestead.build.result import Question
from polestead.homestead.fields import extra_of, key_of
from polestead.homestead.model import BuriedLine, Place


def asking_list(rows: Iterable[Row]) -> tuple[Question, ...]:
    """A question for every fact of the place that nobody has confirmed; an answer without its date is asked again.

    Args:
        rows: The homestead's rows.
    """
    asks = _asks()
    return tuple(
        Question(row, asks[row.key]["ask"], asks[row.key]["question"], asks[row.key]["trap"])
        for row in rows
        if row.section == "place"
        and row.key in asks
        and (row.unsettled or (row.standing == "said" and row.on is None))
    )


@dataclass(frozen=True, slots=True)
class AskingLine:
    """One subject of the leaf.

    Attributes:
        subject: In a word or two.
        whom: Whom to ring.
        sentence: To say.
        trap: In the reply.
        key: Of the file, where the answer goes (``place.wind_speed``).
        now: What the file says now, ``~`` before what nobody has confirmed; empty: nothing.
        settled: Somebody has been asked, with a date, or it was measured as built.
        write: How the answer is written into the file.
        source: Whose words they are.
    """

    subject: str
    whom: str
    sentence: str
    trap: str
    key: str
    now: str
    settled: bool
    write: str
    source: str


def asking_leaf(rows: Iterable[Row], buried: tuple[BuriedLine, ...]) -> tuple[AskingLine, ...]:
    """All ten subjects, asked or not: wind, snow, frost, record low, soil, height limit, setback, buried lines, concrete, steel.

    Args:
        rows: The homestead's rows.
        buried: The owner's own lines in the file.
    """
    by_key = {(row.section, row.key): row for row in rows}
    asks = _asks()
    lines = []
    for one in table("build", "asking"):
        said = asks.get(one["key"], {}) if one["section"] == "place" else {}
        row = by_key.get((one["section"], one["key"]))
        now = "" if row is None else f"{row.mark}{row.written}"
        if one["subject"] == "buried lines":
            now = ", ".join(line.name for line in buried)
        lines.append(
            AskingLine(
                one["subject"], one["whom"] or said["ask"], one["sentence"] or said["question"], one["trap"] or said["trap"],
                ".".join(part for part in (one["section"], one["key"]) if part), now,
                row is not None and (row.standing == "built" or (row.standing == "said" and row.on is not None)),
                one["write"], one["source"],
            )
        )  # fmt: skip
    return tuple(lines)


def _asks() -> dict[str, dict[str, str]]:
    """The fields of the place that are asked for, by key."""
    return {
        key_of(name): extra_of(info)
        for name, info in Place.model_fields.items()
        if "ask" in extra_of(info)
    }
