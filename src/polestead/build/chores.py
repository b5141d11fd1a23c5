"""Chores for good, once it stands: what comes round by date or by use."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from polestead.base.table import table


@dataclass(frozen=True, slots=True)
class Chore:
    """One chore.

    Attributes:
        key: Short, as it stands in the daybook.
        name: What is done.
        also: Other words the owner may say for it.
        month: Of a yearly one, in the northern half; None where it goes by days.
        every_days: Between two, None where it is yearly or by use alone.
        every_moves: Moves of the array between two, None where they do not matter.
        every_engine_h: Engine hours between two, None where they do not matter.
        asks: What must be there: drive, engine, lead (a lead-acid bank), flooded (one with open cells); empty for all.
        why: Why it is done.
        words: How, with its caution.
        source: Where the rhythm comes from.
    """

    key: str
    name: str
    also: tuple[str, ...]
    month: int | None
    every_days: float | None
    every_moves: float | None
    every_engine_h: float | None
    asks: str
    why: str
    words: str
    source: str


@cache
def chores() -> tuple[Chore, ...]:
    """Every chore of the table.

    Example:
        >>> next(one for one in chores() if one.key == "engine oil").every_engine_h
        100.0
    """
    return tuple(
        Chore(
            row["key"], row["name"], tuple(row["also"].split("|")), int(row["month"]) if row["month"] else None,
            _number(row["every_days"]), _number(row["every_moves"]), _number(row["every_engine_h"]), row["for"],
            row["why"], row["words"], row["source"],
        )
        for row in table("build", "chores")
    )  # fmt: skip


def chore_words() -> dict[str, str]:
    """Whatever the owner may say for a chore, and its key.

    Example:
        >>> chore_words()["greased"], chore_words()["grease"]
        ('grease', 'grease')
    """
    return {word: one.key for one in chores() for word in (one.key, *one.also)}


def _number(text: str) -> float | None:
    return float(text) if text else None
