"""The ledger added up: by part, by stage, what is still to pay, whose hours went in."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import get_args

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.homestead.ledger import LedgerRow, Stage
from polestead.homestead.model import Part

PARTS: tuple[str, ...] = get_args(Part)
SUM = Source("the ledger", status="computed")
POUR = Source("the hole's volume and a tenth more, times the price by volume", status="computed")

# Words of a line's name, looked through from the top; short ones whole, longer ones by their beginning.  Ours.
_WORDS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("grants", ("grant", "rebate", "subsid", "incentive")),
    ("tools and hire", ("hire", "hired", "rent", "rental", "rented", "crane", "digger", "excavator", "auger", "machine", "tool", "telehandler", "scaffold", "freight", "delivery", "trip")),
    ("papers", ("permit", "inspect", "engineer", "stamp", "fee", "survey", "licence", "license", "electrician")),
    ("wires", ("cable", "wire", "wiring", "conduit", "duct", "trench", "gland", "combiner")),
    ("controller and guards", ("controller", "breaker", "fuse", "disconnect", "arrester", "meter", "shunt")),
    ("drive and lock", ("actuator", "drive", "lock", "prop", "motor", "switch", "winch")),
    ("array", ("module", "panel")),
    ("footing", ("concrete", "cement", "footing", "pier", "rebar", "cage", "form", "formwork", "gravel", "bag")),
    ("pole and frame", ("pole", "post", "pipe", "steel", "alumin", "strongback", "rail", "clamp", "hinge", "frame", "mount", "tube", "bolt", "weld", "welding", "painting", "galvan", "paint", "zinc", "bracket")),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class LedgerLine:
    """One line as it counts.

    Attributes:
        name: What it is.
        part: What it belongs to.
        part_guessed: Whether that was guessed from the name.
        stage: The latest that has a figure; empty for hours alone.
        amount: The figure that counts; 0 for hours alone.
        on: Its day, or None.
        hours: Of work, or None.
        by: Whose.
        rate: What one of them is worth, or None.
        note: The owner's own.
        mark: ``~`` where the figure is estimated or assumed.
    """

    name: str
    part: str
    part_guessed: bool
    stage: str
    amount: float
    on: date | None
    hours: float | None
    by: str
    rate: float | None
    note: str
    mark: str


@dataclass(frozen=True, slots=True)
class PartTotal:
    """All lines of one part.

    Attributes:
        part: Its name.
        planned, quoted, paid: What counts at each stage; each line stands at its latest stage only.
        total: Their sum.
        still_to_pay: What is planned or quoted, grants left out.
        hours: Of work.
    """

    part: str
    planned: float
    quoted: float
    paid: float
    total: float
    still_to_pay: float
    hours: float


@dataclass(frozen=True, slots=True)
class Worker:
    """Hours of one person.

    Attributes:
        by: Who; empty where the ledger does not say.
        hours: All of them.
        priced_hours: Those with a rate.
        worth: What these are worth at their rates; beside, never in the sum of money.
    """

    by: str
    hours: float
    priced_hours: float
    worth: float


@dataclass(frozen=True, slots=True)
class Ledger:
    """The ledger added up.

    Attributes:
        lines: As they count.
        parts: Totals by part, in the order of the work; parts without a line are left out.
        planned, quoted, paid: Totals by stage.
        total: Their sum.
        still_to_pay: Planned and quoted money that will still go out.
        grants_to_come: Grants planned or quoted, not yet paid out: money that is in the total and not in the hand.
        slid_lines: Lines whose plan can be held against a later figure.
        slid_by: By how much these came dearer than planned; less than 0 where cheaper.
        hours: Of work.
        workers: By person.
        working: The sums.
    """

    lines: tuple[LedgerLine, ...]
    parts: tuple[PartTotal, ...]
    planned: float
    quoted: float
    paid: float
    total: float
    still_to_pay: float
    grants_to_come: float
    slid_lines: int
    slid_by: float
    hours: float
    workers: tuple[Worker, ...]
    working: Working


def part_by_name(name: str, amount: float = 0.0) -> str:
    """What a line belongs to, guessed from its name; our own rule.

    Args:
        name: As the owner wrote it.
        amount: A minus makes it a grant where the name says nothing.

    Example:
        >>> [part_by_name(name) for name in ("cable_conduit_breakers", "auger_hire", "blocks", "Pole, 20 ft")]
        ['wires', 'tools and hire', 'other', 'pole and frame']
    """
    words = re.findall(r"[a-z]+", name.lower())
    for part, named in _WORDS:
        if any(_is(word, one) for word in words for one in named):
            return part
    return "grants" if amount < 0.0 else "other"


def _is(word: str, named: str) -> bool:
    return word in (named, f"{named}s") or (len(named) > 5 and word.startswith(named))


def ledger_of(
    rows: Iterable[LedgerRow],
    currency: str,
    concrete_m3: float = 0.0,
    concrete_per_m3: float | None = None,
) -> Ledger:
    """Add the ledger up; concrete priced by volume is added where no line has it.

    Paid counts before quoted before planned, line by line: a deposit and what is left are two lines.

    Args:
        rows: As the owner keeps them.
        currency: For the working.
        concrete_m3: To order [m3].
        concrete_per_m3: Price by volume, or None.

    Example:
        >>> ledger = ledger_of([LedgerRow("modules", planned=1200.0, paid=1150.0), LedgerRow("pole", quoted=900.0)], "USD")
        >>> ledger.total, ledger.paid, ledger.still_to_pay, ledger.slid_by
        (2050.0, 1150.0, 900.0, -50.0)
    """
    listed = list(rows)
    lines = [_line(row) for row in listed]
    poured = any("concrete" in row.name.lower() and row.stage for row in listed)
    if concrete_per_m3 is not None and not poured:
        price = concrete_per_m3 * concrete_m3
        lines.append(LedgerLine("concrete", "footing", False, "planned", price, None, None, "", None, "", "~"))  # fmt: skip
    parts = tuple(_total(part, lines) for part in PARTS if any(one.part == part for one in lines))
    stages = {stage: _sum(lines, stage) for stage in ("planned", "quoted", "paid")}
    total = sum(stages.values())
    open_lines = [one for one in lines if one.stage != "paid"]
    to_pay = sum((one.amount for one in open_lines if one.amount > 0.0), 0.0)
    to_come = -sum((one.amount for one in open_lines if one.amount < 0.0), 0.0)
    slid = [row.amount - row.planned for row in listed if row.planned is not None and row.stage != "planned"]  # fmt: skip
    steps = tuple(Step(one.part, "T_p", _sums(one), one.total, currency, SUM) for one in parts)
    steps += (Step("all parts", "T", " + ".join(f"{one.total:.2f}" for one in parts), total, currency, SUM),)  # fmt: skip
    return Ledger(
        tuple(lines), parts, stages["planned"], stages["quoted"], stages["paid"], total, to_pay, to_come + 0.0,
        len(slid), float(sum(slid)), float(sum(one.hours or 0.0 for one in lines)), _workers(lines),
        Working("the ledger, by part", steps, ("Each line counts at its latest stage: paid before quoted before planned.", *_concrete(lines))),
    )  # fmt: skip


def _concrete(lines: list[LedgerLine]) -> tuple[str, ...]:
    return tuple(f"Concrete: {POUR}." for one in lines if one.mark and one.name == "concrete")


def _line(row: LedgerRow) -> LedgerLine:
    part = row.part or part_by_name(row.name, row.amount)
    return LedgerLine(
        row.name.replace("_", " "), part, not row.part, row.stage, row.amount, row.on, row.hours, row.by, row.rate, row.note, row.mark
    )  # fmt: skip


def _sum(lines: Iterable[LedgerLine], stage: Stage | str) -> float:
    return float(sum(one.amount for one in lines if one.stage == stage))


def _total(part: str, lines: list[LedgerLine]) -> PartTotal:
    own = [one for one in lines if one.part == part]
    planned, quoted, paid = (_sum(own, stage) for stage in ("planned", "quoted", "paid"))
    to_pay = float(sum(one.amount for one in own if one.stage != "paid" and one.amount > 0.0))
    hours = float(sum(one.hours or 0.0 for one in own))
    return PartTotal(part, planned, quoted, paid, planned + quoted + paid, to_pay, hours)


def _sums(one: PartTotal) -> str:
    return f"{one.paid:.2f} paid + {one.quoted:.2f} quoted + {one.planned:.2f} planned"


def _workers(lines: list[LedgerLine]) -> tuple[Worker, ...]:
    names = dict.fromkeys(one.by for one in lines if one.hours is not None)
    found = []
    for name in names:
        own = [(one.hours or 0.0, one.rate) for one in lines if one.hours is not None and one.by == name]  # fmt: skip
        priced = [(hours, rate) for hours, rate in own if rate is not None]
        found.append(
            Worker(
                name,
                float(sum(hours for hours, _ in own)),
                float(sum(hours for hours, _ in priced)),
                float(sum(hours * rate for hours, rate in priced)),
            )
        )
    return tuple(found)
