"""A fuse in every string: whether one is wanted, how large, and what the other strings can push back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.wiring.currents import (
    BRIGHT_BY,
    STEADY_BY,
    Code,
    bright_current_a,
    steady_current_a,
)
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.rounded import amps_up, volts_up
from polestead.wiring.strings.label import Label

FUSES_FROM = 3  # strings in parallel
FUSE_CHECK = "string fuse against the largest on the module's label"
KINDS: dict[Code, str] = {
    "NEC": "a fuse listed for photovoltaic strings (UL 248-19, from memory)",
    "Canada": "a fuse certified for photovoltaic strings (CSA C22.2 No. 248.19, from memory)",
    "IEC": "a gPV fuse to IEC 60269-6",
}


@dataclass(frozen=True, slots=True)
class StringFuse:
    """The fuse of one string among all that feed the same controller.

    Attributes:
        wanted: From three strings in parallel, or where two push back more than the label bears.
        strings: In parallel on the controller, the arrays beside it counted.
        back_feed_a: What all the others can push into this string: 1.25 times their short-circuit current [A].
        label_bears_a: Largest series fuse on the module's label; None where nobody has read it.
        least_a: 1.56 times the string's own short-circuit current.
        rating_a: Next standard rating; None where none is wanted or none is made.
        bears_v: Direct-current voltage it must at least be rated for; None where the cold voltage is not known.
        words: What to fit, and why.
        working: How it was found.
    """

    wanted: bool
    strings: int
    back_feed_a: float
    label_bears_a: float | None
    least_a: float
    rating_a: float | None
    bears_v: float | None
    words: str
    working: Working


def fuse_rating_a(current_a: float, code: Code = "NEC") -> float | None:
    """Smallest fuse for strings that is no smaller; None where none is made.

    Source: NEC 690.9 and 240.6(A); IEC 60269-6 (see the table's own column; partly from memory).

    Example:
        >>> fuse_rating_a(9.22), fuse_rating_a(21.875), fuse_rating_a(21.875, "IEC"), fuse_rating_a(100.0)
        (10.0, 25.0, 25.0, None)
    """
    for row in _rows(code):
        if float(row["rating_a"]) >= current_a - 1e-9:
            return float(row["rating_a"])
    return None


def string_fuse(
    label: Label,
    in_parallel: int,
    beside: tuple[tuple[float, int], ...],
    cold_v: float | None,
    code: Code = "NEC",
) -> StringFuse:
    """The fuse each string wants.

    Source: NEC 690.9(A) (seen in lesson text) lets a string off where the others cannot push back more than its label bears; from
    three strings one is wanted here all the same (ours).  Size: 690.9(B), 1.5625 Isc; IEC 62548 asks for at least 1.5 (from memory).

    Args:
        label: Of the module.
        in_parallel: Strings of its own array.
        beside: Short-circuit current [A] and count of the strings of other arrays on the same controller.
        cold_v: Voltage at the record low, margin in it; the fuse must be rated for it.
        code: Which code the wires follow.
    """
    own = label.short_circuit_current_a
    strings = in_parallel + sum(count for _, count in beside)
    others = (*beside, (own, in_parallel - 1))
    back = sum(bright_current_a(amps, count) for amps, count in others)
    bears, least = label.series_fuse_a, steady_current_a(own)
    pushed = bears is not None and back > bears
    wanted = strings >= FUSES_FROM or pushed
    rating = fuse_rating_a(least, code) if wanted else None
    formula = " + ".join(f"{count} x 1.25 x {amps:g}" for amps, count in others if count > 0) or "0"
    steps = [
        Step("short-circuit current of a string", "Isc", "", own, "A", OWNER),
        Step("strings in parallel on the controller", "n", "", float(strings), "", OWNER),
        Step("what the others push back into one", "Iback", formula, back, "A", BRIGHT_BY[code]),
    ]
    if bears is not None:
        steps.append(Step("largest series fuse on the label", "Ilabel", "", bears, "A", OWNER))
    steps.append(
        Step("the fuse at least", "Ifuse", f"1.25 x 1.25 x {own:g}", least, "A", STEADY_BY[code])
    )
    if rating is not None:
        steps.append(Step("next rating that is made", "In", "", rating, "A", _rating_source(rating, code)))  # fmt: skip
    return StringFuse(
        wanted, strings, back, bears, least, rating, cold_v if wanted else None,
        _words(strings, back, bears, rating, cold_v, wanted, code), Working("fuse of a string", tuple(steps)),
    )  # fmt: skip


def fuse_checks(fuse: StringFuse, code: Code = "NEC") -> tuple[Check, ...]:
    """The fuse against the module's label, where one is wanted and the label was read."""
    if not fuse.wanted or fuse.label_bears_a is None:
        return ()
    demand = fuse.least_a if fuse.rating_a is None else fuse.rating_a
    use = share(demand, fuse.label_bears_a)
    return (Check("string", FUSE_CHECK, demand, fuse.label_bears_a, "A", use, clause("string fuse", code), fuse.working),)  # fmt: skip


def _rating_source(rating_a: float, code: Code) -> Source:
    """What the row of that rating says, and how far it was confirmed."""
    if code == "Canada":
        return Source("ratings as sold beside the American ones; ask for the rule", status="common practice")  # fmt: skip
    row = next(row for row in _rows(code) if float(row["rating_a"]) == rating_a)
    work, _, said = row["source"].rpartition(" (")
    return Source(work, status="memory" if said == "from memory)" else "seen-copy")


def _rows(code: Code) -> Iterator[dict[str, str]]:
    listed = "IEC" if code == "IEC" else "NEC"
    return (row for row in table("wiring", "strings/fuses") if row["code"] == listed)


def _words(
    strings: int, back: float, bears: float | None, rating: float | None, cold_v: float | None, wanted: bool, code: Code
) -> str:  # fmt: skip
    if strings == 1:
        return "One string: nothing can push back into it, no string fuse."
    pushes = (
        f"{strings} strings on the controller: the others can push {amps_up(back)} back into one"
    )
    if not wanted:
        if bears is None:
            return f"{pushes}. A label that bears less asks for a fuse in each string."
        return f"{pushes}, its label bears {bears:g} A: no string fuse ({clause('string fuse', code)})."
    size = "larger than any made for strings" if rating is None else f"{rating:g} A"
    volts = "its voltage at the record low" if cold_v is None else f"at least {volts_up(cold_v)}"
    fit = f"{pushes}: {KINDS[code]} in every string, {size}, for {volts} direct current"
    if bears is None:
        return f"{fit}; no larger than the module's label allows."
    if back <= bears:
        return f"{fit}, at most {bears:g} A by the label. {clause('string fuse', code)} would let it off, the label bears {bears:g} A; we do not."
    return f"{fit}, at most {bears:g} A by the label."
