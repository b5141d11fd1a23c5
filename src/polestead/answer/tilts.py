"""What changes with the tilt, worked once at every whole degree of the travel: for a drawing that is tipped by hand."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from polestead.answer.stands import setting_only
from polestead.base.check import Check
from polestead.base.source import OWNER
from polestead.base.working import Step, Working
from polestead.homestead.read import OwnersFile
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.mount.heap import heap_height_m
from polestead.mount.linkage import rod_length_m
from polestead.mount.pins import as_measured
from polestead.mount.travel import TRIGONOMETRY
from polestead.stand.code import CodeCheck, code_check, code_loads, found_near, worst_check
from polestead.stand.gust import uses
from polestead.stand.more import SHED_FALL_M, heap_of, rod_forces
from polestead.stand.parts.part import Part
from polestead.stand.result import RodForce
from polestead.stand.setting import Setting
from polestead.stand.states import Curve, curves_of, parts_in, working_at


@dataclass(frozen=True, slots=True)
class AtTilt:
    """One tilt, beside its row of the gust card.

    Attributes:
        tilt_deg: The tilt.
        lowest_edge_m, top_height_m: Over the ground.
        rod_shows_m: Rod out of its tube, None without a drive.
        rod: What acts along it, None without a drive.
        uses: Of each part by the code's check at this tilt, its setting error in it.
    """

    tilt_deg: float
    lowest_edge_m: float
    top_height_m: float
    rod_shows_m: float | None
    rod: RodForce | None
    uses: tuple[tuple[str, float], ...]

    def most_used(self, *beginnings: str) -> tuple[str, float] | None:
        """The part used most of those whose name begins so; None where there is none."""
        found = [one for one in self.uses if one[0].startswith(beginnings)]
        return max(found, key=lambda one: one[1], default=None)


@dataclass(frozen=True, eq=False)
class Tilts:
    """Every tilt of the card.

    Attributes:
        setting: The mount as the sums take it.
        at: By place on the card.
        heap_m: Ridge that one shed fall leaves.
        lying_m: Design snow that lies already.
    """

    setting: Setting
    at: tuple[AtTilt, ...]
    heap_m: float
    lying_m: float
    _locked: Curve
    _held: tuple[Part, ...]

    def place_of(self, tilt_deg: float) -> int:
        """Place of the nearest tilt of the card."""
        return int(np.abs(self.setting.card_tilts_deg - tilt_deg).argmin())

    def stands_to(self, tilt_deg: float) -> Working:
        """How the gust was found that it stands to, locked at one tilt."""
        return working_at(self.setting, self._locked, self.place_of(tilt_deg))

    def use_of(self, part_name: str, tilt_deg: float) -> Check:
        """The code's check of one part at one tilt, its setting error in it.

        Args:
            part_name: One of those in ``uses``.
            tilt_deg: Nearest of the card.
        """
        part = next(one for one in self._held if one.name == part_name)
        tilt = float(self.setting.card_tilts_deg[self.place_of(tilt_deg)])
        together = code_loads(self.setting, found_near(self.setting, tilt), self.setting.set_of(part.loads))  # fmt: skip
        return worst_check(self.setting, part, together, uses((part,), together.acting)[0])

    def lowest_edge(self, tilt_deg: float) -> Working:
        """The low edge over the ground."""
        g, t = self.setting.geometry, radians(tilt_deg)
        back_m = g.glass_above_m - g.depth_m
        value = self.at[self.place_of(tilt_deg)].lowest_edge_m
        formula = (
            f"{g.hinge_height_m:.3f} - {g.lower_m:.3f} x {sin(t):.4f} + {back_m:.3f} x {cos(t):.4f}"
        )
        return Working(
            f"the lowest edge at {tilt_deg:g} degrees", (
                Step("hinge over the ground", "H", "", g.hinge_height_m, "m", OWNER),
                Step("hinge to the low edge along the chord", "c low", "", g.lower_m, "m", TRIGONOMETRY),
                Step("back of the frame from the hinge, square to the glass", "s", f"{g.glass_above_m:.3f} - {g.depth_m:.3f}", back_m, "m", TRIGONOMETRY),
                Step("tilt", "t", "", tilt_deg, "deg", OWNER),
                Step("lowest edge over the ground", "z", f"H - c low sin t + s cos t = {formula}", value, "m", TRIGONOMETRY),
            ), ("Level ground; a slope takes from it or adds to it.",),
        )  # fmt: skip

    def top_height(self, tilt_deg: float) -> Working:
        """The upper edge over the ground, against the permit's limit where there is one."""
        g, t, limit = self.setting.geometry, radians(tilt_deg), self.setting.place.height_limit_m
        value = self.at[self.place_of(tilt_deg)].top_height_m
        formula = f"{g.hinge_height_m:.3f} + {g.upper_m:.3f} x {sin(t):.4f} + {g.glass_above_m:.3f} x {cos(t):.4f}"
        steps = [
            Step("hinge over the ground", "H", "", g.hinge_height_m, "m", OWNER),
            Step("hinge to the upper edge along the chord", "c up", "", g.upper_m, "m", TRIGONOMETRY),
            Step("glass from the hinge, square to it", "s", "", g.glass_above_m, "m", OWNER),
            Step("tilt", "t", "", tilt_deg, "deg", OWNER),
            Step("upper edge over the ground", "z", f"H + c up sin t + s cos t = {formula}", value, "m", TRIGONOMETRY),
        ]  # fmt: skip
        if limit is not None:
            steps.append(Step("under the permit's limit by", "d", f"{limit:.3f} - {value:.3f}", limit - value, "m", OWNER))  # fmt: skip
        return Working(f"the top at {tilt_deg:g} degrees", tuple(steps))

    def rod(self, tilt_deg: float) -> Working | None:
        """How much rod shows, and what acts along it; None without a drive."""
        drive, here = self.setting.drive, self.at[self.place_of(tilt_deg)]
        if drive is None or here.rod is None or here.rod_shows_m is None:
            return None
        far, rod = here.rod_shows_m + drive.retracted_length_m, here.rod
        along = f"p = {drive.pin_along_m:.3f} along and {drive.pin_below_m:.3f} below, q = {drive.bracket_out_m:.3f} out and {drive.bracket_below_m:.3f} down"
        return Working(
            f"the rod at {tilt_deg:g} degrees", (
                Step("tilt", "t", "", tilt_deg, "deg", OWNER),
                Step("from pin to pin", "L", f"|p - q|; {along}", far, "m", TRIGONOMETRY),
                Step("drawn in", "L0", "", drive.retracted_length_m, "m", OWNER),
                Step("weight along the rod, + pulls", "F dead", "", rod.dead_n, "N", TRIGONOMETRY),
                Step("the code's wind pulls at most", "F pull", "", rod.wind_pull_n, "N", TRIGONOMETRY),
                Step("the code's wind pushes at most", "F push", "", rod.wind_push_n, "N", TRIGONOMETRY),
                Step("rod that shows", "x", f"{far:.4f} - {drive.retracted_length_m:.4f}", here.rod_shows_m, "m", TRIGONOMETRY),
            ), ("Locked, the storm hold takes the wind; without it the rod does.",),
        )  # fmt: skip


def tilts_of(owners: OwnersFile) -> Tilts:
    """Worked from the file alone; a tenth of a second.

    Raises:
        Wrong: No such pipe or tube.
    """
    setting = setting_only(owners)
    held = parts_in(setting, "locked")
    code, g = code_check(setting, held), setting.geometry
    heap_m = heap_height_m(SHED_FALL_M, g.chord_m)
    return Tilts(
        setting, _every(setting, code), heap_m, heap_of(setting).demand - heap_m, curves_of(setting)["locked"], held
    )  # fmt: skip


def _every(setting: Setting, code: CodeCheck) -> tuple[AtTilt, ...]:
    tilts, drive = setting.card_tilts_deg, setting.drive
    lows, tops = lowest_edge_m(setting.geometry, tilts), top_height_m(setting.geometry, tilts)
    fitted = None if drive is None else as_measured(drive)[0]
    shows = None if fitted is None else rod_length_m(fitted, tilts) - fitted.retracted_length_m
    forces = {force.tilt_deg: force for force in rod_forces(setting, 1.0)}
    names = [part.name for part in code.parts]
    return tuple(
        AtTilt(
            tilt,
            float(lows[n]),
            float(tops[n]),
            None if shows is None else float(shows[n]),
            forces.get(tilt),
            tuple(zip(names, code.use[:, n].tolist(), strict=True)),
        )
        for n, tilt in enumerate(tilts.tolist())
    )
