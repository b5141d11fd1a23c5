"""Quantities shown to people, in feet and inches or in metric."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass, replace
from math import ceil, floor, isfinite, log10
from typing import Literal, TypeVar, cast

from polestead.base.quantity import in_unit, read_quantity

Style = Literal["feet", "metric"]
Way = Literal["", "up", "down", "near"]
T = TypeVar("T")
MINUS = "−"
METRES_FROM_M = 10.0  # a run is not read in thousands of millimetres
TENTHS_UNDER_M = 0.1  # on a drawing a tenth of a millimetre counts up to here


def signed(words: str) -> str:
    """A value as the owner wrote it, its minus a true one; a hyphen between figures stays.

    Example:
        >>> signed("-47 F"), signed("49-1/2 in"), signed("-0.25 %/C"), signed("15 Mar -5 deg")
        ('−47 F', '49-1/2 in', '−0.25 %/C', '15 Mar −5 deg')
    """
    return re.sub(r"(?<![^\s(~])-(?=\.?\d)", MINUS, words)


def number(value: float, digits: int = 0) -> str:
    """A number with thousands grouped and a true minus.

    Example:
        >>> number(-1234.56, 1)
        '−1,234.6'
    """
    text = f"{value:,.{digits}f}"
    if text.startswith("-"):
        return text[1:] if float(text.replace(",", "")) == 0.0 else MINUS + text[1:]
    return text


def percent(share: float, digits: int = 0) -> str:
    """A share in hundredths, its sign a blank after the number.

    Example:
        >>> percent(0.537), percent(-0.031, 1)
        ('54 %', '−3.1 %')
    """
    return f"{number(100.0 * share, digits)} %"


def feet_inches(metres: float, sixteenths: int = 16) -> str:
    """A length in feet, inches and a binary fraction, to the nearest 1/16 in by default.

    Args:
        metres: Length [m].
        sixteenths: Parts an inch is divided into (2, 4, 8, 16, 32).

    Example:
        >>> feet_inches(3.81), feet_inches(0.3175), feet_inches(-0.0254), feet_inches(0.0)
        ('12 ft 6 in', '12 1/2 in', '−1 in', '0 in')
    """
    total = round(abs(metres) / 0.0254 * sixteenths)
    inches, part = divmod(total, sixteenths)
    feet, inches = divmod(inches, 12) if inches >= 24 else (0, inches)
    below = sixteenths
    while part and part % 2 == 0:
        part, below = part // 2, below // 2
    words = []
    if feet:
        words.append(f"{feet} ft")
    whole = f"{inches} " if inches else ""
    if part:
        words.append(f"{whole}{part}/{below} in")
    elif inches or not feet:
        words.append(f"{inches} in")
    return (MINUS if metres < 0 and total else "") + " ".join(words)


# Steps of a length that is set out, not cut: under so much, to so much (our own, as a tape and a spade are used).
_STEPS: dict[Style, tuple[tuple[float, float], ...]] = {
    "feet": ((0.0508, 0.0254 / 16.0), (0.3048, 0.0127), (0.9144, 0.0254), (3.048, 0.0762), (float("inf"), 0.3048)),
    "metric": ((0.05, 0.001), (1.0, 0.01), (3.0, 0.05), (float("inf"), 0.5)),
}  # fmt: skip


def set_out(metres: float, style: Style, way: Way) -> float:
    """A length of our own choosing as a person sets it out: round in his unit, on the careful side.

    What must fit (a cut, a hole, a rod mark) is not for this: it stays exact.

    Args:
        metres: As worked [m].
        style: Whose units.
        way: ``up`` for what may be more (a depth, a clear distance), ``down`` for what may be less, ``near`` where
            neither is safer; empty: as it is.

    Returns:
        The round length [m].

    Example:
        >>> feet_inches(set_out(0.3, "feet", "up")), feet_inches(set_out(0.74, "feet", "up"))
        ('12 in', '2 ft 6 in')
        >>> feet_inches(set_out(1.89, "feet", "near")), round(set_out(1.89, "metric", "near"), 3)
        ('6 ft 3 in', 1.9)
        >>> round(set_out(0.0063, "metric", "down"), 3), set_out(0.6096, "feet", "up") == 0.6096
        (0.006, True)
    """
    if not way:
        return metres
    step = next(one for most, one in _STEPS[style] if abs(metres) < most)
    count = metres / step
    whole = {"up": ceil(count - 1e-6), "down": floor(count + 1e-6), "near": round(count)}[way]
    return metres if abs(count - whole) < 1e-6 else whole * step


def set_length(metres: float, style: Style, way: Way) -> str:
    """The same in a sentence.

    Example:
        >>> set_length(2.673, "metric", "up"), set_length(2.673, "feet", "up"), set_length(0.3, "metric", "up")
        ('2.7 m', '9 ft', '300 mm')
        >>> set_length(5.03, "metric", "up"), set_length(5.64, "feet", "up"), set_length(4.9, "metric", "down")
        ('5.5 m', '19 ft', '4.5 m')
    """
    told = length(set_out(metres, style, way), style)
    return re.sub(r"(\.\d*?)0+ m$", r"\1 m", told).replace(". m", " m")


def inches(metres: float) -> str:
    """A length as a tape in inches shows it, to the nearest 1/16, without its unit.

    Example:
        >>> inches(0.652), inches(0.0), inches(0.3048), inches(0.0111)
        ('25 11/16', '0', '12', '7/16')
    """
    whole, part = divmod(round(metres / 0.0254 * 16), 16)
    if not part:
        return str(whole)
    below = 16
    while part % 2 == 0:
        part, below = part // 2, below // 2
    return f"{whole} {part}/{below}" if whole else f"{part}/{below}"


def rod_words(metres: float, style: Style, proved: bool = True) -> str:
    """How much rod shows, as the tape reads: inches to 1/16, or millimetres; ``~`` before it while the gauge is unproved.

    Example:
        >>> rod_words(0.652, "feet"), rod_words(1.0184, "metric", proved=False)
        ('25 11/16 in', '~1,018 mm')
    """
    words = f"{inches(metres)} in" if style == "feet" else f"{number(metres * 1000.0)} mm"
    return words if proved else f"~{words}"


def length(metres: float, style: Style) -> str:
    """A length for prose: feet and inches to 1/16, or metres / millimetres."""
    if style == "feet":
        return feet_inches(metres)
    return f"{number(metres * 1000, 0)} mm" if abs(metres) < 1.0 else f"{number(metres, 2)} m"


def cut_length(metres: float, style: Style) -> str:
    """A length in the shop: feet, inches and sixteenths, or millimetres (tenths under 100 mm); never to the centimetre.

    Example:
        >>> cut_length(3.5621, "feet"), cut_length(3.5621, "metric"), cut_length(0.0254, "metric")
        ('11 ft 8 1/4 in', '3,562 mm', '25.4 mm')
    """
    if style == "feet":
        return feet_inches(metres)
    return _tenths(metres, 1 if abs(metres) < TENTHS_UNDER_M else 0)


def _tenths(metres: float, digits: int) -> str:
    if (
        not digits and abs(metres * 1000.0 % 1.0 - 0.5) < 1e-4
    ):  # half a millimetre would be read up here and down there
        digits = 1
    return f"{number(metres * 1000.0, digits).removesuffix('.0')} mm"


def sawn_m(metres: float, style: Style) -> float:
    """A piece as it is marked and sawn (conventions §27): to the nearest 1/16 in, or down to the whole millimetre, so that it still goes in.

    Example:
        >>> round(sawn_m(5.7404, "metric"), 4), round(sawn_m(2.0 - 1e-12, "metric"), 4), round(sawn_m(1.0, "feet") / 0.0254 * 16, 6)
        (5.74, 2.0, 630.0)
    """
    if style == "feet":
        return round(metres / 0.0254 * 16) * 0.0254 / 16
    return floor(metres * 1000.0 + 1e-6) / 1000.0


def sawn(metres: float, style: Style) -> str:
    """The same in words; wires and pipes of a run, which must reach, are not sawn by it.

    Example:
        >>> sawn(3.8227, "metric"), sawn(0.0259, "metric"), sawn(3.5621, "feet")
        ('3,822 mm', '25 mm', '11 ft 8 1/4 in')
    """
    return cut_length(sawn_m(metres, style), style)


def reaching(metres: float, style: Style) -> str:
    """What must reach, a wire or a pipe: to the nearest 1/16 in, or up to the whole millimetre; metres with centimetres from ten metres on.

    Example:
        >>> reaching(1.6572, "metric"), reaching(70.4088, "metric"), reaching(1.6572, "feet")
        ('1,658 mm', '70.41 m', '5 ft 5 1/4 in')
    """
    if style == "feet":
        return feet_inches(metres)
    if metres >= METRES_FROM_M:
        return f"{number(ceil(metres * 100.0 - 1e-6) / 100.0, 2)} m"
    return f"{number(ceil(metres * 1000.0 - 1e-6))} mm"


def dimension(metres: float, style: Style, parts: int = 16) -> str:
    """A length as it stands on a drawing: feet, inches and sixteenths, or millimetres (tenths where they count), metres from ten on.

    Args:
        metres: Length [m].
        style: Whose units.
        parts: An inch is divided into so many; 32 for holes to drill.

    Example:
        >>> dimension(3.8227, "feet"), dimension(0.0365125, "feet"), dimension(0.6096, "feet")
        ('12′-6 1/2″', '1 7/16″', '2′-0″')
        >>> dimension(3.8227, "metric"), dimension(0.0365125, "metric")
        ('3,823 mm', '36.5 mm')
        >>> dimension(67.056, "metric"), dimension(60.5, "metric"), dimension(9.5, "metric")
        ('67.06 m', '60.5 m', '9,500 mm')
        >>> dimension(0.2445, "metric"), dimension(0.12225 + 0.12225, "metric"), dimension(0.2191, "metric")
        ('244.5 mm', '244.5 mm', '219 mm')
    """
    if style == "metric" and abs(metres) >= METRES_FROM_M:
        return f"{number(metres, 2).rstrip('0').rstrip('.')} m"
    if style == "metric":
        return cut_length(metres, style)
    total = round(abs(metres) / 0.0254 * parts)
    inches_, part = divmod(total, parts)
    feet, left = divmod(inches_, 12) if inches_ >= 24 else (0, inches_)
    below = parts
    while part and part % 2 == 0:
        part, below = part // 2, below // 2
    words = " ".join(word for word in (str(left) if left or feet or not part else "", f"{part}/{below}" if part else "") if word)  # fmt: skip
    return f"{MINUS if metres < 0.0 and total else ''}{f'{feet}′-' if feet else ''}{words}″"


def drill(metres: float, style: Style) -> str:
    """A hole to drill: to 1/32 in, or to a tenth of a millimetre.

    Example:
        >>> drill(0.0325438, "feet"), drill(0.022, "metric")
        ('1 9/32 in', '22 mm')
    """
    return feet_inches(metres, 32) if style == "feet" else _tenths(metres, 1)


def hole_place(metres: float, style: Style) -> str:
    """Where a hole's middle is marked: to 1/16 in, or to a tenth of a millimetre.

    Example:
        >>> hole_place(0.8832, "metric"), hole_place(0.1143, "feet")
        ('883.2 mm', '4 1/2 in')
    """
    return feet_inches(metres) if style == "feet" else _tenths(metres, 1)


def wall(metres: float, style: Style) -> str:
    """A thickness as the trade reads it off a calliper: thousandths of an inch, or tenths of a millimetre.

    Example:
        >>> wall(0.011811, "feet"), wall(0.0125, "metric")
        ('0.465 in', '12.5 mm')
    """
    if style == "feet":
        return f"{number(in_unit(metres, 'in'), 3)} in"
    return f"{number(in_unit(metres, 'mm'), 1)} mm"


def gust_step(speed_m_s: float, style: Style) -> float:
    """A gust rounded DOWN to what may be shown: 5 mph, or 2 m/s (conventions §13), in that unit."""
    if style == "feet":
        return 5.0 * floor(in_unit(speed_m_s, "mph") / 5.0 + 1e-9)
    return 2.0 * floor(speed_m_s / 2.0 + 1e-9)


def gust(speed_m_s: float, style: Style) -> str:
    """A stands-to gust as shown, rounded down.

    Example:
        >>> gust(38.0, "feet"), gust(38.9, "metric")
        ('85 mph', '38 m/s')
    """
    return f"{gust_step(speed_m_s, style):.0f} {'mph' if style == 'feet' else 'm/s'}"


def asked_step(speed_m_s: float, style: Style) -> float:
    """A gust that is asked for, rounded UP to a whole mph or m/s, in that unit."""
    return float(ceil(in_unit(speed_m_s, "mph" if style == "feet" else "m/s") - 1e-9))


def gust_asked(speed_m_s: float, style: Style) -> str:
    """A gust that is asked for, as the code's wind: rounded up, so that no stands-to gust short of it looks to reach it.

    Example:
        >>> gust_asked(37.05, "feet"), gust_asked(37.05, "metric")
        ('83 mph', '38 m/s')
    """
    return f"{asked_step(speed_m_s, style):.0f} {'mph' if style == 'feet' else 'm/s'}"


# SI unit -> (unit shown in feet style, factor, digits), used for workings and rows.
_FEET = {
    "m": ("ft", 1 / 0.3048, 2),
    "m^2": ("ft^2", 1 / 0.09290304, 1),
    "m2": ("ft2", 1 / 0.09290304, 1),
    "m^3": ("yd^3", 1 / 0.764554857984, 2),
    "kg": ("lb", 1 / 0.45359237, 0),
    "N": ("lbf", 1 / 4.4482216152605, 0),
    "N/m": ("lbf/ft", 0.3048 / 4.4482216152605, 1),
    "N m": ("lbf ft", 1 / 1.3558179483314, 0),
    "Pa": ("psf", 1 / 47.880258980336, 2),
    "Pa/m": ("psf/ft", 1 / 157.08746384625, 0),
    "m/s": ("mph", 1 / 0.44704, 1),
    "K": ("F", 1.8, 0),  # of a difference
    "l": ("gal", 1 / 3.785411784, 1),
    "l/h": ("gal/h", 1 / 3.785411784, 2),
}


# The same for what is small: under so much, another unit.
_SMALL = {"m": (0.25, "in", 1 / 0.0254, 3), "m^2": (0.05, "in^2", 1 / 0.0254**2, 2)}


def in_style(value: float, unit: str, style: Style) -> str:
    """A value with its unit for a working: SI in metric style, the trade's unit in feet style.

    Example:
        >>> in_style(1000.0, "Pa", "feet"), in_style(1000.0, "Pa", "metric"), in_style(-40.0, "C", "feet")
        ('20.89 psf', '1,000 Pa', '−40 F')
        >>> in_style(0.3028, "N", "feet"), in_style(1.668e8, "N/m", "feet"), in_style(63.89, "K", "feet")
        ('0.068 lbf', '11,430,000 lbf/ft', '115 F')
        >>> in_style(0.0127, "m", "feet"), in_style(0.000285, "m^2", "feet")
        ('0.500 in', '0.44 in^2')
    """
    if style == "feet":
        if unit == "C":
            return f"{number(in_unit(value, 'F'), 0)} F"
        trade = _trade(value, unit)
        if trade is not None:
            name, factor, digits = trade
            if unit == "N" and 0.0 < abs(value * factor) < 10.0:
                return f"{significant(value * factor, 2)} {name}"
            if abs(value * factor) >= 1e6:
                return f"{significant(value * factor)} {name}"
            return f"{number(value * factor, _fewer(value * factor, digits))} {name}"
    return f"{significant(value)} {unit}".strip()


# The same in metric: SI unit -> (from so much on, unit shown, factor), the largest first; the last holds for what is less.
_METRIC = {
    "m": ((1.0, "m", 1.0), (0.0, "mm", 1e3)),
    "m^2": ((0.05, "m^2", 1.0), (0.0, "mm^2", 1e6)),
    "N": ((1e4, "kN", 1e-3), (0.0, "N", 1.0)),
    "N/m": ((1e4, "kN/m", 1e-3), (0.0, "N/m", 1.0)),
    "N m": ((1e4, "kN m", 1e-3), (0.0, "N m", 1.0)),
    "Pa": ((1e6, "MPa", 1e-6), (1e4, "kPa", 1e-3), (0.0, "Pa", 1.0)),
}


def _plain(value: float, unit: str) -> tuple[str, float, int] | None:
    """The metric unit a value of this size is read in, its factor, and digits for four figures (two behind a millimetre's point at most)."""
    for least, name, factor in _METRIC.get(unit, ()):
        if value >= least:
            there = max(value * factor, 1e-9)
            digits = min(max(0, 3 - floor(log10(there))), 2 if name == "mm" else 3)
            return name, factor, digits
    return None


def _fewer(value: float, digits: int) -> int:
    """No decimals from a thousand on."""
    return 0 if abs(value) >= 1000.0 else digits


def _trade(value: float, unit: str) -> tuple[str, float, int] | None:
    """The trade's unit for a value of this size, its factor and digits."""
    if unit == "Pa" and abs(value) >= 1e6:
        return "ksi", 1.0 / 6894757.293168, 2 if abs(value) >= 2.0 * 6894757.3 else 3
    if unit in _SMALL and abs(value) < _SMALL[unit][0]:
        _, name, factor, digits = _SMALL[unit]
        return name, factor, digits
    return _FEET.get(unit)


def compared(one: float, other: float, unit: str, style: Style) -> tuple[str, str]:
    """Two values set side by side: both in the unit of the larger, no decimals from a thousand on.

    Example:
        >>> compared(318355.0, 7.17e6, "Pa", "feet"), compared(142068.0, 143640.0, "Pa", "feet")
        (('0.046 ksi', '1.040 ksi'), ('2,967 psf', '3,000 psf'))
        >>> compared(-12.0, 40.0, "C", "metric"), compared(0.01, 2.0, "m", "feet")
        (('−12 C', '40 C'), ('0.03 ft', '6.56 ft'))
        >>> compared(181512.0, 239087.0, "N m", "metric"), compared(0.002911, 0.005, "m", "metric"), compared(772.3, 2247.0, "N", "metric")
        (('181.5 kN m', '239.1 kN m'), ('2.91 mm', '5.00 mm'), ('772 N', '2,247 N'))
    """
    large = max(abs(one), abs(other))
    trade = None if unit == "C" else _trade(large, unit) if style == "feet" else _plain(large, unit)
    if trade is None:
        return in_style(one, unit, style), in_style(other, unit, style)
    name, factor, digits = trade
    if style == "feet" and name == "lbf" and large * factor < 10.0:
        digits = 2
    digits = _fewer(large * factor, digits)
    return f"{number(one * factor, digits)} {name}", f"{number(other * factor, digits)} {name}"


def styled(value: float, unit: str, style: Style) -> tuple[float, str]:
    """A value in the unit of the style, bare: for figures that are rounded up or down on purpose.

    Example:
        >>> tuple(round(x, 1) if isinstance(x, float) else x for x in styled(1000.0, "N", "feet"))
        (224.8, 'lbf')
        >>> styled(5.0, "K", "feet"), styled(12.0, "A", "feet"), styled(5.0, "K", "metric")
        ((9.0, 'F'), (12.0, 'A'), (5.0, 'K'))
    """
    if style == "feet" and unit in _FEET:
        name, factor, _ = _FEET[unit]
        return value * factor, name
    return value, unit


def significant(value: float, figures: int = 4) -> str:
    """A number to so many significant figures, without an exponent where it can be helped.

    Example:
        >>> significant(1234567.0), significant(0.012345), significant(12.0), significant(-2e-15)
        ('1,235,000', '0.01235', '12', '−2e-15')
    """
    if value == 0.0 or not isfinite(value):
        return "0" if value == 0.0 else str(value)
    if not 1e-9 <= abs(value) < 1e15:  # a row of zeros helps nobody
        return f"{value:.{figures}g}".replace("-", MINUS, 1 if value < 0.0 else 0)
    magnitude = floor(log10(abs(value)))
    digits = max(0, figures - 1 - magnitude)
    rounded = round(value, figures - 1 - magnitude)
    text = number(rounded, digits)
    return text.rstrip("0").rstrip(".") if "." in text else text


_MANY = r"(?:[-−]?\d[\d,]*(?:\.\d+)?(?:[ -]\d+/\d+)?|\d+/\d+|\.\d+|half a|a)"
_OURS = rf"{_MANY} (?:ft|in|miles?|inch|inches|foot|feet|yards?|yd[3³]|ft[3³]|in[2²]|mil|lb ft|lbf ft|lb/cmil|lbf?/ft|lbf?|psi|psf/ft|psf|ksi|mph|gal/h|gal|F|AWG)\b"
_THEIRS = rf"{_MANY} (?:N/mm[2²]|kN/m|mm[2²]|mm|cm|m[3³]|m[2²]|cm[2²]|m|km/h|km|kN m|N m|kN|N|kg|t|kPa|MPa|GPa|Pa/m|Pa|m/s|l/h|l|C)\b"
_BOTH = re.compile(rf"(?P<feet>{_OURS}) \((?P<metric>{_THEIRS})\)|(?P<metric2>{_THEIRS}) \((?P<feet2>{_OURS})\)")  # fmt: skip


def default_words(written: str, value: float | str, unit: str, style: Style) -> str:
    """A value of the tool's own in the style's units: the owner never wrote it, so it need not stand as it is kept.

    Args:
        written: As it is kept, with its unit.
        value: As used, SI, or the words themselves.
        unit: SI unit of the value.
        style: Whose units.

    Example:
        >>> default_words("3000 psi", 20684271.0, "Pa", "metric"), default_words("3 m", 3.0, "m", "feet")
        ('20.68 MPa', '9.84 ft')
        >>> default_words("1/2 in", "1/2 in", "", "metric"), default_words("copper", "copper", "", "metric")
        ('12.70 mm', 'copper')
        >>> default_words("3000 psi", 20684271.0, "Pa", "feet"), default_words("~90 C", "90 C", "", "feet")
        ('3000 psi', '~90 C')
    """
    other = _THEIRS if style == "feet" else _OURS
    if unit == "C" or written.endswith(" C") or not re.fullmatch(other, written):
        return written
    if isinstance(value, str):
        value, unit = read_quantity(written, "length"), "m"
    return compared(value, value, unit, style)[0]


def both_ways(metres: float) -> str:
    """A length in words that may stand under either style; ``in_one_unit`` leaves one of the two.

    Example:
        >>> both_ways(67.056), both_ways(0.5)
        ('220 ft (67 m)', '1.6 ft (0.5 m)')
    """
    digits = 0 if metres >= 3.0 else 1
    return f"{number(in_unit(metres, 'ft'), digits)} ft ({number(metres, digits)} m)"


def warmth_both_ways(celsius: float) -> str:
    """A temperature that may stand under either style.

    Example:
        >>> warmth_both_ways(12.0), warmth_both_ways(-43.9)
        ('12 C (54 F)', '−44 C (−47 F)')
    """
    return f"{number(celsius)} C ({number(in_unit(celsius, 'F'))} F)"


def in_one_unit_all(value: T, style: Style) -> T:
    """Every sentence within a result, however deep, as ``in_one_unit`` leaves it.

    Args:
        value: Text, a tuple of such, or a frozen dataclass whose fields are such; anything else comes back as it is.
        style: Which of two figures is left.

    Example:
        >>> in_one_unit_all(("over 0 C (32 F)", 1.0), "feet")
        ('over 32 F', 1.0)
    """
    if isinstance(value, str):
        return cast("T", in_one_unit(value, style))
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        told = tuple(in_one_unit_all(one, style) for one in value)
        same = all(one is other for one, other in zip(told, value, strict=True))
        return value if same else cast("T", told)
    if is_dataclass(value) and not isinstance(value, type):
        there = {one.name: getattr(value, one.name) for one in fields(value) if one.init}
        new = {name: in_one_unit_all(one, style) for name, one in there.items()}
        changed = {name: one for name, one in new.items() if one is not there[name]}
        return replace(value, **changed) if changed else value
    return value


def in_one_unit(words: str, style: Style) -> str:
    """A sentence that gives a figure both ways, in one of them.

    Args:
        words: Any words.
        style: Which of two is left.

    Example:
        >>> in_one_unit("within 35 ft (11 m), over 0 C (32 F)", "metric"), in_one_unit("half a foot (0.15 m)", "feet")
        ('within 11 m, over 0 C', 'half a foot')
        >>> in_one_unit("at −14 C (7 F)", "feet"), in_one_unit("at −14 C (7 F)", "metric")
        ('at 7 F', 'at −14 C')
        >>> in_one_unit("15.9 m³ (562 ft³) of air", "feet"), in_one_unit("446 cm2 (70 in2)", "metric")
        ('562 ft³ of air', '446 cm2')
    """
    if "(" not in words:  # most have no second figure
        return words
    return _BOTH.sub(lambda found: found[style] or found[f"{style}2"], words)
