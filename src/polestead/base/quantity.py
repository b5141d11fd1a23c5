"""Quantities in the owner's own writing: ``12 ft 6 in``, ``6' 8"``, ``12-1/2 in``, ``-31 F``, ``45 kt``.

A quantity always carries its unit.  Reading gives SI (temperatures in degrees Celsius, angles in degrees, volume in
litres, energy in Wh, charge in Ah: the units the rooms use), conventions §2.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from polestead.base.table import table

_NUMBER = re.compile(
    r"""\s*
    (?: (?P<whole>\d+)(?:\s+|-)(?P<num>\d+)/(?P<den>\d+)      # 12-1/2  12 1/2
      | (?P<onlynum>\d+)/(?P<onlyden>\d+)                      # 5/8
      | (?P<grouped>\d{1,3}(?:,\d{3})+(?:\.\d+)?)              # 1,650
      | (?P<plain>\d+(?:\.\d+)?|\.\d+)                         # 12  12.5  .5
    )""",
    re.VERBOSE,
)
# One unit: letters, perhaps squared or cubed, perhaps per something; "6ft2in" is feet and inches, not square feet.
_UNIT = re.compile(
    r"""\s*(?P<unit>''|["']|%/[CK]|%|[°A-Za-z]+(?:[23](?![0-9A-Za-z]|[ ./-]\d))?(?:/[A-Za-z]+(?:[23](?![0-9A-Za-z]|[ ./-]\d))?)?)(?:\.(?![0-9]))?"""
)
_DEGREES_OF_HEAT = re.compile(r"(?:(?<![A-Za-z])deg(?:rees?)?\.?|°)\s*([CF])(?![A-Za-z])")
_LOOKALIKES = str.maketrans({"−": "-", "–": "-", "‐": "-", "‑": "-", "′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "²": "2", "³": "3", "º": "°", "˚": "°", "\u00a0": " ", "\u2009": " ", "\u202f": " "})  # fmt: skip
LONGEST = (
    60  # no quantity an owner writes is longer; beyond it a number no longer fits the machine's
)

SI_UNIT = {
    "length": "m",
    "mass": "kg",
    "force": "N",
    "pressure": "Pa",
    "pressure per depth": "Pa/m",
    "speed": "m/s",
    "temperature": "C",
    "angle": "deg",
    "voltage": "V",
    "current": "A",
    "power": "W",
    "energy": "Wh",
    "charge": "Ah",
    "time": "s",
    "volume": "l",
    "fuel rate": "l/h",
    "share": "",
    "share per degree": "1/K",
    "area": "m2",
    "density": "kg/m3",
}


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: SI value = (number + offset) * factor; `family` is where it is defined, SI or elsewhere."""

    name: str
    dimension: str
    factor: float
    offset: float
    family: str


@cache
def units() -> dict[str, Unit]:
    """All units by name."""
    return {
        row["unit"]: Unit(
            row["unit"], row["dimension"], float(row["factor"]), float(row["offset"]), row["source"]
        )
        for row in table("base", "units")
    }


def unit_names(dimension: str) -> tuple[str, ...]:
    """The units a dimension may be written in."""
    return tuple(name for name, unit in units().items() if unit.dimension == dimension)


class NotAQuantity(ValueError):  # noqa: N818  reads as the sentence it is
    """The text is no quantity of the wanted dimension; the message says why, in the owner's words."""


def read_quantity(text: str, dimension: str) -> float:
    """Read a quantity with its unit.

    Args:
        text: The owner's writing.
        dimension: What it must be (a key of ``SI_UNIT``).

    Returns:
        The value in the dimension's unit of ``SI_UNIT``.

    Raises:
        NotAQuantity: No unit, a unit of another dimension, or not readable.

    Example:
        >>> round(read_quantity("12 ft 6 in", "length"), 4), read_quantity("12-1/2 in", "length")
        (3.81, 0.3175)
        >>> round(read_quantity("6' 8\\"", "length"), 4), round(read_quantity("-31 F", "temperature"), 2)
        (2.032, -35.0)
        >>> read_quantity("12", "length")
        Traceback (most recent call last):
        polestead.base.quantity.NotAQuantity: 12 has no unit: did you mean 12 m, 12 cm, 12 mm, 12 ft or 12 in?
    """
    written = " ".join(text.split())
    rest = _DEGREES_OF_HEAT.sub(r"\1", written.translate(_LOOKALIKES)).strip()
    _refuse_at_sight(written, rest)
    sign = -1.0 if rest.startswith("-") else 1.0
    parts = _parts(rest[1:] if rest[0] in "+-" else rest, written, dimension)
    if len(parts) == 1:
        value, unit = parts[0]
        return (sign * value + unit.offset) * unit.factor
    return sign * sum(value * unit.factor for value, unit in parts)


def _refuse_at_sight(written: str, rest: str) -> None:
    """What no quantity looks like, whatever its dimension."""
    message = ""
    if not rest:
        message = "it is empty"
    elif len(rest) > LONGEST:
        message = f"{written[:30]}... is too long for a quantity"
    elif re.search(r"\d,\d(?!\d\d(?!\d))", rest):
        message = f"{written} has a comma in the number: write a point for decimals, as in 3.5"
    elif re.search(r"\d[eE][+-]?\d", rest):
        message = f"{written} has an exponent: write the number out, as in 1200"
    if message:
        raise NotAQuantity(message)


def _parts(rest: str, written: str, dimension: str) -> list[tuple[float, Unit]]:
    """The numbers with their units, the larger unit first."""
    parts: list[tuple[float, Unit]] = []
    while rest:
        rest = rest.removeprefix("-") if parts else rest  # the dash of 12'-6"
        number = _NUMBER.match(rest)
        if number is None:
            message = f"{written} cannot be read as a number with a unit"
            raise NotAQuantity(message)
        value, after = _value(number, written), rest[number.end() :]
        if not after.strip():
            raise NotAQuantity(_unit_wanted(written, value, dimension, bare=not parts))
        unit, rest = _unit(after, written, dimension)
        if parts:
            _fits_behind(parts[-1][1], unit, written)
        parts.append((value, unit))
    return parts


def _fits_behind(larger: Unit, unit: Unit, written: str) -> None:
    """A further part is of the same family and smaller, as inches behind feet."""
    message = ""
    if unit.dimension == "temperature":
        message = f"{written} holds two temperatures: write one"
    elif unit.factor >= larger.factor:
        message = f"{written} has its parts out of order: write the larger unit first"
    elif unit.family != larger.family:
        message = f"{written} mixes {larger.name} and {unit.name}: write it in one or the other"
    if message:
        raise NotAQuantity(message)


def _unit_wanted(written: str, value: float, dimension: str, *, bare: bool) -> str:
    """What is said of a number that has no unit behind it."""
    if not bare:
        return f"the last number of {written} has no unit"
    ways = [f"{written} {name}" for name in offered(dimension)]
    if dimension == "share" and 0.0 < abs(value) <= 1.0:
        sign = "-" if written.translate(_LOOKALIKES).startswith("-") else ""
        ways.append(f"{sign}{value * 100.0:g} %")
    return f"{written} has no unit: did you mean {_either(ways)}?"


def _value(number: re.Match[str], text: str) -> float:
    """The plain number of one part, without its sign."""
    if number["whole"] is not None:
        return int(number["whole"]) + _fraction(number["num"], number["den"], text)
    if number["onlynum"] is not None:
        return _fraction(number["onlynum"], number["onlyden"], text)
    return float((number["grouped"] or number["plain"]).replace(",", ""))


def _fraction(above: str, below: str, text: str) -> float:
    if int(below) == 0:
        message = f"{text.strip()} divides by zero"
        raise NotAQuantity(message)
    return int(above) / int(below)


def _unit(rest: str, text: str, dimension: str) -> tuple[Unit, str]:
    """The unit that stands at the start of the rest, and what follows it."""
    found = _UNIT.match(rest)
    if found is None:
        message = f"{text} cannot be read as a number with a unit"
        raise NotAQuantity(message)
    name = '"' if found["unit"] == "''" else found["unit"]
    unit = units().get(name)
    if unit is None:
        folded = {known.lower(): known for known in unit_names(dimension)}
        near = folded.get(name.lower())
        hint = f"did you mean {near}?" if near else f"write {_either(list(offered(dimension)))}"
        message = f"{name} is no unit known here; {hint}"
        raise NotAQuantity(message)
    if unit.dimension != dimension:
        message = f"{text} is {_a(unit.dimension)}, {_a(dimension)} is wanted: write {_either(list(offered(dimension)))}"
        raise NotAQuantity(message)
    return unit, rest[found.end() :].strip()


def _a(word: str) -> str:
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"


def offered(dimension: str) -> tuple[str, ...]:
    """The few units worth naming in a message."""
    shown = {
        "length": ("m", "cm", "mm", "ft", "in"),
        "speed": ("m/s", "km/h", "mph", "kt"),
        "temperature": ("C", "F"),
        "pressure": ("Pa", "kPa", "psf", "psi"),
        "mass": ("kg", "lb"),
        "force": ("N", "kN", "lbf"),
        "volume": ("l", "gal"),
        "time": ("s", "min", "h", "days"),
        "angle": ("deg",),
        "voltage": ("V",),
        "current": ("A",),
        "power": ("W", "kW", "hp"),
        "energy": ("Wh", "kWh"),
        "fuel rate": ("l/h", "gal/h"),
    }
    return shown.get(dimension, unit_names(dimension))


def _either(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]


def in_unit(value_si: float, unit_name: str) -> float:
    """An SI value expressed in a named unit.

    Example:
        >>> round(in_unit(44.704, "mph"), 6), round(in_unit(-40.0, "F"), 6)
        (100.0, -40.0)
    """
    unit = units()[unit_name]
    return value_si / unit.factor - unit.offset
