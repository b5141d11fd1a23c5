"""Soil over the cable."""

from __future__ import annotations

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.homestead.model import CableRun

COVER = Source("NEC", "Table 300.5")


def least_cover_m(method: str) -> float:
    """Least soil over a cable in yard or field.

    Source: NEC Table 300.5, columns 1 to 3 (seen).  Valid for: up to 1000 V, not under roads, drives or slabs; under a
    public road or drive 24 in whatever the method, under the drive of a dwelling 18 in.

    Args:
        method: ``direct burial``, ``PVC conduit`` or ``metal conduit``.

    Returns:
        Cover [m].

    Example:
        >>> round(least_cover_m("direct burial"), 4)
        0.6096
    """
    row = next(row for row in table("wiring", "trench/cover") if row["method"] == method)
    return float(row["cover_in"]) * 0.0254


def cover_check(run: CableRun) -> Check:
    """The run's cover, to a tenth of a millimetre, against the table."""
    least, given = round(least_cover_m(run.method), 4), round(run.cover_m, 4)
    working = Working(
        "soil over the cable",
        (
            Step(f"wanted over {run.method}", "dmin", "", least, "m", COVER),
            Step("in the file", "d", "", given, "m", OWNER),
        ),
    )
    return Check(
        "trench", "soil over the cable", least, given, "m", share(least, given), COVER, working
    )
