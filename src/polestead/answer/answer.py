"""Homestead -> Answer, the rooms in order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from polestead.base.row import Row
from polestead.base.spread import Spread
from polestead.build.result import BuildResult, Question
from polestead.footing.pier import Pier
from polestead.habits.result import Habit
from polestead.homestead.read import OwnersFile
from polestead.household.result import HouseSummary
from polestead.money.result import MoneyResult
from polestead.mount.geometry import Geometry
from polestead.mount.schedule import TiltSchedule
from polestead.site.place import PlaceInWords
from polestead.stand.result import StandResult
from polestead.strength.pole import PipeSection
from polestead.wiring.result import WiringResult

FORMAT = 1
Progress = Callable[[str, int, int], None]  # what is being worked, step, of so many


@dataclass(frozen=True, slots=True)
class Winter:
    """Does it carry us through winter.

    Attributes:
        without: The house as it is.
        with_new: With the new array, moved as the owner plans.
        saved_hours: Year by year, without minus with: good, median and bad *saving*.
        weather: Where the weather comes from, in words.
        winter_error: Share by which winter figures may be off because of it.
        notes: What stands beside the figures.
        a_guess: True until the owner's own figures were laid beside the year without the array.
    """

    without: HouseSummary
    with_new: HouseSummary
    saved_hours: Spread
    weather: str
    winter_error: float
    notes: tuple[str, ...]
    a_guess: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """The three answers and all they rest on."""

    format: int
    name: str
    units: str
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
    winter: Winter
    habits: tuple[Habit, ...]
    wiring: WiringResult
    build: BuildResult
    money: MoneyResult
    questions: tuple[Question, ...]
    cautions: tuple[str, ...]


def answer_of(
    owners: OwnersFile, years: int = 100, seed: int = 1, progress: Progress | None = None
) -> Answer:
    """Work the whole homestead through.

    Raises:
        Wrong: Where the file is consistent in itself but not in the world (a point in the sea, no such pipe).
    """
    raise NotImplementedError
