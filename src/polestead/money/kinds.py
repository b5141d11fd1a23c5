"""What kind of thing a line of the ledger pays for, and how much of it the house wants."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from polestead.base.table import table
from polestead.build.given import FOOT_M
from polestead.build.ground.concrete import YARD_M3
from polestead.money.house import House
from polestead.money.ledger import LedgerLine, part_by_name

POUND_KG = 0.45359237
_STEEL = {"pole": ("pole", "post", "pipe"), "strongback": ("strongback", "beam"), "rail": ("rail",)}
_ALL_STEEL = ("steel", "frame", "tube")
# Names of work, bought services or fittings: what they cost does not follow the weight.
_NO_STUFF = ("weld", "bolt", "clamp", "drill", "hire", "rent", "pump", "mixer", "tool", "form", "delivery", "freight", "lift", "hoist", "trip", "test", "label", "permit", "insur", "isolator", "bracket", "cap")  # fmt: skip
_PARTS = {
    "tools and hire": (("hire", "rent", "crane", "digger", "excavator", "auger", "machine", "telehandler"), "hire"),
    "controller and guards": (("controller",), "controller"),
    "drive and lock": (("actuator",), "actuator"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class PaidThing:
    """What a line pays for.

    Attributes:
        kind: Row of ``spans.csv``.
        quantity: How much the house wants of it, in that row's unit; 1 where it is held by the line.
        shown: That quantity in words, empty where it is held by the line.
        each: Its unit in words, as ``a yard``.
        each_of: The quantity in that unit.
        pieces: What a price may have been meant for, in words, and how many of it the whole is.
    """

    kind: str
    quantity: float = 1.0
    shown: str = ""
    each: str = ""
    each_of: float = 1.0
    pieces: tuple[tuple[str, float], ...] = ()


def thing_of(name: str, part: str, house: House) -> PaidThing:
    """What a line pays for, by its name and part; our own rule.

    Args:
        name: Of the line.
        part: It belongs to.
        house: What the house wants.

    Example:
        >>> house = House(3520.0, modules=8, concrete_m3=2.3)
        >>> thing_of("solar modules", "array", house).quantity, thing_of("permit", "papers", house).kind
        (3520.0, 'papers')
    """
    words = re.findall(r"[a-z]+", name.lower())
    plain = not _any(words, _NO_STUFF)
    if part == "array" and plain and _any(words, ("module", "panel")):
        return power_of("modules", house)
    if part == "footing" and plain and _any(words, ("concrete", "cement", "readymix")) and house.concrete_m3 > 0.0:  # fmt: skip
        return concrete_in(house)
    if part == "pole and frame":
        return _steel(words, plain, house)
    if part == "wires" and plain and _any(words, ("cable", "wire", "conductor")) and house.run_m > 0.0:  # fmt: skip
        return _cable(house)
    stems, kind = _PARTS.get(part, ((), ""))
    if stems and _any(words, stems):
        return PaidThing(kind)
    return PaidThing("papers" if part == "papers" else "other" if part in ("other", "pole and frame") else "small")  # fmt: skip


def bought_thing(name: str, house: House) -> PaidThing:
    """What a line beside a bought mount pays for: by the line, for a mount brings its own steel."""
    part = part_by_name(name)
    return PaidThing("other") if part == "pole and frame" else thing_of(name, part, house)


def lots_of(things: Iterable[tuple[LedgerLine, PaidThing]]) -> dict[PaidThing, int]:
    """How many lines with money pay for each thing."""
    return Counter(thing for line, thing in things if line.amount > 0.0)


def power_of(kind: str, house: House) -> PaidThing:
    """A thing by the watt of the new array."""
    watts, one = house.module_power_w, house.module_power_w / house.modules
    shown = f"{house.modules} modules of {one:,.0f} W" if house.modules > 1 else f"{watts:,.0f} W"
    pieces = (("the price of one module", float(house.modules)), ("the price of one watt", watts), ("cents for one watt", watts / 100.0))  # fmt: skip
    return PaidThing(kind, watts, shown, "a watt", watts, pieces)


def concrete_in(house: House) -> PaidThing:
    """The pour as ordered."""
    volume = house.concrete_m3
    bag = next(row for row in table("build", "ground/bags") if row["bag"].endswith("kg") == (house.style == "metric"))  # fmt: skip
    each, unit, sold = ("a yard", "yd3", volume / YARD_M3) if house.style == "feet" else ("a cubic metre", "m3", volume)  # fmt: skip
    bags = volume / float(bag["yield_m3"])
    pieces = ((f"the price of {each}", sold), (f"the price of one bag of {bag['bag']}", bags))
    return PaidThing("concrete", volume, f"{sold:,.2f} {unit}", each, sold, pieces)


def _steel(words: list[str], plain: bool, house: House) -> PaidThing:
    if _any(words, ("galvan",)):
        kg = sum(house.steel_kg.values())
        return _by_weight("galvanizing", kg, house) if kg > 0.0 else PaidThing("other")
    named = [kind for kind, stems in _STEEL.items() if _any(words, stems)]
    if _any(words, _ALL_STEEL):
        named = list(house.steel_kg)
    kg = sum(house.steel_kg.get(kind, 0.0) for kind in named)
    fittings = not plain and not named
    return PaidThing("other") if fittings or kg <= 0.0 else _by_weight("steel", kg, house)


def _by_weight(kind: str, kg: float, house: House) -> PaidThing:
    each, unit, sold = ("a pound", "lb", kg / POUND_KG) if house.style == "feet" else ("a kilogram", "kg", kg)  # fmt: skip
    return PaidThing(kind, kg, f"{sold:,.0f} {unit}", each, sold, ((f"the price of {each}", sold),))


def _cable(house: House) -> PaidThing:
    each, unit, sold = ("a foot", "ft", house.run_m / FOOT_M) if house.style == "feet" else ("a metre", "m", house.run_m)  # fmt: skip
    return PaidThing("cable", house.run_m, f"{sold:,.0f} {unit} of run", each, sold, ((f"the price of {each}", sold),))  # fmt: skip


def _any(words: list[str], stems: tuple[str, ...]) -> bool:
    return any(word.startswith(stems) for word in words)
