"""The wire itself: its size in the owner's words, its resistance, what it may carry."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import exp, log, pi

from polestead.base.problem import Problem, Wrong
from polestead.base.source import Source
from polestead.base.table import table

RESISTANCE = Source("NEC", "Ch. 9 Table 8, stranded, 75 C")
RESISTANCE_THICK = Source("NEC", "Ch. 9 Table 8, stranded, 75 C", "memory")
RESISTANCE_METRIC = Source("IEC 60228", "class 2, largest allowed at 20 C")
RESISTANCE_METRIC_THICK = Source("IEC 60228", "class 2, largest allowed at 20 C", "memory")
HEATING = Source("heat given off grows with the rise, heat made with the square of the current", status="computed")  # fmt: skip
AMPACITY = Source("NEC", "Table 310.16")
SURROUNDING = Source("NEC", "Table 310.15(B)(1)")
WARM_C = (
    75.0  # NEC Table 8 is for this; metric sizes are brought to it, so that both are told alike
)
KCMIL_MM2 = 0.25e-3 * pi * 25.4**2  # a thousand circles of a thousandth of an inch across
RISE_PER_K = {"copper": 0.00393, "aluminium": 0.00403}  # of the value at 20 C, IEC 60228

_AWG = re.compile(r"^(?:#|no\.?\s*|awg\s*)?(?P<gauge>\d{1,2}(?:/0)?)\s*(?:awg|gauge|ga)$|^#\s*(?P<number>\d{1,2}(?:/0)?)$")  # fmt: skip
_KCMIL = re.compile(r"^(?P<kcmil>\d{3})\s*(?:kcmil|mcm)$")
_METRIC = re.compile(r"^(?P<area>\d{1,3}(?:\.\d+)?)\s*(?:sq\s*mm|mm2|mm²|mm\^2)$")


@dataclass(frozen=True, slots=True)
class Conductor:
    """One conductor of the run.

    Attributes:
        size: As shown: ``4 AWG``, ``2/0 AWG``, ``250 kcmil``, ``16 mm2``.
        metal: ``copper`` or ``aluminium``.
        area_mm2: Cross-section.
        ohm_per_m_20c: Resistance at 20 C.
        at_60_a, at_75_a, at_90_a: Ampacity by column of NEC Table 310.16, 30 C about it; 0 where it has none.
        rated_as: The size whose row gives the ampacity: its own, or for mm2 the next thinner AWG.
        source: Where the resistance comes from.
    """

    size: str
    metal: str
    area_mm2: float
    ohm_per_m_20c: float
    at_60_a: float
    at_75_a: float
    at_90_a: float
    rated_as: str
    source: Source

    def ohm_per_m(self, wire_c: float = WARM_C) -> float:
        """Resistance at a wire temperature, straight-line rise from 20 C.

        Source: IEC 60228, annex on correction to temperature (from memory); NEC Ch. 9 Table 8, note 2.
        Valid for: -50 to 90 C.
        """
        return self.ohm_per_m_20c * (1.0 + RISE_PER_K[self.metal] * (wire_c - 20.0))


def size_words(written: str) -> str:
    """The size as the tables write it.

    Args:
        written: The owner's words.

    Raises:
        ValueError: If it is no wire size; a bare number could be either kind and is refused.

    Example:
        >>> size_words("4 awg"), size_words("#2"), size_words("2/0 AWG"), size_words("16 mm²"), size_words("250 MCM")
        ('4 AWG', '2 AWG', '2/0 AWG', '16 mm2', '250 kcmil')
    """
    text = " ".join(written.strip().lower().split())
    gauge = _AWG.match(text)
    if gauge:
        return f"{gauge['gauge'] or gauge['number']} AWG"
    kcmil = _KCMIL.match(text)
    if kcmil:
        return f"{kcmil['kcmil']} kcmil"
    metric = _METRIC.match(text)
    if metric:
        return f"{float(metric['area']):g} mm2"
    message = f"{written.strip()} is no wire size"
    raise ValueError(message)


def awg_area_mm2(size: str) -> float:
    """Cross-section of an American gauge.

    Source: ASTM B258: diameter .005 in x 92^((36 - n)/39), 2/0 is n = -1 and so on.

    Example:
        >>> round(awg_area_mm2("4 AWG"), 2), round(awg_area_mm2("2/0 AWG"), 1)
        (21.15, 67.4)
    """
    gauge = size.removesuffix(" AWG")
    n = 1 - int(gauge.removesuffix("/0")) if gauge.endswith("/0") else int(gauge)
    diameter_mm = 0.127 * exp(log(92.0) * (36 - n) / 39)
    return pi / 4.0 * diameter_mm * diameter_mm


def area_mm2(size: str) -> float:
    """Cross-section of either kind of size.

    Example:
        >>> area_mm2("16 mm2")
        16.0
    """
    if size.endswith("kcmil"):
        return KCMIL_MM2 * float(size.removesuffix(" kcmil"))
    return awg_area_mm2(size) if size.endswith("AWG") else float(size.removesuffix(" mm2"))


def sizes(metal: str) -> tuple[str, ...]:
    """The sizes both tables know, thinnest first."""
    known = [row["size"] for row in table("wiring", "run/resistance") if row["metal"] == metal]
    thinnest = min(area_mm2(size) for size in _ampacities(metal))
    return tuple(sorted((s for s in known if area_mm2(s) >= thinnest), key=area_mm2))


def is_metric(size: str) -> bool:
    """Whether a size is one of the metric family.

    Example:
        >>> is_metric("16 mm2"), is_metric("250 kcmil")
        (True, False)
    """
    return size.endswith("mm2")


def conductor_of(written: str, metal: str) -> Conductor:
    """The conductor the owner named.

    Args:
        written: Its size in his words.
        metal: ``copper`` or ``aluminium``.

    Raises:
        Wrong: If the size is not known; the problem names the sizes that are.

    Example:
        >>> wire = conductor_of("4 AWG", "copper")
        >>> round(wire.ohm_per_m() * 304.8, 4), wire.at_75_a
        (0.308, 85.0)
    """
    try:
        size = size_words(written)
    except ValueError as error:
        raise Wrong(
            [_unknown(written, metal, "Write it as 4 AWG, 2/0 AWG, 250 kcmil or 16 mm2.")]
        ) from error
    if size not in sizes(metal):
        do = "Take the next size that stands in the table."
        raise Wrong([_unknown(written, metal, do)])
    row = next(
        r for r in table("wiring", "run/resistance") if (r["size"], r["metal"]) == (size, metal)
    )
    rated_as, (at_60, at_75, at_90) = _ampacity(size, metal)
    warm = 1.0 + RISE_PER_K[metal] * (float(row["at_c"]) - 20.0)
    return Conductor(
        size=size,
        metal=metal,
        area_mm2=area_mm2(size),
        ohm_per_m_20c=float(row["resistance"]) / float(row["per_m"]) / warm,
        at_60_a=at_60,
        at_75_a=at_75,
        at_90_a=at_90,
        rated_as=rated_as,
        source=_source_of(size),
    )


def share_left(about_c: float, column: int) -> float:
    """Share of the ampacity left with so warm a surrounding.

    Source: NEC Table 310.15(B)(1) (seen).  Valid for: any temperature; colder than 10 C counts as 10 C, hotter than
    the column reaches leaves nothing.  A temperature between two rows takes the hotter row.

    Args:
        about_c: Air or soil about the cable [C].
        column: 60, 75 or 90.

    Example:
        >>> share_left(30.0, 90), share_left(45.0, 90), share_left(45.1, 90), share_left(61.0, 60)
        (1.0, 0.87, 0.82, 0.0)
    """
    for row in table("wiring", "run/surrounding"):
        if round(about_c, 6) <= float(row["up_to_c"]):
            return float(row[f"at_{column}"])
    return 0.0


def wire_c(wire: Conductor, current_a: float, about_c: float) -> float:
    """How warm the metal gets with a steady current.

    The heat it makes grows with the square of the current, the heat it sheds with its rise; at its 90 C ampacity it is at
    90 C in 30 C.  This is what lies behind NEC Table 310.15(B)(1).  Valid for: a wire alone with its partner; up to 90 C.

    Args:
        wire: The conductor.
        current_a: Steady current [A].
        about_c: Air or soil about it [C].

    Example:
        >>> round(wire_c(conductor_of("4 AWG", "copper"), 26.8, 20.0), 1)
        24.8
    """
    return about_c + (90.0 - 30.0) * (current_a / wire.at_90_a) ** 2


def drop_v(length_m: float, current_a: float, ohm_per_m: float) -> float:
    """Volts lost there and back.

    Source: Ohm's law, two conductors.

    Args:
        length_m: One way [m].
        current_a: Current [A].
        ohm_per_m: Resistance of one conductor [ohm/m].

    Example:
        >>> round(drop_v(45.72, 9.5, 1.24 / 304.8), 2)  # 150 ft of 10 AWG
        3.53
    """
    return 2.0 * length_m * current_a * ohm_per_m


def _source_of(size: str) -> Source:
    if size == "120 mm2":
        return RESISTANCE_METRIC_THICK
    if is_metric(size):
        return RESISTANCE_METRIC
    return RESISTANCE_THICK if size.endswith("kcmil") else RESISTANCE


def _ampacities(metal: str) -> dict[str, tuple[float, float, float]]:
    return {
        row["size"]: (float(row["at_60"]), float(row["at_75"]), float(row["at_90"]))
        for row in table("wiring", "run/ampacity")
        if row["metal"] == metal
    }


def _ampacity(size: str, metal: str) -> tuple[str, tuple[float, float, float]]:
    """The row of the thickest American size that is no thicker: on the safe side for mm2."""
    rows = _ampacities(metal)
    rated_as = max((s for s in rows if area_mm2(s) <= area_mm2(size)), key=area_mm2)
    return rated_as, rows[rated_as]


def _unknown(written: str, metal: str, do: str) -> Problem:
    known = ", ".join(sizes(metal))
    return Problem("run", "size", f"{written.strip() or 'nothing'} ({metal})", known, do)
