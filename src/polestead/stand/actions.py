"""What acts on the parts, as rows of cases over columns of tilts; dead, snow and wind add up field by field."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from polestead.loads.combinations import (
    Combination,
    InGust,
    LoadSet,
    combinations,
    in_gust,
    snow_at_allowable,
)
from polestead.loads.eurocode import eurocode_actions
from polestead.loads.ice import ice_weight_n
from polestead.loads.on_array import WindActions
from polestead.loads.pressure import velocity_pressure_pa
from polestead.loads.snow import heap_height_m, least_snow_pa, sloped_snow_pa, snow_actions
from polestead.loads.wind import collector_actions, wind_actions
from polestead.mount.geometry import dead_hinge_moment_n_m, lowest_edge_m
from polestead.stand.setting import Setting

Floats = NDArray[np.float64]
ICE_GUST_M_S = 40 * 0.44704  # ASCE 7 Fig. 10.5-1, most of the map (from memory)
POLE_DRAG = 1.0  # round pole, ASCE 7-16 Fig. 29.4-1 at h/D about 15 (from memory)
UNEVEN = (
    0,
    1,
    2,
    3,
)  # patterns of snow that may lie while it blows; the least uniform snow may not
HALVES = (1, 2, 3)
# Of the five patterns of snow (loads.snow): how much of the weight bends the strongback, as if its worse side were both, and how
# much of the moment turns its worse half.  One side alone bends and turns its own half as the whole cover would both.
SNOW_BENDS = (1.0, 0.5, 0.5, 1.0, 1.0)
SNOW_TURNS = (0.5, 0.5, 0.5, 1.0, 0.5)
FIELDS = (
    "down_n",  # on the hinge
    "foot_down_n",  # at the ground, pole in it
    "towards_n",  # level at the hinge, + towards the sun side
    "shear_n",  # level at the ground, pole's own drag in it
    "hinge_n_m",  # + steepens
    "base_n_m",  # about the ground line, same sign
    "roll_n_m",  # sizes
    "twist_n_m",
    "square_n",  # on the strongback square to the glass, + from the back, its worse half doubled
    "along_n",  # on the strongback along the glass
    "front_pa",  # on the worst module's glass
    "back_pa",  # on the worst module's back
    "rail_front_pa",  # on the glass over the outer rail
    "rail_back_pa",  # the same from behind
    "half_turn_n_m",  # twist of the strongback's worse half by the hinge moment, + steepens
)  # fmt: skip
PLACE_OF = {name: place for place, name in enumerate(FIELDS)}


@dataclass(frozen=True, eq=False)
class Acting:
    """Actions [fields, cases, tilts] with the cases' names and sides.

    Attributes:
        names: What each case is [cases].
        sides: ``back``, ``glass`` or empty [cases].
        tilt_deg: [tilts].
        values: [fields, cases, tilts].
        made: What has been made from them already.
    """

    names: tuple[str, ...]
    sides: tuple[str, ...]
    tilt_deg: Floats
    values: Floats
    made: dict[str, Floats] = field(default_factory=dict, repr=False)

    def once(self, name: str, make: Callable[[], Floats]) -> Floats:
        """A figure made from the fields alone, made once."""
        if name not in self.made:
            self.made[name] = make()
        return self.made[name]

    def __getattr__(self, name: str) -> Floats:
        """One field by its name, [cases, tilts]."""
        if name in PLACE_OF:
            return np.asarray(self.values[PLACE_OF[name]])
        raise AttributeError(name)

    def with_values(self, values: Floats) -> Acting:
        """The same cases with other figures."""
        return Acting(self.names, self.sides, self.tilt_deg, values)

    def only(self, case: int, tilt: int) -> Acting:
        """One case at one tilt."""
        values = self.values[:, case : case + 1, tilt : tilt + 1]
        tilts = self.tilt_deg[tilt : tilt + 1]
        return Acting((self.names[case],), (self.sides[case],), tilts, values)


def _acting(
    names: tuple[str, ...], sides: tuple[str, ...], tilt_deg: Floats, **fields: Floats
) -> Acting:
    shape = (len(names), len(tilt_deg))
    values = np.zeros((len(FIELDS), *shape))
    for name, figure in fields.items():
        values[PLACE_OF[name]] = figure
    return Acting(names, sides, tilt_deg, values)


def empty(names: tuple[str, ...], sides: tuple[str, ...], tilt_deg: Floats) -> Acting:
    """Cases in which nothing acts yet."""
    return _acting(names, sides, tilt_deg)


def dead(setting: Setting, tilt_deg: Floats) -> Acting:
    """Weight: one case."""
    t = np.radians(tilt_deg)
    weight = setting.array_weight_n
    module = setting.array.module
    on_glass = module.mass_kg * 9.80665 / (module.length_m * module.width_m) * np.cos(t)
    turn = dead_hinge_moment_n_m(setting.geometry, tilt_deg)
    return _acting(
        ("D",), ("",), tilt_deg,
        down_n=np.full_like(t, weight), foot_down_n=np.full_like(t, weight + setting.pole_weight_n),
        hinge_n_m=turn, half_turn_n_m=turn / 2.0, base_n_m=turn, square_n=-weight * np.cos(t), along_n=weight * np.sin(t),
        front_pa=on_glass, back_pa=-on_glass, rail_front_pa=on_glass, rail_back_pa=-on_glass,
    )  # fmt: skip


def room_to_slide(setting: Setting, tilt_deg: Floats) -> NDArray[np.bool_]:
    """Whether the low edge clears the snow that lies and the heap of once sliding off, at each tilt."""
    ground = setting.place.ground_snow_pa
    slope = np.abs(tilt_deg)
    lies = sloped_snow_pa(
        ground, setting.site.exposure, np.zeros_like(slope), True, setting.site.basis, setting.place.risk_category
    )  # fmt: skip
    heap = heap_height_m(ground, lies, setting.geometry.chord_m, slope)
    return np.asarray(lowest_edge_m(setting.geometry, slope) > heap)


def snow(setting: Setting, tilt_deg: Floats) -> Acting:
    """Nominal snow, a case a pattern."""
    g, place, basis = setting.geometry, setting.place, setting.site.basis
    t = np.radians(tilt_deg)
    room = room_to_slide(setting, tilt_deg)
    lies = sloped_snow_pa(
        place.ground_snow_pa, setting.site.exposure, tilt_deg, room, basis, place.risk_category
    )
    least = least_snow_pa(place.ground_snow_pa, tilt_deg, basis, place.risk_category)
    s = snow_actions(lies, least, tilt_deg, g.width_m, g.upper_m, g.lower_m, g.glass_above_m)
    on_beam = np.array(SNOW_BENDS)[:, None] * s.down_n
    return _acting(
        tuple(f"snow, {name}" for name in s.pattern_names), ("",) * len(s.pattern_names), tilt_deg,
        down_n=s.down_n, foot_down_n=s.down_n, hinge_n_m=s.hinge_n_m, half_turn_n_m=np.array(SNOW_TURNS)[:, None] * s.hinge_n_m, base_n_m=s.hinge_n_m,
        roll_n_m=s.roll_n_m, square_n=-on_beam * np.cos(t), along_n=on_beam * np.sin(t),
        front_pa=s.pressure_pa * np.cos(t) ** 2, rail_front_pa=s.pressure_pa * np.cos(t) ** 2,
    )  # fmt: skip


def ice(setting: Setting, tilt_deg: Floats) -> Acting:
    """Ice of freezing rain on the array: one case, its weight as dead load acts."""
    t, g = np.radians(tilt_deg), setting.geometry
    weight = ice_weight_n(setting.place.ice_thickness_m or 0.0, g.area_m2)
    off_m = (g.lower_m - g.upper_m) / 2.0
    turn = weight * (g.glass_above_m * np.sin(t) + off_m * np.cos(t))
    on_glass = weight / g.area_m2 * np.cos(t)
    return _acting(
        ("ice",), ("",), tilt_deg,
        down_n=np.full_like(t, weight), foot_down_n=np.full_like(t, weight), hinge_n_m=turn, half_turn_n_m=turn / 2.0, base_n_m=turn,
        square_n=-weight * np.cos(t), along_n=weight * np.sin(t), front_pa=on_glass, rail_front_pa=on_glass,
    )  # fmt: skip


def wind(setting: Setting, actions: WindActions, pole_drag_n: float) -> Acting:
    """Wind actions laid on the parts, with the drag of the pole itself.

    Args:
        setting: The mount.
        actions: Of the array.
        pole_drag_n: Level force on the pole, at half its height [N].
    """
    facing = np.array([1.0 if side == "back" else -1.0 for side in actions.sides])[:, None]
    drag = facing * pole_drag_n
    zone, rail = setting.module_zone, setting.rail_zone
    return _acting(
        actions.case_names, actions.sides, actions.tilt_deg,
        down_n=-actions.up_n, foot_down_n=-actions.up_n, towards_n=actions.towards_sun_n,
        shear_n=actions.towards_sun_n + drag, hinge_n_m=actions.hinge_n_m,
        half_turn_n_m=setting.lopsided / 2.0 * actions.hinge_n_m,
        base_n_m=actions.base_signed_n_m + drag * setting.pole_height_m / 2.0,
        roll_n_m=actions.roll_n_m, twist_n_m=actions.twist_n_m, square_n=setting.lopsided * actions.push_n,
        front_pa=zone * actions.press_pa, back_pa=zone * actions.lift_pa,
        rail_front_pa=rail * actions.press_pa, rail_back_pa=rail * actions.lift_pa,
    )  # fmt: skip


def code_rule_wind(
    setting: Setting,
    gust_m_s: float,
    tilt_deg: Floats,
    directionality: float,
    gust_factor: float,
    floors: bool,
) -> WindActions:
    """Wind on the array by the figures of the basis."""
    g, site = setting.geometry, setting.site
    if setting.eurocode:
        return eurocode_actions(g, site, gust_m_s, tilt_deg, floors, setting.module_sides_m)
    return wind_actions(g, site, gust_m_s, tilt_deg, directionality, gust_factor, floors)


def pole_drag_n(
    setting: Setting, gust_m_s: float, directionality: float, gust_factor: float
) -> float:
    """Level force on the pole itself, Kd q(H) G Cf D h; q at the hinge, on the careful side.

    Source: ASCE 7-16 Eq. 29.4-1 and Fig. 29.4-1 (from memory).
    """
    q = float(velocity_pressure_pa(gust_m_s, setting.geometry.hinge_height_m, setting.site))
    area_m2 = setting.pipe.outside_m * setting.pole_height_m
    return directionality * gust_factor * q * POLE_DRAG * area_m2


@dataclass(frozen=True, slots=True)
class Blow:
    """A wind by the figures of the basis: its gust, and the factors it is taken with.

    Attributes:
        gust_m_s: Three seconds, 10 m, in the open.
        directionality: Kd; 1 under Eurocode and for what it stands to.
        gust_factor: G; 1 under Eurocode.
        floors: Whether the code's least pushes count.
    """

    gust_m_s: float
    directionality: float
    gust_factor: float
    floors: bool


def code_blow(setting: Setting) -> Blow:
    """The map's wind as the code's check takes it."""
    return Blow(setting.map_gust_m_s, setting.directionality, setting.code_gust_factor, True)


def told_blow(setting: Setting, gust_m_s: float) -> Blow:
    """A gust as the card takes it: no Kd, the gust factor of a given gust, no floors."""
    return Blow(gust_m_s, 1.0, setting.gust_factor, False)


def blown(setting: Setting, blow: Blow, tilt_deg: Floats) -> Acting:
    """That wind on all parts, by the figures of the basis."""
    kd, factor = blow.directionality, blow.gust_factor
    actions = code_rule_wind(setting, blow.gust_m_s, tilt_deg, kd, factor, blow.floors)
    return wind(setting, actions, pole_drag_n(setting, blow.gust_m_s, kd, factor))


def unit_wind(setting: Setting, tilt_deg: Floats) -> Acting:
    """Wind of a 1 m/s gust after both sets, Kd = 1: multiply by the gust squared (conventions §12)."""
    drag = pole_drag_n(setting, 1.0, 1.0, setting.gust_factor)
    collector = collector_actions(setting.geometry, setting.site, 1.0, tilt_deg)
    code = blown(setting, told_blow(setting, 1.0), tilt_deg)
    return stacked([code, wind(setting, collector, drag)])


def stacked(parts: Iterable[Acting]) -> Acting:
    """Cases of several below each other."""
    listed = tuple(parts)
    return Acting(
        tuple(name for part in listed for name in part.names),
        tuple(side for part in listed for side in part.sides),
        listed[0].tilt_deg,
        np.concatenate([part.values for part in listed], axis=1),
    )


def chosen(acting: Acting, rows: tuple[int, ...]) -> Acting:
    """Some cases only."""
    return Acting(
        tuple(acting.names[row] for row in rows),
        tuple(acting.sides[row] for row in rows),
        acting.tilt_deg,
        acting.values[:, list(rows), :],
    )


def snow_lying(setting: Setting, tilt_deg: Floats) -> Acting:
    """Design snow at its allowable level on half the glass: lower half, upper half, or one side; with its true weight."""
    lying = chosen(snow(setting, tilt_deg), HALVES)
    values = snow_at_allowable(setting.site.basis) * lying.values
    for name in ("down_n", "foot_down_n"):
        values[PLACE_OF[name]] /= 2.0
    return lying.with_values(values)


@dataclass(frozen=True, eq=False)
class Combined:
    """All code combinations, with what each row was made of.

    Attributes:
        acting: The sums.
        rule: Combination of each row.
        snow_row, wind_row: Its rows in ``snow`` and ``wind``, None where none acts.
        dead, snow, wind, ice: The pieces, unfactored.
    """

    acting: Acting
    rule: tuple[Combination, ...]
    snow_row: tuple[int | None, ...]
    wind_row: tuple[int | None, ...]
    dead: Acting
    snow: Acting
    wind: Acting
    ice: Acting


def rules_of(setting: Setting, loads: LoadSet) -> tuple[Combination, ...]:
    """The combinations of a set; wind that comes with ice is brought down to its own gust."""
    place = setting.place
    rules = combinations(
        setting.site.basis, loads, place.elevation_m, place.ice_thickness_m is not None
    )
    lesser = ((place.ice_gust_m_s or ICE_GUST_M_S) / setting.map_gust_m_s) ** 2
    return tuple(replace(rule, wind=lesser * rule.wind) if rule.ice else rule for rule in rules)


def combined(
    rules: tuple[Combination, ...], still: Acting, snowed: Acting, blown: Acting, iced: Acting
) -> Combined:
    """Every combination with every pattern of snow and every case of wind."""
    rows: list[tuple[Combination, int | None, int | None]] = []
    for rule in rules:
        patterns: tuple[int | None, ...] = (None,)
        if rule.snow > 0.0:
            patterns = UNEVEN if rule.wind > 0.0 else tuple(range(len(snowed.names)))
        cases: tuple[int | None, ...] = (
            tuple(range(len(blown.names))) if rule.wind > 0.0 else (None,)
        )
        rows += [(rule, pattern, case) for pattern in patterns for case in cases]
    values = np.stack([_row_values(row, still, snowed, blown, iced) for row in rows], axis=1)
    names = tuple(_row_name(row, snowed, blown) for row in rows)
    sides = tuple("" if case is None else blown.sides[case] for _, _, case in rows)
    return Combined(
        Acting(names, sides, still.tilt_deg, values),
        tuple(rule for rule, _, _ in rows),
        tuple(pattern for _, pattern, _ in rows),
        tuple(case for _, _, case in rows),
        still,
        snowed,
        blown,
        iced,
    )


def _row_values(
    row: tuple[Combination, int | None, int | None],
    still: Acting,
    snowed: Acting,
    blown: Acting,
    iced: Acting,
) -> Floats:
    rule, pattern, case = row
    values = rule.dead * still.values[:, 0]
    if rule.ice > 0.0:
        values = values + rule.ice * iced.values[:, 0]
    if pattern is not None:
        values = values + rule.snow * snowed.values[:, pattern]
    if case is not None:
        values = values + rule.wind * blown.values[:, case]
    return np.asarray(values)


def _row_name(
    row: tuple[Combination, int | None, int | None], snowed: Acting, blown: Acting
) -> str:
    rule, pattern, case = row
    words = [rule.name]
    words += [] if pattern is None else [snowed.names[pattern]]
    words += [] if case is None else [blown.names[case]]
    return "; ".join(words)


@dataclass(frozen=True, eq=False)
class Met:
    """A gust as a set of combinations meets it: every load that acts without wind, with every wind of 1 m/s.

    A case's number is its load's times the winds, and its wind's.

    Attributes:
        calm: [fields, loads, tilts].
        gusting: [fields, winds, tilts]; grows with the gust squared.
        factor: On the wind, taken in.
    """

    calm: Acting
    gusting: Acting
    factor: float = 1.0

    def one_tilt(self, place: int) -> Met:
        """The same at one tilt."""
        here = slice(place, place + 1)
        calm, gusting = (
            Acting(a.names, a.sides, a.tilt_deg[here], a.values[:, :, here])
            for a in (self.calm, self.gusting)
        )
        return Met(calm, gusting, self.factor)

    def rows(self, case: int) -> tuple[int, int]:
        """Its load and its wind."""
        return divmod(case, len(self.gusting.names))

    def one_case(self, case: int, tilt: int) -> tuple[Acting, Acting]:
        """What acts without wind, and the wind of 1 m/s, in one case at one tilt."""
        load, wind = self.rows(case)
        return self.calm.only(load, tilt), self.gusting.only(wind, tilt)

    def side(self, case: int) -> str:
        """The side a case's wind comes from."""
        return self.gusting.sides[self.rows(case)[1]]

    def name(self, case: int) -> str:
        """What a case is."""
        load, wind = self.rows(case)
        return f"{self.calm.names[load]}; {self.gusting.names[wind]}"


def met(factors: InGust, still: Acting, blown: Acting, lying: Acting | None = None) -> Met:
    """Still loads and wind in the factors of a set, snow that lies with them where there is any."""
    loads = [still.with_values(factor * still.values) for factor in factors.dead]
    if lying is not None:
        loads = [lying.with_values(lying.values * factors.snow + load.values) for load in loads]
    calm = stacked(loads) if len(loads) > 1 else loads[0]
    return Met(calm, blown.with_values(factors.wind * blown.values), factors.wind)


def met_by_set(setting: Setting, tilt_deg: Floats, snowed: bool = False) -> dict[LoadSet, Met]:
    """The gust of every set over the tilts, bare or under half-covering snow."""
    still, blown = dead(setting, tilt_deg), unit_wind(setting, tilt_deg)
    return _met_by_set(setting, still, blown, snow_lying(setting, tilt_deg) if snowed else None)


def bare_and_snowed(setting: Setting, tilt_deg: Floats) -> tuple[dict[LoadSet, Met], dict[LoadSet, Met]]:  # fmt: skip
    """Both, from one and the same wind."""
    still, blown = dead(setting, tilt_deg), unit_wind(setting, tilt_deg)
    lying = snow_lying(setting, tilt_deg)
    return _met_by_set(setting, still, blown, None), _met_by_set(setting, still, blown, lying)


def _met_by_set(
    setting: Setting, still: Acting, blown: Acting, lying: Acting | None
) -> dict[LoadSet, Met]:
    basis = setting.site.basis
    return {loads: met(in_gust(basis, loads), still, blown, lying) for loads in setting.load_sets}
