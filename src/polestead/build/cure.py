"""The cure clock: how far the concrete is by the temperatures it has had, and from when it may be stripped and loaded."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from polestead.base.source import Source
from polestead.base.working import Step, Working

USUAL_C = 20.0
WHOLE_DAYS = 28.0
COUNTS_OVER_C = 5.0
DATUM_C = 0.0
COUNTED_AT_MOST_C = 20.0
FREEZES_C = 0.0
A_DAYS, B = 4.0, 6.0 / 7.0  # b so that 28 days are exactly one; ACI 209 prints .85 for it
YOUNG_PA = 3.45e6  # 500 psi
STEEL_SHARE = 0.7
STRIP_LEAST_DAYS = 1.0
SHEETS_PA = 3500 * 6894.757
NURSE_SAUL = Source("ASTM C1074", "Nurse-Saul, M = sum of (T - T0) dt; T0 = 0 C as a public guide to it tells", "seen-copy")  # fmt: skip
GAIN = Source("ACI 209R-92", "t / (4 + .85 t) of the 28-day strength, moist cured; .85 taken as 6/7", "memory")  # fmt: skip
COLD = Source("ACI 306", "at 40 F (5 C) and under it is cold weather; that such days count for nothing is our own care", "seen-copy")  # fmt: skip
YOUNG = Source("ACI 306R", "500 psi before it may freeze once", "memory")
STEEL = Source("70 of 100, as after a week at 20 C, before bare steel; mount sheets ask less", status="ours")  # fmt: skip
FULL = Source("the strength the sums took, footing.concrete", status="owner")
CAP = Source("no day counts for more than one at 20 C: the soil about a pier is cooler than the air", status="ours")  # fmt: skip


@dataclass(frozen=True, slots=True)
class CureDay:
    """Twenty-four hours since the pour.

    Attributes:
        day: 1 is the first.
        on: The date it begins, None where the pour has none.
        air_c: Mean of them; None: unknown, drawn dotted, counts for nothing.
        counts: Whether it adds anything.
        maturity_c_days: Added up to its end.
        strength_share: Of the 28-day strength at its end.
    """

    day: int
    on: date | None
    air_c: float | None
    counts: bool
    maturity_c_days: float
    strength_share: float


@dataclass(frozen=True, slots=True)
class CureMark:
    """One mark on the clock.

    Attributes:
        name: ``strip``, ``bare steel`` or ``modules``.
        strength_share: Of the ordered 28-day strength wanted for it; over 7/6 no time is long enough.
        least_days: At 20 C and warmer; None: this mix never gets there.
        reached_day: Full days of the record after which it is reached; None: not yet.
        on: That date, None without one.
        more_days: Further days at 20 C after the record, 0 where reached; None: never.
        source: Who says so.
    """

    name: str
    strength_share: float
    least_days: float | None
    reached_day: int | None
    on: date | None
    more_days: int | None
    source: Source


@dataclass(frozen=True, slots=True)
class Cure:
    """The cure clock.

    Attributes:
        poured: The date, None where it is not known.
        days: The record.
        maturity_c_days: At its end.
        maturity_share: Of 28 days at 20 C.
        strength_share: Of the 28-day strength.
        unknown_days: Days without a temperature.
        cold_days: Days at 5 C and under: counted for nothing.
        froze_young: A day's mean at 0 C or under before it had 500 psi.
        marks: Strip, bare steel, modules.
        notes: What to know.
        working: How it was found.
    """

    poured: date | None
    days: tuple[CureDay, ...]
    maturity_c_days: float
    maturity_share: float
    strength_share: float
    unknown_days: int
    cold_days: int
    froze_young: bool
    marks: tuple[CureMark, ...]
    notes: tuple[str, ...]
    working: Working

    def mark(self, name: str) -> CureMark:
        """A mark by its name."""
        return next(one for one in self.marks if one.name == name)


SHARES_AT_C = (20.0, 15.0, 10.0, 6.0)  # what is told of a day's worth, warm to cold
SHARES_AT_F = (68.0, 60.0, 50.0, 45.0)  # the same as one says it, never colder


def day_share(air_c: float) -> float:
    """What a day of this mean counts of one at 20 C.

    Source: ASTM C1074, Nurse-Saul with T0 = 0 C; nothing at 5 C and under, never more than one (ours).

    Args:
        air_c: Mean of its 24 hours [C].

    Example:
        >>> day_share(20.0), day_share(30.0), day_share(10.0), day_share(5.0)
        (1.0, 1.0, 0.5, 0.0)
    """
    if air_c <= COUNTS_OVER_C:
        return 0.0
    return (min(air_c, COUNTED_AT_MOST_C) - DATUM_C) / (USUAL_C - DATUM_C)


@dataclass(frozen=True, slots=True)
class CureTable:
    """The clock as a table, for whoever counts without these sums: what each whole degree is worth, and what each mark wants.

    Attributes:
        first: By scale (``C``, ``F``), the least whole degree that counts; colder is worth nothing.
        shares: From that degree on, a degree each, the worth of a day; warmer counts as the last.
        freezes: By scale, the degree at which young concrete is hurt.
        months: Worth of a day by the season's own mean air, January first.
        young_days: Days at 20 C before it may freeze.
        marks: Name, and days at 20 C it wants; None: this mix never gets there.
    """

    first: Mapping[str, int]
    shares: Mapping[str, tuple[float, ...]]
    freezes: Mapping[str, int]
    months: tuple[float, ...]
    young_days: float
    marks: tuple[tuple[str, float | None], ...]


def cure_table(cure: Cure, air_by_month_c: Sequence[float]) -> CureTable:
    """The clock's law as data.

    Source: ``day_share``, read off at each whole degree; a fraction of a degree is left away, so that no day counts for too much.

    Args:
        cure: Whose marks.
        air_by_month_c: Mean air of each month, January first [C].

    Example:
        >>> table = cure_table(cured_by((), 20.7e6), [10.0] * 12)
        >>> table.first, table.shares["C"][0], table.shares["F"][-1], table.months[0]
        ({'C': 6, 'F': 42}, 0.3, 1.0, 0.5)
    """
    scales: dict[str, Callable[[float], float]] = {
        "C": float,
        "F": lambda told: (told - 32.0) / 1.8,
    }
    first: dict[str, int] = {}
    shares: dict[str, tuple[float, ...]] = {}
    for scale, celsius in scales.items():
        worth = {told: round(day_share(celsius(told)), 4) for told in range(-40, 70)}
        first[scale] = min(told for told, share in worth.items() if share > 0.0)
        full = min(told for told, share in worth.items() if share >= 1.0)
        shares[scale] = tuple(worth[told] for told in range(first[scale], full + 1))
    young = days_for(cure.mark("strip").strength_share)
    return CureTable(
        first, shares, {"C": 0, "F": 32}, tuple(day_share(air) for air in air_by_month_c),
        0.0 if young is None else young, tuple((mark.name, mark.least_days) for mark in cure.marks),
    )  # fmt: skip


def share_words() -> str:
    """What days count, for a man with a pencil: a colder day never for more than it is worth.

    Example:
        >>> share_words()
        '20 C (68 F) and over 1; from 15 C (60 F) 3/4; from 10 C (50 F) 1/2; from 6 C (45 F) 1/4; colder 0'
    """
    told = [
        f"{'' if nth == 0 else 'from '}{air:g} C ({said:g} F){' and over' if nth == 0 else ''} {_quarters(day_share(air))}"
        for nth, (air, said) in enumerate(zip(SHARES_AT_C, SHARES_AT_F, strict=True))
    ]  # fmt: skip
    return "; ".join((*told, "colder 0"))


def _quarters(share: float) -> str:
    """Down to a quarter."""
    return {4: "1", 3: "3/4", 2: "1/2", 1: "1/4", 0: "0"}[int(4.0 * share + 1e-9)]


def strength_share(days_at_20_c: float) -> float:
    """Share of the 28-day strength after so many days at 20 C.

    Source: ACI 209R-92, t / (a + b t) with a = 4; b = 6/7 in place of .85, so that 28 days are exactly one.

    Args:
        days_at_20_c: Age, or the age at 20 C that counts the same [days].

    Example:
        >>> strength_share(0.0), round(strength_share(7.0), 6), round(strength_share(28.0), 6)
        (0.0, 0.7, 1.0)
    """
    return days_at_20_c / (A_DAYS + B * days_at_20_c)


def days_for(share: float) -> float | None:
    """Days at 20 C until a share of the 28-day strength; None for a share this never reaches.

    Args:
        share: Of the 28-day strength.

    Example:
        >>> round(days_for(0.7), 6), round(days_for(1.0), 6), days_for(1.2)
        (7.0, 28.0, None)
    """
    below = 1.0 - B * share
    return None if below <= 1e-9 else A_DAYS * share / below


def cured_by(
    daily_c: Sequence[float | None],
    ordered_pa: float,
    needed_pa: float | None = None,
    poured: date | None = None,
    datum_c: float = DATUM_C,
) -> Cure:
    """How far the concrete is, and when each mark is reached.

    Nurse-Saul: M = sum of (T - T0) dt; 28 days at 20 C are the whole.  A day at 5 C or under counts for nothing, none for more than
    one at 20 C, an unknown one for nothing.  The air stands for the concrete.

    Source: ASTM C1074 (a public guide seen); strength by ACI 209R-92 (from memory); 5 C ACI 306 (definition seen).

    Args:
        daily_c: Mean of each 24 hours since the pour [C]; None where nobody looked.
        ordered_pa: 28-day strength ordered [Pa].
        needed_pa: Strength the sums took [Pa]; None: what was ordered.
        poured: The date of the pour.
        datum_c: T0, 0 C or -10 C [C].

    Raises:
        ValueError: A strength that is none, or a datum not under 5 C.

    Example:
        >>> clock = cured_by([20.0] * 10, 20.7e6)
        >>> clock.maturity_c_days, clock.mark("bare steel").reached_day, clock.mark("modules").more_days
        (200.0, 7, 18)
    """
    needed = ordered_pa if needed_pa is None else needed_pa
    if not (ordered_pa > 0.0 and needed > 0.0) or not datum_c < COUNTS_OVER_C:
        message = "a strength is more than nothing, and the datum lies under 5 C"
        raise ValueError(message)
    a_day = USUAL_C - datum_c
    days: list[CureDay] = []
    total, frozen = 0.0, False
    for nth, air in enumerate(daily_c, start=1):
        counts = air is not None and air > COUNTS_OVER_C
        if air is not None and air <= FREEZES_C and strength_share(total / a_day) * ordered_pa < YOUNG_PA:  # fmt: skip
            frozen = True
        if air is not None and counts:
            total += min(air, COUNTED_AT_MOST_C) - datum_c
        on = None if poured is None else poured + timedelta(days=nth - 1)
        days.append(CureDay(nth, on, air, counts, total, strength_share(total / a_day)))
    unknown = sum(day.air_c is None for day in days)
    cold = sum(day.air_c is not None and not day.counts for day in days)
    strip = YOUNG_PA / ordered_pa
    wanted = (
        ("strip", strip, STRIP_LEAST_DAYS, YOUNG),
        ("bare steel", max(STEEL_SHARE, strip), 0.0, STEEL),
        ("modules", max(needed / ordered_pa, STEEL_SHARE, strip), 0.0, FULL),
    )
    marks = tuple(_mark(name, share, least, source, days, a_day, poured) for name, share, least, source in wanted)  # fmt: skip
    return Cure(
        poured, tuple(days), total, total / (WHOLE_DAYS * a_day), strength_share(total / a_day),
        unknown, cold, frozen, marks, _notes(unknown, cold, frozen, needed, marks), _working(daily_c, total, a_day, datum_c),
    )  # fmt: skip


def _mark(
    name: str, share: float, least: float, source: Source, days: list[CureDay], a_day: float, poured: date | None
) -> CureMark:  # fmt: skip
    alone = days_for(share)
    if alone is None:
        return CureMark(name, share, None, None, None, None, source)
    wanted = max(alone, least)
    there = next((day.day for day in days if day.maturity_c_days >= wanted * a_day - 1e-9), None)
    on = poured + timedelta(days=there) if poured is not None and there is not None else None
    had = days[-1].maturity_c_days / a_day if days else 0.0
    return CureMark(name, share, wanted, there, on, max(0, ceil(wanted - had - 1e-9)), source)


def _notes(
    unknown: int, cold: int, frozen: bool, needed_pa: float, marks: Sequence[CureMark]
) -> tuple[str, ...]:
    said = [
        "The air stands for the concrete, and the mix for a usual one: cylinders broken by a laboratory know better. Keep it damp for a week: dry concrete stops.",
    ]  # fmt: skip
    if unknown:
        said.append("Days without a temperature count for nothing, until you write one down.")
    if cold:
        said.append("Days at 40 F (5 C) and under count for nothing.")
    if frozen:
        said.append("It was at freezing while it was young: it may never have its strength. Load nothing on it; have it looked at and tested.")  # fmt: skip
    if any(mark.least_days is None for mark in marks):
        said.append("What was ordered never gets to the strength the sums took: ask whoever answers for the pier.")  # fmt: skip
    if needed_pa < SHEETS_PA - 1.0:
        said.append("Mount makers' sheets ask 3,500 psi (24 MPa) before an array hangs; the file's concrete is less: ask whoever answers for the pier.")  # fmt: skip
    return tuple(said)


def _working(daily_c: Sequence[float | None], total: float, a_day: float, datum_c: float) -> Working:  # fmt: skip
    counted = [t for t in daily_c if t is not None and t > COUNTS_OVER_C]
    capped = " + ".join(f"{min(t, COUNTED_AT_MOST_C) - datum_c:.1f}" for t in counted[:40])
    more = " + ..." if len(counted) > 40 else ""
    age = total / a_day
    return Working(
        "the cure clock",
        (
            Step("days that count", "n", f"of {len(daily_c)} days, those over 5 C", float(len(counted)), "", COLD),
            Step("maturity", "M", f"{capped or '0'}{more}, each at most {COUNTED_AT_MOST_C - datum_c:.0f}", total, "C d", NURSE_SAUL),
            Step("days at 20 C that count the same", "t", f"{total:.1f} / {a_day:.0f}", age, "d", CAP),
            Step("share of the 28-day strength", "f", f"{age:.2f} / (4 + 6/7 x {age:.2f})", strength_share(age), "", GAIN),
        ),
    )  # fmt: skip
