"""The trench, put together: cover, pipe, pull, growth, own lines, and what goes in."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import BuriedLine, CableRun, Place
from polestead.wiring.run.on_pole import BOX_ABOVE_M
from polestead.wiring.trench.burial import Ribbon, cover_check, cover_notes, ribbon_of
from polestead.wiring.trench.closing import InTrench, Lengths, in_trench, lengths_of
from polestead.wiring.trench.conduit import Conduit, Insulated, conduit_of, guard_pipe_of
from polestead.wiring.trench.expansion import Expansion, expansion_of
from polestead.wiring.trench.own_lines import OwnLines, own_lines_of
from polestead.wiring.trench.pull import Pull, pull_of
from polestead.wiring.trench.wall import Bought, bought_of, in_wall

HOTTEST_C = 45.0  # air about a riser in summer: ours, as for the wire in it
CABLE_OUTSIDE_M = 0.03  # of cable straight in the soil, both wires and earth in a bundle: ours


@dataclass(frozen=True, slots=True)
class Trench:
    """All that the trench asks for.

    Attributes:
        code: Whose rules.
        lengths: The run taken apart.
        cover: Its check.
        ribbon: The warning ribbon.
        conduit, pull, expansion: Of the pipe; None for cable straight in the soil.
        own: The owner's own lines.
        items: What must be in before it closes, in order.
        wall: What must be in before the wall of the house closes, in order.
        bought: Risers, the pipe down the pole, and what goes on inside the house.
        checks: All of them.
        notes: Cautions.
    """

    code: str
    lengths: Lengths
    cover: Check
    ribbon: Ribbon
    conduit: Conduit | None
    pull: Pull | None
    expansion: Expansion | None
    own: OwnLines
    items: tuple[InTrench, ...]
    wall: tuple[InTrench, ...]
    bought: tuple[Bought, ...]
    checks: tuple[Check, ...]
    notes: tuple[str, ...]

    @property
    def asks(self) -> tuple[str, ...]:
        """What stands open of the owner's own lines; none of it counts as passed."""
        return self.own.asks


def trench_of(
    place: Place,
    run: CableRun,
    buried: tuple[BuriedLine, ...],
    earth_size: str,
    pier_radius_m: float,
    *,
    pole_above_m: float = BOX_ABOVE_M,
    house_above_m: float = BOX_ABOVE_M,
    hottest_c: float = HOTTEST_C,
    month_means_c: tuple[float, float] | None = None,
    insulated: Insulated | None = None,
    drive_wire_m: float | None = None,
    pole_pipe_m: float = 0.0,
    change_over: bool = False,
    signal_wire: bool = False,
) -> Trench:
    """The trench of the run.

    Args:
        place: Code, frost, record low.
        run: The run section.
        buried: The owner's own lines.
        earth_size: Of the earth wire that goes with the run.
        pier_radius_m: Of the pier's hole [m].
        pole_above_m: The switch's box at the pole over the ground [m].
        house_above_m: Entry at the wall over the ground [m].
        hottest_c: Hottest air about the risers [C].
        month_means_c: Mean of the coldest and of the warmest month [C], for the growth in the ground.
        insulated: The wires' insulation; None for the thickest.
        drive_wire_m: Low-voltage wire that shares the trench [m].
        pole_pipe_m: Fixed wires down the pole to its switch, beyond the run's own length [m].
        change_over: Whether the buried wire ends in a box at the wall.
        signal_wire: Whether a rapid shutdown is asked for.

    Raises:
        Wrong: A pipe or a size that no table knows.
    """
    code = place.wired_by
    piped = run.method != "direct burial"
    conduit = conduit_of(run, earth_size, code, insulated) if piped else None
    outside = conduit.pipe.outside_m if conduit else CABLE_OUTSIDE_M
    lengths = lengths_of(run, outside, pole_above_m, house_above_m)
    frost_lifts = place.frost_soil == "silt or clay" and place.frost_depth_m > run.cover_m
    pull = expansion = None
    if conduit is not None:
        rise = max(lengths.pole_riser_m, lengths.house_riser_m)
        pull = pull_of(conduit, run.metal, lengths.pipe_m, run.bends_deg, rise, code)
        risers = (("riser at the pole", lengths.pole_riser_m), ("riser at the house", lengths.house_riser_m))  # fmt: skip
        expansion = expansion_of(
            conduit.pipe.kind, risers, lengths.level_m, run.cover_m, place.record_low_c, hottest_c, frost_lifts, month_means_c, code,
        )  # fmt: skip
    own = own_lines_of(buried, run.cover_m, outside, run.length_m, pier_radius_m)
    cover, ribbon = cover_check(run, code), ribbon_of(run.cover_m, code)
    guard = guard_pipe_of(run, earth_size, insulated) if not piped and code != "IEC" else None
    risers_m = (lengths.pole_riser_m, lengths.house_riser_m) if piped else (lengths.pole_guard_m, lengths.house_guard_m)  # fmt: skip
    checks = [cover, _reaches(run, lengths)]
    if conduit is not None and pull is not None:
        checks += [conduit.check, *pull.checks]
    checks += [check for line in own.lines for check in line.checks]
    notes = [*cover_notes(run, code, place.frost_depth_m, place.frost_soil)]
    for part in (conduit, pull, expansion, own):
        notes += part.notes if part is not None else ()
    return Trench(
        code=code,
        lengths=lengths,
        cover=cover,
        ribbon=ribbon,
        conduit=conduit,
        pull=pull,
        expansion=expansion,
        own=own,
        items=in_trench(
            run,
            lengths,
            conduit,
            expansion,
            ribbon,
            earth_size,
            own,
            drive_wire_m,
            code,
            guard,
            signal_wire,
        ),
        wall=in_wall(run, earth_size, code, change_over, signal_wire),
        bought=bought_of(run, earth_size, code, conduit, guard, risers_m, pole_pipe_m, change_over),
        checks=tuple(checks),
        notes=tuple(notes),
    )


def _reaches(run: CableRun, lengths: Lengths) -> Check:
    """The run is at least as long as its two risers and what lies in the house."""
    ours = Source("geometry of the run: risers and what lies in the house are part of its length", status="ours")  # fmt: skip
    wanted = lengths.pole_riser_m + lengths.house_riser_m + run.in_house_m
    working = Working(
        "what of the run is not level",
        (
            Step("riser at the pole", "", "", lengths.pole_riser_m, "m", ours),
            Step("riser at the house", "", "", lengths.house_riser_m, "m", ours),
            Step("on or in the house", "", "", run.in_house_m, "m", OWNER if "in_house_m" in run.model_fields_set else ours),
            Step("wanted at least", "", "the three together", wanted, "m", ours),
        ),
    )  # fmt: skip
    return Check("run", "longer than its risers", wanted, run.length_m, "m", wanted / run.length_m, ours, working)  # fmt: skip
