"""The trench: how deep and wide, what comes out, what lies in it, when its sides must be held."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check, share
from polestead.base.show import Style, set_out
from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.working import Step, Working
from polestead.build.ground.spoil import loose_m3
from polestead.wiring.trench.burial import ribbon_of
from polestead.wiring.trench.closing import BED_M

WIDTH_M = 0.3  # a narrow digger bucket: common practice, no source
LINE_M = 0.05  # room the line itself takes: common practice, no source
PROTECT_M = 1.523  # under 5 ft: at 5 ft itself the sides are held already
PROTECT = Source("29 CFR 1926.652 (United States)", "(a)(1), under 5 ft (1.52 m)")
LADDER_M = 1.218  # under 4 ft
LADDER = Source("29 CFR 1926.651 (United States)", "(c)(2), under 4 ft (1.22 m)", "memory")


@dataclass(frozen=True, slots=True)
class DugTrench:
    """The trench.

    Attributes:
        length_m: Along the ground, as far as the file tells it: the run without what lies in the house, up to a round length.
        width_m, depth_m: As set out and dug: up to round sizes.
        bank_m3, loose_m3: Soil out of it.
        bedding_m3: Sand or sifted soil under and about the line and over it.
        over_m3: Loose soil left when it is filled and tamped to where it was.
        ribbon_below_m: Warning ribbon, below the ground.
        contents: What lies in it before it is closed, from the bottom up.
        checks: Sides that must be held, and a ladder.
        working: The sums.
    """

    length_m: float
    width_m: float
    depth_m: float
    bank_m3: float
    loose_m3: float
    bedding_m3: float
    over_m3: float
    ribbon_below_m: float
    contents: tuple[str, ...]
    checks: tuple[Check, ...]
    working: Working


def trench_of(
    run_m: float,
    in_house_m: float,
    cover_m: float,
    soil: str,
    contents: tuple[str, ...] = (),
    level_m: float | None = None,
    floor_m: float | None = None,
    style: Style = "metric",
) -> DugTrench:
    """The trench of a run, in the round sizes it is set out and dug to: what comes out is what a pencil makes of them.

    Args:
        run_m: One way, with the rises [m].
        in_house_m: Of it, what lies on or in a building [m].
        cover_m: Soil over the line [m].
        soil: Soil class.
        contents: What lies in it, from the bottom up; handed in by whoever laid the wires out.
        level_m: Length along the trench, where the run was taken apart [m].
        floor_m: Depth of its floor, likewise [m].
        style: In whose round sizes it is set out, never less than the sums ask.

    Example:
        >>> trench = trench_of(67.0, 3.0, 0.6, "sandy gravel or gravel")
        >>> round(trench.length_m), round(trench.depth_m, 3), round(trench.bank_m3, 2)
        (64, 0.75, 14.4)
        >>> trench = trench_of(67.0, 3.0, 0.6, "sandy gravel or gravel", style="feet")
        >>> round(trench.length_m / 0.3048), round(trench.width_m / 0.3048, 2), round(trench.depth_m / 0.3048, 2)
        (210, 1.0, 2.5)
    """
    least_m = max(run_m - in_house_m, 0.0) if level_m is None else level_m
    shallowest_m = cover_m + LINE_M + BED_M if floor_m is None else floor_m
    length_m, width_m, depth_m = (set_out(one, style, "up") for one in (least_m, WIDTH_M, shallowest_m))  # fmt: skip
    bank = length_m * width_m * depth_m
    bedding = length_m * width_m * (depth_m - cover_m + min(BED_M, cover_m))
    loose = loose_m3(bank, soil)
    long, deep = (
        f"{run_m:.2f} - {in_house_m:.2f} in the house; the rises are still in it" if level_m is None else "the run taken apart",
        f"{cover_m:.3f} + {LINE_M:.3f} + {BED_M:.3f}, cover, line and bed" if floor_m is None else "cover, line and bed",
    )  # fmt: skip
    steps = (
        Step("along the ground, no more than", "L0", long, least_m, "m", OWNER),
        Step("as deep as", "d0", deep, shallowest_m, "m", COMMON_PRACTICE),
        Step("set out to a round length", "L", f"{least_m:.2f}, up", length_m, "m", COMMON_PRACTICE),
        Step("dug to a round depth", "d", f"{shallowest_m:.3f}, up", depth_m, "m", COMMON_PRACTICE),
        Step("a narrow bucket", "w", "", width_m, "m", COMMON_PRACTICE),
        Step("out of the ground", "V", f"{length_m:.2f} x {width_m:.4g} x {depth_m:.4g}", bank, "m^3", COMMON_PRACTICE),
    )  # fmt: skip
    return DugTrench(
        length_m, width_m, depth_m, bank, loose, bedding, loose_m3(bedding, soil),
        ribbon_of(cover_m).depth_m, contents, depth_checks("trench", depth_m), Working("the trench", steps),
    )  # fmt: skip


def depth_checks(what: str, depth_m: float) -> tuple[Check, ...]:
    """Whether its sides stand without being sloped or held, and whether one gets out without a ladder.

    Source: 29 CFR 1926.652(a)(1): from 5 ft on (less where it may cave); 1926.651(c)(2): 4 ft (from memory).

    Args:
        what: The hole's name.
        depth_m: As dug [m].
    """
    return tuple(
        Check(
            what, name, depth_m, limit, "m", share(depth_m, limit), source,
            Working(name, (Step("as dug", "d", "", depth_m, "m", OWNER), Step(f"{name}, up to", "", "", limit, "m", source))),
        )
        for name, limit, source in (("entered with straight sides", PROTECT_M, PROTECT), ("entered without a ladder", LADDER_M, LADDER))
    )  # fmt: skip
