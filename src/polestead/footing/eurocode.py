"""The pier under Eurocode 7: soil weakened by partial factors, pressure it may bear by Annex D."""

from __future__ import annotations

from dataclasses import replace
from math import atan, degrees, exp, pi, radians, tan

from polestead.base.source import Source
from polestead.base.working import Step
from polestead.footing.pier import CLAY_ADHESION, EARTH_K, ROUGH, Pier

GAMMA_ANGLE, GAMMA_UNDRAINED = 1.25, 1.4  # EN 1997-1 Table A.4, set M2 (from memory)
SOURCE = Source("EN 1997-1:2004", "Table A.4, M2", "memory")
UNDRAINED_SOURCE = Source("EN 1997-1:2004", "Annex D.3, Eq. D.1, round base", "memory")
DRAINED_SOURCE = Source("EN 1997-1:2004", "Annex D.4, Eq. D.2, round base", "memory")


def weakened(pier: Pier) -> Pier:
    """The same pier in soil whose strength is divided by the factors of set M2.

    Args:
        pier: With characteristic soil.

    Example:
        >>> from polestead.homestead.demos import demo_path
        >>> from polestead.homestead.read import read_homestead
        >>> from polestead.footing.pier import pier_of
        >>> footing = read_homestead(demo_path("slieve-moss")).homestead.footing
        >>> weak = weakened(pier_of(footing, "clay or silt", "silt or clay", 0.45, 75e3))
        >>> round(weak.undrained_pa / 1e3, 1)
        53.6
    """
    angle = degrees(atan(tan(radians(pier.angle_deg)) / GAMMA_ANGLE))
    undrained = pier.undrained_pa / GAMMA_UNDRAINED
    step = Step("friction angle, weakened", "phi d", f"atan(tan {pier.angle_deg:g} / {GAMMA_ANGLE})", angle, "deg", SOURCE)  # fmt: skip
    if undrained > 0.0:
        step = Step("undrained strength, weakened", "c d", f"{pier.undrained_pa:.0f} / {GAMMA_UNDRAINED}", undrained, "Pa", SOURCE)  # fmt: skip
    return replace(
        pier,
        angle_deg=angle,
        passive=tan(radians(45.0 + angle / 2.0)) ** 2 if pier.passive > 0.0 else 0.0,
        undrained_pa=undrained,
        skin_friction=EARTH_K * tan(radians(ROUGH * angle)),
        skin_pa=CLAY_ADHESION * undrained,
        steps=(*pier.steps, step),
    )


def bearing_resistance_pa(pier: Pier) -> tuple[float, Step]:
    """Pressure the soil under a round base bears, by its strength as given.

    Undrained (D.3): (2 + pi) c 1.2 + q.  Drained (D.4): q Nq sq + .5 g b Ng sg, s_q = 1 + sin phi, s_g = .7; q the weight of
    the soil beside the foot.

    Args:
        pier: With the soil as it is to count.
    """
    beside, source = pier.soil_n_m3 * pier.depth_m, DRAINED_SOURCE
    if pier.undrained_pa > 0.0:
        value, source = (2.0 + pi) * pier.undrained_pa * 1.2 + beside, UNDRAINED_SOURCE
        formula = f"(2 + pi) x {pier.undrained_pa:.0f} x 1.2 + {beside:.0f}"
    else:
        t = radians(pier.angle_deg)
        nq = exp(pi * tan(t)) * tan(pi / 4.0 + t / 2.0) ** 2
        ng = 2.0 * (nq - 1.0) * tan(t)
        sq = 1.0 + tan(t) / (1.0 + tan(t) ** 2) ** 0.5
        value = beside * nq * sq + 0.5 * pier.soil_n_m3 * pier.diameter_m * ng * 0.7
        formula = (
            f"{beside:.0f} x {nq:.2f} x {sq:.2f} + 0.5 x {pier.soil_n_m3:.0f}"
            f" x {pier.diameter_m:.2f} x {ng:.2f} x 0.7"
        )
    return value, Step("pressure the soil may bear", "R / A", formula, value, "Pa", source)
