"""How far a doubtful row moves the answers when it lies at the ends of its span."""

from __future__ import annotations

from dataclasses import dataclass, replace

from polestead.answer.stands import stand_only, strongback_kg_of, wires_of
from polestead.answer.supply import BLOCK_YEARS, Skies
from polestead.answer.winter import HouseOnSun
from polestead.base.problem import Wrong
from polestead.base.row import Row
from polestead.homestead.fields import Section
from polestead.homestead.model import Homestead
from polestead.homestead.read import OwnersFile, check_text
from polestead.homestead.write import changed_text
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import two_tilts
from polestead.offers.spans import Moves, Span, Variant

Path = tuple[str, ...]

# One point each; ours: what an owner would act on.
POINT_GUST_M_S = 2.2352  # one step of the gust card, 5 mph
POINT_USE = 0.05  # of a part's strength
POINT_ENGINE_SHARE, POINT_ENGINE_H = (
    0.1,
    5.0,
)  # of the engine's hours in a mean year, and at least so many
POINT_VOLTS = 5.0  # of the room under the controller's limit
VERDICT_POINTS = 100.0


@dataclass(frozen=True, slots=True)
class Bearing:
    """What the answers hang on, as worked with one writing of the file; None: not asked, the row does not enter it.

    Attributes:
        weakest_gust_m_s: The least any tilt stands to [m/s].
        most_used: Largest use in the code's check, and ``part`` it is of.
        part: Its name.
        engine_h: Engine hours in a mean year with the new array [h].
        room_v: Volts left under the controller's limit in the coldest dawn [V].
        refused: Why that writing cannot stand beside the rest of the file; it was not tried then.
    """

    weakest_gust_m_s: float | None = None
    most_used: float | None = None
    part: str = ""
    engine_h: float | None = None
    room_v: float | None = None
    refused: str = ""

    @property
    def holds(self) -> bool | None:
        """Whether all checks hold; None where none was asked."""
        if self.most_used is None and self.room_v is None:
            return None
        return (self.most_used or 0.0) <= 1.0 and (self.room_v or 0.0) >= 0.0


@dataclass(frozen=True, slots=True)
class Reach:
    """How far a row moves the answers over its span.

    Attributes:
        span: The ends tried, and who says they are plausible.
        base: With the row as it stands.
        ends: With the row at each end.
        points: Rank: largest of the moves, each counted in steps an owner would act on; a verdict that turns counts most.
    """

    span: Span
    base: Bearing
    ends: tuple[Bearing, ...]
    points: float

    @property
    def turns(self) -> bool:
        """Whether the verdict is another at an end of the span."""
        return any(end.holds is not None and end.holds != self.base.holds for end in self.ends)


class Trials:
    """One homestead tried with other writings; what stands in the file is worked once for each kind of sum."""

    def __init__(
        self, owners: OwnersFile, text: str, seed: int = 1, years: int = BLOCK_YEARS
    ) -> None:
        self._owners, self._text, self._seed, self._years = owners, text, seed, years
        self._base: dict[Moves, Bearing] = {}
        self._use_factor: float | None = None

    def reach(self, row: Row, span: Span) -> Reach:
        """Try each end of a span.

        Args:
            row: An unsettled row of the file.
            span: Its span.
        """
        base = self._based(span.moves)
        ends = tuple(self._tried(row, end, span.moves) for end in span.variants)
        return Reach(span, base, ends, _points(base, ends))

    def _based(self, moves: Moves) -> Bearing:
        if moves not in self._base:
            self._base[moves] = self._bearing(self._owners, moves, Variant(""))
        return self._base[moves]

    def _tried(self, row: Row, end: Variant, moves: Moves) -> Bearing:
        try:
            return self._bearing(self._written(row, end), moves, end)
        except Wrong as wrong:
            first = wrong.problems[0]
            return Bearing(refused=first.do)

    def _written(self, row: Row, end: Variant) -> OwnersFile:
        """The file as it would be with that end written in it; on paper only."""
        if end.value is None:
            return self._owners
        path = path_of(self._owners.homestead, row)
        homestead, rows = check_text(changed_text(self._text, {path: end.value}))
        return replace(self._owners, homestead=homestead, rows=rows)

    def _bearing(self, owners: OwnersFile, moves: Moves, end: Variant) -> Bearing:
        if moves == "stand":
            return _standing(owners)
        if moves == "wires":
            return Bearing(room_v=_room_v(owners))
        return Bearing(engine_h=self._engine_h(owners, end))

    def _engine_h(self, owners: OwnersFile, end: Variant) -> float:
        file = owners.homestead
        mount = file.mount
        geometry = geometry_of(mount, file.array, strongback_kg_of(mount, file.array))
        skies = Skies(file, owners.path.parent, geometry, self._years, self._seed, end.lean)
        factor = None if end.uses_times == 1.0 else self._factor() * end.uses_times
        house = HouseOnSun(file, skies, factor)
        if owners is self._owners and end == Variant(""):
            self._use_factor = house.use_factor
        plan = two_tilts(mount.winter_tilt_deg, mount.summer_tilt_deg, file.place.latitude_deg)
        return float(house.under(plan).engine_hours.sum(axis=1).mean())

    def _factor(self) -> float:
        """The house-use factor of the file as it stands, which a span of uses is laid on."""
        if self._use_factor is None:
            self._base["house"] = self._bearing(self._owners, "house", Variant(""))
        return self._use_factor or 1.0


def path_of(homestead: Homestead, row: Row) -> Path:
    """Where a row's key stands in the file's text, for ``changed_text``.

    Raises:
        KeyError: The homestead has no such row.
    """
    for path, shown in _sections(homestead, (), ""):
        if shown == row.section:
            return (*path, row.key)
    raise KeyError(row.section)


def _sections(section: Section, at: Path, shown: str) -> list[tuple[Path, str]]:
    """Every section and table of a homestead, with the name its rows bear."""
    found = [(at, shown)]
    for name, info in type(section).model_fields.items():
        key, value = info.alias or name, getattr(section, name)
        here = f"{shown}.{key}" if shown else key
        if isinstance(value, Section):
            found += _sections(value, (*at, key), here)
        elif isinstance(value, dict):
            found.append(((*at, key), here))
        elif isinstance(value, tuple):
            for number, one in enumerate(value, start=1):
                if isinstance(one, Section):
                    label = getattr(one, "name", str(number))
                    found += _sections(one, (*at, key, str(number)), f"{here} {label}")
    return found


def _standing(owners: OwnersFile) -> Bearing:
    stand = stand_only(owners)
    worst = max(stand.checks, key=lambda check: check.use)
    return Bearing(min(tilt.stands_to_m_s for tilt in stand.card), worst.use, worst.part)


def _room_v(owners: OwnersFile) -> float:
    file = owners.homestead
    limit = next(one.voltage_limit_v for one in file.household.controller if one.name == file.array.controller)  # fmt: skip
    return float(limit - wires_of(file).cold_with_margin_v)


def _points(base: Bearing, ends: tuple[Bearing, ...]) -> float:
    return max((_moved(base, end) for end in ends), default=0.0)


def _moved(base: Bearing, end: Bearing) -> float:
    if end.refused:
        return 0.0
    engine = max(POINT_ENGINE_H, POINT_ENGINE_SHARE * (base.engine_h or 0.0))
    steps = (
        (base.weakest_gust_m_s, end.weakest_gust_m_s, POINT_GUST_M_S),
        (base.most_used, end.most_used, POINT_USE),
        (base.engine_h, end.engine_h, engine),
        (base.room_v, end.room_v, POINT_VOLTS),
    )
    moved = max(
        abs(after - before) / step
        for before, after, step in steps
        if before is not None and after is not None
    )
    return moved + (VERDICT_POINTS if end.holds != base.holds else 0.0)
