"""What nobody has yet said is so, the act that settles each, and how far each moves the answers.

``doubts_of`` lists them at once: facts of the place first, then what else was assumed, then the tool's own defaults.
``ranked`` works each at the ends of its plausible span and puts first what moves the answers most.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from polestead.base.row import Row
from polestead.base.table import table
from polestead.homestead.model import Homestead
from polestead.homestead.read import OwnersFile
from polestead.offers.reach import Reach, Trials
from polestead.offers.spans import span_of

ORDER = "Facts of the place first, then other guesses, then defaults; how far each moves the answers: polestead doubts FILE."
RANKED = (
    "What turns the verdict stands first; then by the largest move, counted in steps of 5 mph of gust, 5 of 100 of a part's "
    "strength, a tenth of the engine's hours, 5 volts of room (our own measure)."
)
MEASURE = "Measure it, or read it off the maker's sheet."
Progress = Callable[[str, int, int], None]
_PLACES_IN_A_LIST = re.compile(r"\[\d+\]|\.\d+|\s+\d+$")


@dataclass(frozen=True, slots=True)
class Ranked:
    """An unsettled row and how far it moves the answers.

    Attributes:
        doubt: The row and the act that settles it.
        reach: What its span does; None where no span is known, which is not to say that it does nothing.
    """

    doubt: Doubt
    reach: Reach | None

    @property
    def act(self) -> str:
        """What settles it: whom to ask, else what to look at, else to measure it."""
        if self.doubt.of_the_place or self.reach is None:
            return self.doubt.act
        return self.reach.span.act or self.doubt.act

    @property
    def brief(self) -> str:
        """The same for a link: whom to ask, or the act without its stop."""
        return self.doubt.brief if self.act == self.doubt.act else _brief(self.act)

    @property
    def in_full(self) -> str:
        """The act, and where its outcome is written."""
        return self.doubt.in_full if self.act == self.doubt.act else self.act


@dataclass(frozen=True, slots=True)
class Doubt:
    """One unsettled row.

    Attributes:
        row: The row, assumed or default.
        of_the_place: A fact of the place, which somebody there can tell.
        act: What settles it: whom to ask and what, or to measure it.
        write_at: Section and key the outcome is written at; empty where the act is to ask, and the reply is written by ``polestead ask``.
        trap: What goes wrong in the reply, empty where none is known.
    """

    row: Row
    of_the_place: bool
    act: str
    write_at: str
    trap: str

    @property
    def brief(self) -> str:
        """The act for a link: whom to ask, or the act without its stop."""
        return _brief(self.act)

    @property
    def in_full(self) -> str:
        """The act, and where its outcome is written."""
        return f"{self.act[:-1]}, and write it at {self.write_at}." if self.write_at else self.act


def _brief(act: str) -> str:
    return act.partition(":")[0].removesuffix(".")


def doubts_of(rows: Iterable[Row]) -> tuple[Doubt, ...]:
    """The unsettled rows, facts of the place first, each with the act that settles it.

    Args:
        rows: All rows of the file, in its order.
    """
    doubts = [_doubt(row) for row in rows if row.unsettled]
    return tuple(sorted(doubts, key=_rank))


def ranked(
    owners: OwnersFile, text: str, seed: int = 1, progress: Progress | None = None
) -> tuple[Ranked, ...]:
    """The unsettled rows, what moves the answers most first.

    Each row is moved alone, all others as they stand, over the same years: two doubts that matter only together are
    not seen.  Some seconds; the progress may raise to stop it.

    Args:
        owners: The file as read.
        text: Its text, which is tried with other writings and never written.
        seed: Of the years.
        progress: Told which row is worked, how many are done, and of how many.
    """
    doubts = doubts_of(owners.rows)
    trials = Trials(owners, text, seed)
    spans = [(doubt, span_of(doubt.row)) for doubt in doubts]
    many = sum(span is not None for _, span in spans)
    found: list[Ranked] = []
    done = 0
    for doubt, span in spans:
        if span is None:
            found.append(Ranked(doubt, None))
            continue
        if progress is not None:
            progress(
                f"{doubt.row.section} {doubt.row.key}".replace("_", " ").replace(".", " "),
                done,
                many,
            )
        found.append(Ranked(doubt, trials.reach(doubt.row, span)))
        done += 1
    return tuple(
        sorted(found, key=lambda one: -1.0 if one.reach is None else one.reach.points, reverse=True)
    )


def _rank(doubt: Doubt) -> int:
    """Facts of the place, guesses, defaults; the sort keeps the order of the file within each."""
    if doubt.of_the_place:
        return 0
    return 1 if doubt.row.standing == "assumed" else 2


def _doubt(row: Row) -> Doubt:
    asked = _asked().get((_PLACES_IN_A_LIST.sub("", row.section), row.key))
    if asked is not None:
        whom = asked["ask"]
        return Doubt(
            row, True, f"{whom[0].upper()}{whom[1:]}: {asked['question']}", "", asked["trap"]
        )
    where = f"[{row.section}] {row.key}" if row.section else row.key
    return Doubt(row, False, _act(row.section, row.key), where, "")


def _act(section: str, key: str) -> str:
    """What settles a row nobody is asked for: of its key, else of its section, else of the section that holds it.

    Example:
        >>> _act("household.controller roof", "efficiency")
        "Read it off the controller's sheet, or ask its maker."
    """
    names = [word.split()[0] for word in _PLACES_IN_A_LIST.sub("", section).split(".") if word]
    if names[:1] == ["spot"]:  # whatever of another place: one walks there
        names = names[:1]
    holders = [".".join(names[:deep]) for deep in range(len(names), 0, -1)]
    ways = [(holder, of) for holder in holders for of in (key, "")]
    return next((_acts()[way] for way in ways if way in _acts()), MEASURE)


@cache
def _acts() -> dict[tuple[str, str], str]:
    return {(row["section"], row["key"]): row["act"] for row in table("offers", "acts")}


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
