"""Which single change raises the card most: the next pole (or, where the pole gives, the lightest that holds), a deeper or wider pier, a larger pin, a smaller array."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import pi

from polestead.base.table import table
from polestead.homestead.sentences import pole_words
from polestead.mount.geometry import geometry_of
from polestead.stand.actions import met_by_set
from polestead.stand.code import code_check
from polestead.stand.gust import crossing_of
from polestead.stand.result import Change
from polestead.stand.screens import screens_of
from polestead.stand.setting import Setting
from polestead.stand.states import parts_in
from polestead.strength.pole import PipeSection, pipe_section, pole_strength

DEEPER_M, WIDER_M = 0.3048, 0.1524
PIN_STEP_M = 0.003175
TOUGHER = 1.25  # on the module's test loads: many makers give two sets, by where the clamps sit


def changes_of(setting: Setting, concrete_per_m3: float | None = None) -> tuple[Change, ...]:
    """Each change apart, the one with the highest least gust first; of two alike the lesser worst use first.

    Args:
        setting: The mount as it is.
        concrete_per_m3: Price of concrete, where known.
    """
    told = [_told(words, changed, price) for words, changed, price in _tried(setting, concrete_per_m3)]  # fmt: skip
    return tuple(sorted(told, key=lambda change: (-round(change.weakest_m_s, 1), change.worst_use)))


def _told(words: str, setting: Setting, price: float | None) -> Change:
    parts = parts_in(setting, "locked")
    crossing = crossing_of(setting, parts, met_by_set(setting, setting.card_tilts_deg))
    place = int(crossing.gust_m_s.argmin())
    use = float(code_check(setting, parts).use.max())
    return Change(words, float(crossing.gust_m_s[place]), crossing.first(place), use, price)


def _tried(setting: Setting, per_m3: float | None) -> Iterator[tuple[str, Setting, float | None]]:
    footing, mount, array = setting.footing, setting.mount, setting.array
    bigger, lightest = next_pole(setting.pipe), lightest_pole(setting)
    if lightest is not None:
        yield f"the lightest pole that holds, {lightest.written}", _on(lightest, setting), None
    if bigger is not None and (lightest is None or bigger.written != lightest.written):
        yield f"the next pole, {bigger.written}", _on(bigger, setting), None
    deeper = footing.model_copy(update={"depth_m": footing.depth_m + DEEPER_M, "pole_depth_m": footing.pole_depth_m + DEEPER_M})  # fmt: skip
    wider = footing.model_copy(update={"diameter_m": footing.diameter_m + WIDER_M})
    for words, changed in (("the pier a foot (0.3 m) deeper, the pole with it", deeper), ("the pier half a foot (0.15 m) wider", wider)):  # fmt: skip
        more_m3 = pi / 4.0 * (changed.diameter_m**2 * changed.depth_m - footing.diameter_m**2 * footing.depth_m)  # fmt: skip
        price = None if per_m3 is None else per_m3 * more_m3
        yield words, setting.with_footing(changed), price
    pin = mount.model_copy(update={"hinge_pin_m": mount.hinge_pin_m + PIN_STEP_M})
    yield "hinge pins 1/8 in (3 mm) thicker", replace(setting, mount=pin), None
    if setting.lock is not None:
        lock = setting.lock.model_copy(update={"pin_diameter_m": setting.lock.pin_diameter_m + PIN_STEP_M})  # fmt: skip
        yield "the storm hold's pin 1/8 in (3 mm) thicker", replace(setting, lock=lock), None
    module = array.module
    tougher = module.model_copy(update={"tested_front_pa": TOUGHER * module.tested_front_pa, "tested_back_pa": TOUGHER * module.tested_back_pa})  # fmt: skip
    yield (
        "modules (or the maker's closer clamping) tested a quarter higher",
        replace(setting, array=array.model_copy(update={"module": tougher})),
        None,
    )
    if array.columns > 1:
        fewer = array.model_copy(update={"columns": array.columns - 1})
        kg = next(m.mass_kg for m in setting.geometry.masses if m.name == "strongback")
        geometry = geometry_of(mount, fewer, kg)
        yield "one column of modules fewer", replace(setting, array=fewer, geometry=geometry), None


def _on(pipe: PipeSection, setting: Setting) -> Setting:
    strength = pole_strength(pipe, setting.geometry.hinge_height_m, setting.steel_code)
    return replace(setting, pipe=pipe, pole=strength)


def lightest_pole(setting: Setting) -> PipeSection | None:
    """Where the pole gives by the code's check, by everyday gusts or by its sway: the lightest of the table in the same steel that does not.

    Args:
        setting: The mount as it is.

    Returns:
        None where the pole holds, and where none of the table would.
    """
    if _pole_holds(setting):
        return None
    stronger = (one for one in _poles(setting.pipe) if one.plastic_m3 > setting.pipe.plastic_m3)
    for pipe in sorted(stronger, key=lambda one: one.mass_kg_m):
        if _pole_holds(_on(pipe, setting)):
            return pipe
    return None


def _pole_holds(setting: Setting) -> bool:
    """Every check of the pole itself, of those that the card's verdict rests on."""
    parts = tuple(part for part in parts_in(setting, "locked") if part.name.startswith("pole"))
    checks = (*code_check(setting, parts).checks, *screens_of(setting))
    return all(check.holds for check in checks if check.part.startswith("pole"))


def next_pole(pipe: PipeSection) -> PipeSection | None:
    """The next stronger pole of the table in the same steel: the least plastic modulus over that of the one there is.

    Args:
        pipe: The pole as it is.
    """
    stronger = [one for one in _poles(pipe) if one.plastic_m3 > 1.02 * pipe.plastic_m3]
    return min(stronger, key=lambda one: one.plastic_m3, default=None)


def _poles(pipe: PipeSection) -> list[PipeSection]:
    """Every pole of the table in the steel of this one."""
    words = pole_words(pipe.written)
    rows = table("strength", "pipes")
    if words.nominal is None:  # a European or a measured one
        rows = table("strength", "hollow")
        named = [f"CHS {row['outside_mm']}x{row['wall_mm']} {words.material}" for row in rows]
    else:
        named = [f"{row['nominal']} in schedule {row['schedule']} {words.material}" for row in rows]
    return [pipe_section(pole_words(name)) for name in named]
