"""Rapid shutdown in figures: the rule, its label and the basis all read them here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from polestead.base.source import Source, Status
from polestead.base.table import table
from polestead.wiring.currents import Code


@dataclass(frozen=True, slots=True)
class Shutdown:
    """What a code asks of the run once it is shut down.

    Attributes:
        under_v: Left between its wires at most [V].
        under_va: Left in it at most [VA]; None where the code names none.
        within_s: So long after it is opened [s].
        inside_m: So much of it in the house is let off [m].
        from_array_m: So far from the array it is let off [m]; None where that does not count.
        source: Where it stands.
    """

    under_v: float
    under_va: float | None
    within_s: float
    inside_m: float
    from_array_m: float | None
    source: Source

    @property
    def left(self) -> str:
        """What may be left, in words."""
        return f"{self.under_v:g} V" + ("" if self.under_va is None else f" and {self.under_va:g} VA")  # fmt: skip


def shutdown_of(code: Code) -> Shutdown | None:
    """The figures of a code; None under IEC, which has no such rule.

    Source: the table beside this file, each row with its own.

    Args:
        code: That holds.

    Example:
        >>> [shutdown_of(code).within_s for code in ("NEC", "Canada")], shutdown_of("IEC")
        ([30.0, 10.0], None)
    """
    for row in table("wiring", "guards/shutdown"):
        if row["code"] == code:
            source = Source(row["source"], row["place"], cast("Status", row["status"]))
            return Shutdown(
                float(row["under_v"]), _or_none(row["under_va"]), float(row["within_s"]), float(row["inside_m"]),
                _or_none(row["from_array_m"]), source,
            )  # fmt: skip
    return None


def _or_none(written: str) -> float | None:
    return float(written) if written else None
