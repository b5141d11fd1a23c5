"""Which spot: the ones in the file ranked by winter sun, run, soil and height limit together."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from polestead.answer.stands import stand_only, wires_of
from polestead.answer.supply import Skies, new_power_w
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Homestead, Spot
from polestead.homestead.read import OwnersFile
from polestead.mount.geometry import Geometry, top_height_m
from polestead.mount.schedule import TiltSchedule
from polestead.stand.result import StandResult

YEARS = 10  # the same ten for every spot, so that only the spots differ
ALIKE = 0.03  # of the best's winter sun: no compass and fist is better; ours
OURS = Source("the same ten years past each spot's own skyline", status="ours")


@dataclass(frozen=True, slots=True)
class SpotRank:
    """One spot, and what it brings and costs.

    Attributes:
        name: As in the file; the first is the one the rest of the file describes.
        winter_wh: Of the new array in the three darkest months, after the run, a mean year.
        year_wh: The same of the whole year.
        run_m: Cable, one way.
        drop_share: Lost in the run in full sun, wire cold.
        soil: Its class.
        pier_use: Most used of pier and soil by the code's sums; over 1 wants a deeper or wider pier.
        top_m: Top edge at the steepest tilt.
        height_limit_m: Its limit, or None.
        breaks: What rules it out as it is drawn.
        same_as_best: Winter sun within what a skyline can be read to.
        rank: 1 is best; spots that break something come after those that do not.
        working: How the winter sun came about.
    """

    name: str
    winter_wh: float
    year_wh: float
    run_m: float
    drop_share: float
    soil: str
    pier_use: float
    top_m: float
    height_limit_m: float | None
    breaks: tuple[str, ...]
    same_as_best: bool
    rank: int
    working: Working


def spots_of(
    owners: OwnersFile, geometry: Geometry, plan: TiltSchedule, stand: StandResult, seed: int
) -> tuple[SpotRank, ...]:
    """Every spot in the file, the drawn one among them, best first; none where the file names no other.

    Order: spots that break a limit last; then by winter sun after the run.  Within what a skyline can be read to, spots are
    told as the same, and the shorter run, the better soil and the owner's own reasons decide.

    Args:
        owners: The file.
        geometry: Of the mount.
        plan: The owner's own moves.
        stand: Of the spot the file describes.
        seed: Of the weather.
    """
    file = owners.homestead
    if not file.spot:
        return ()
    skies = Skies(file, owners.path.parent, geometry, YEARS, seed)
    told = [_ranked("as drawn", file, skies, geometry, plan, stand)]
    for spot in file.spot:
        there = _moved(file, spot)
        same_place = there.place == file.place
        its_stand = stand if same_place else stand_only(replace(owners, homestead=there))
        past = skies.past(spot.view, YEARS)
        told.append(_ranked(spot.name, there, past, geometry, plan, its_stand))
    order = sorted(told, key=lambda one: (bool(one.breaks), -one.winter_wh))
    best = order[0].winter_wh
    return tuple(
        replace(
            one, rank=nth, same_as_best=one.winter_wh >= (1.0 - ALIKE) * best and not one.breaks
        )
        for nth, one in enumerate(order, start=1)
    )


def _moved(file: Homestead, spot: Spot) -> Homestead:
    """The same homestead with its pole at another spot."""
    place = file.place.model_copy(
        update={
            key: value
            for key in ("soil", "frost_soil", "height_limit_m")
            if (value := getattr(spot, key)) is not None
        }
    )
    run = file.run.model_copy(update={"length_m": spot.run_length_m})
    return file.model_copy(update={"place": place, "run": run, "view": spot.view})


def _ranked(
    name: str,
    file: Homestead,
    skies: Skies,
    geometry: Geometry,
    plan: TiltSchedule,
    stand: StandResult,
) -> SpotRank:
    sun = next(skies.blocks(YEARS))
    power = new_power_w(file.array, file.mount.facing_deg, sun, plan)[:YEARS]
    lost = wires_of(file).cold_drop_share
    dark = np.isin(sun.year.month, (11, 12, 1) if file.place.latitude_deg >= 0.0 else (5, 6, 7))
    at_pole = float(power[:, dark].sum(dtype=np.float64)) / power.shape[0]
    # the drop grows with the current, so a mean hour loses about half the share of full sun
    winter, year = at_pole * (1.0 - lost / 2.0), float(power.sum(dtype=np.float64)) / power.shape[0]
    top = float(top_height_m(geometry, np.array([file.mount.steepest_tilt_deg]))[0])
    limit = file.place.height_limit_m
    ground = [check.use for check in stand.checks if "pier" in check.part]
    breaks = []
    if limit is not None and top > limit:
        breaks.append("height limit")
    if ground and max(ground) > 1.0:
        breaks.append("pier")
    steps = (
        Step("winter sun at the pole, three darkest months", "E_p", "mean of ten years", at_pole, "Wh", OURS),
        Step("lost in the run in full sun", "d", f"{file.run.length_m:.1f} m one way", lost, "", OWNER),
        Step("winter sun after the run", "E", f"{at_pole:.0f} x (1 - {lost:.4f} / 2)", winter, "Wh", OURS),
    )  # fmt: skip
    return SpotRank(
        name, winter, year * (1.0 - lost / 2.0), file.run.length_m, lost, file.place.soil, max(ground, default=0.0), top, limit,
        tuple(breaks), False, 0, Working(f"winter sun at {name}", steps),
    )  # fmt: skip
