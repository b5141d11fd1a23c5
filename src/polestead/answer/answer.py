"""Homestead -> Answer, the rooms in order."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from threading import Thread

from polestead.answer.spots import SpotRank, spots_of
from polestead.answer.stands import (
    built_of,
    house_of,
    more_only,
    stand_only,
    strongback_kg_of,
    wires_of,
)
from polestead.answer.supply import BLOCK_YEARS, Skies
from polestead.answer.winter import HouseOnSun, Winter, if_off_of, saved_under, winter_of
from polestead.base.quiet import solar_library
from polestead.base.row import Row
from polestead.base.show import Style
from polestead.build.asking import asking_list
from polestead.build.result import BuildResult, Question
from polestead.footing.pier import IBC_EDITION, Pier, pier_in
from polestead.habits.result import Habit, TippingWorth
from polestead.homestead.ledger import rows_in
from polestead.homestead.model import Place
from polestead.homestead.read import OwnersFile
from polestead.loads.pressure import EN
from polestead.money.money import money_of
from polestead.money.result import MoneyResult
from polestead.mount.geometry import Geometry, geometry_of
from polestead.mount.schedule import TiltSchedule, two_tilts
from polestead.site.place import PlaceInWords, place_in_words
from polestead.stand.result import StandMore, StandResult
from polestead.strength.pole import PipeSection, pipe_section
from polestead.sun.trees import GrowingTrees, growing_trees
from polestead.wiring.result import WiringResult

FORMAT = 1
STEPS = 7
Progress = Callable[[str, int, int], None]  # what is being worked, step, of so many


@dataclass(frozen=True, slots=True)
class Answer:
    """The three answers and all they rest on."""

    format: int
    name: str
    units: Style
    we_are: str
    fingerprint: str
    basis: str
    years: int
    seed: int
    place: PlaceInWords
    rows: tuple[Row, ...]
    geometry: Geometry
    pipe: PipeSection
    pier: Pier
    schedule: TiltSchedule
    stand: StandResult
    more: StandMore
    winter: Winter
    trees: GrowingTrees | None
    spots: tuple[SpotRank, ...]
    habits: tuple[Habit, ...]
    tipping: TippingWorth | None
    wiring: WiringResult
    build: BuildResult
    money: MoneyResult
    questions: tuple[Question, ...]
    cautions: tuple[str, ...]


def answer_of(
    owners: OwnersFile, years: int = 100, seed: int = 1, progress: Progress | None = None
) -> Answer:
    """Work the whole homestead through.

    Args:
        owners: The file as read.
        years: Synthetic years to draw, where years are drawn.
        seed: Of the draw; the same seed gives the same answer.
        progress: Told what is being worked, which step it is, and of how many.

    Raises:
        Wrong: Where the file is consistent in itself but not in the world (a point in the sea, no such pipe).
    """
    tell = progress or _silent
    file = owners.homestead
    tell("the place", 0, STEPS)
    words = place_in_words(file.place)
    pipe = pipe_section(file.mount.pole)
    strongback_kg = strongback_kg_of(file.mount, file.array)
    geometry = geometry_of(file.mount, file.array, strongback_kg)
    pier = pier_in(file.footing, file.place)
    schedule = two_tilts(
        file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, file.place.latitude_deg
    )
    tell("the weather", 1, STEPS)
    skies = Skies(file, owners.path.parent, geometry, years, seed)
    Thread(target=_load_what_is_slow, daemon=True).start()
    workers = ThreadPoolExecutor(max_workers=1)  # steel and soil beside the house
    standing, beside = workers.submit(stand_only, owners), workers.submit(more_only, owners)
    tell("the house without the new array", 2, STEPS)
    house = HouseOnSun(file, skies)
    without = house.without()
    tell("wind, steel and soil", 3, STEPS)
    stand = standing.result()
    workers.shutdown(wait=False)
    tell("the house with it", 4, STEPS)
    with_new = house.under(schedule)
    leaned: tuple[HouseOnSun, ...] = ()
    if skies.weather.winter_error > 0.0:
        few = min(skies.years, BLOCK_YEARS)
        leaned = house.leaned(schedule, lambda lean: skies.leaning(lean, few))
    tell("ways of tipping", 5, STEPS)
    habits = house.habits(schedule, geometry, stand.card)
    tell("wires, pieces and money", 6, STEPS)
    more = beside.result()
    wiring = wires_of(file)
    built = built_of(file, geometry, pipe, strongback_kg, more.half_built, wiring.trench)
    money = money_of(
        file.prices,
        rows_in(file.prices, owners.rows, owners.ledger),
        house_of(file, built),
        *saved_under(without, with_new),
        tuple(saved_under(other.without(), other.under(schedule)) for other in leaned),
    )
    return Answer(
        format=FORMAT,
        name=file.name,
        units=file.units,
        we_are=file.we_are,
        fingerprint=owners.fingerprint,
        basis=_basis(file.place),
        years=skies.years,
        seed=seed,
        place=words,
        rows=owners.rows,
        geometry=geometry,
        pipe=pipe,
        pier=pier,
        schedule=schedule,
        stand=stand,
        more=more,
        trees=growing_trees(
            file.view,
            skies.path,
            file.place.latitude_deg,
            file.place.longitude_deg,
            file.place.elevation_m,
            file.mount.hinge_height_m,
        ),
        spots=spots_of(owners, geometry, schedule, stand, seed),
        winter=winter_of(
            file,
            house,
            skies,
            without,
            with_new,
            if_off_of(schedule, leaned),
            house.worst_fortnight(schedule),
        ),
        habits=habits,
        tipping=house.tipping(habits, leaned),
        wiring=wiring,
        build=built,
        money=money,
        questions=asking_list(owners.rows),
        cautions=built.cautions,
    )


def _basis(place: Place) -> str:
    wires = {"NEC": "NEC", "Canada": "CSA C22.1", "IEC": "IEC 60364"}[place.wired_by]
    if place.wind_basis == EN:
        return f"EN 1990, EN 1991-1-3 and -4, EN 1993-1-1 and -1-8, EN 1997-1 (design approach 1), {wires}"
    return f"{place.wind_basis}, AISC 360-16 (allowable), {IBC_EDITION}, {wires}"


def _silent(_what: str, _step: int, _of: int) -> None:
    """Nobody asked to be told."""


def _load_what_is_slow() -> None:
    """Libraries and compiled loops, read in while steel, soil and the house of last winter are worked."""
    solar_library()

    import polestead.household.kernel
    import polestead.modules.kernel
    import polestead.sun.kernel  # noqa: F401
