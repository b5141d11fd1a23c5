"""Pins and the ears that hold them: shear, bending, bearing, tearing out."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from polestead.base.source import Source
from polestead.base.table import table
from polestead.base.working import Step
from polestead.strength.allowable import GAMMA_M0, GAMMA_M2, Allowable, SteelCode, en
from polestead.strength.pole import OMEGA, aisc, material

PIN_OMEGA = 2.0  # AISC 360 J3.6, J7, D5.1
BOLTS = ("A307", "A325", "8.8")  # threads may lie where they are cut
THREADS_LEAVE = 0.78  # stress area over gross, ISO 898-1 coarse threads (from memory)
BOLT_SHEAR_SHARE = 0.6  # alpha_v, EN 1993-1-8 Table 3.4; pins 3.10 alike


@dataclass(frozen=True, slots=True)
class PinnedJoint:
    """A pin through two ears and what turns between them.

    Attributes:
        pin_m: Diameter.
        pin_steel: A row of ``pins.csv``.
        ear_m: Thickness of one ear, a.
        middle_m: Thickness of what turns between them, b.
        gap_m: On each side between them, c.
        edge_m: From the middle of the hole to the nearest edge of an ear.
        ear_steel: A row of ``materials.csv``.
    """

    pin_m: float
    pin_steel: str
    ear_m: float
    middle_m: float
    gap_m: float
    edge_m: float
    ear_steel: str


def pin_steel(steel: str) -> dict[str, str]:
    """Row of ``pins.csv``."""
    return next(row for row in table("strength", "pins") if row["steel"] == steel)


def pin_shear(diameter_m: float, steel: str, planes: int, code: SteelCode = "AISC") -> Allowable:
    """Force a pin or bolt may carry across it [N].

    Source: AISC 360 J3.6: Fnv A / 2.0 on each plane; EN 1993-1-8 Tables 3.4 and 3.10: 0.6 fu A / 1.25, of a bolt the area its
    threads leave.

    Args:
        diameter_m: Of the pin [m].
        steel: A row of ``pins.csv``.
        planes: In how many places it is cut.
        code: Which code's format.

    Example:
        >>> round(pin_shear(0.01905, "A307", 2).value / 4448.2216, 1)  # 3/4 in, kip
        11.9
    """
    row, area = pin_steel(steel), pi / 4.0 * diameter_m**2
    known, noun = Source(row["source"], status="memory"), "bolt" if planes == 1 else "pin"
    if code == "EN":
        strength_pa = BOLT_SHEAR_SHARE * float(row["ultimate_mpa"]) * 1e6
        area *= THREADS_LEAVE if steel in BOLTS else 1.0
        over, clause = GAMMA_M2, en("1-8, Tables 3.4 and 3.10")
        known = en(f"1-8, Tables 3.4 and 3.10, 0.6 fu, {'class' if steel == '8.8' else 'fu of'} {steel}")  # fmt: skip
        first = Step(f"shear strength of the {noun}", "0.6 fu", f"0.6 x {float(row['ultimate_mpa']):.0f} MPa", strength_pa, "Pa", known)  # fmt: skip
    else:
        strength_pa, over, clause = float(row["shear_mpa"]) * 1e6, PIN_OMEGA, aisc("J3.6")
        first = Step(f"shear strength of the {noun}", "Fnv", "", strength_pa, "Pa", known)
    value = planes * strength_pa * area / over
    formula = f"{planes} x {strength_pa:.4g} x {area:.4g} / {over}"
    steps = (
        first,
        Step(
            f"area of the {noun}",
            "A",
            f"pi {diameter_m:.5f}^2 / 4{', less its threads' if code == 'EN' and steel in BOLTS else ''}",
            area,
            "m^2",
            clause,
        ),
        Step(
            f"may carry, cut in {planes} {'place' if planes == 1 else 'places'}",
            "Rc",
            formula,
            value,
            "N",
            clause,
        ),
    )
    return Allowable(value, "N", steps)


def pin_double_shear(diameter_m: float, steel: str, code: SteelCode = "AISC") -> Allowable:
    """The same cut twice."""
    return pin_shear(diameter_m, steel, 2, code)


def pin_bending(joint: PinnedJoint, code: SteelCode = "AISC") -> Allowable:
    """Force at which the pin's bending between the ears is all it may be [N].

    M = F (b + 4 c + 2 a) / 8 (EN 1993-1-8 3.13.2, Fig. 3.11; the same beam for both codes); AISC 360 F11: Fy Z, at most
    1.6 Fy S, over 1.67; EN: 1.5 Wel fy.

    Args:
        joint: The joint.
        code: Which code's format.
    """
    row, d = pin_steel(joint.pin_steel), joint.pin_m
    yield_pa, elastic = float(row["yield_mpa"]) * 1e6, pi * d**3 / 32.0
    if code == "EN":
        moment, formula = (
            1.5 * elastic * yield_pa / GAMMA_M0,
            f"1.5 x {elastic:.4g} x {yield_pa:.4g}",
        )
    else:
        moment = min(d**3 / 6.0, 1.6 * elastic) * yield_pa / OMEGA
        formula = f"min({d:.4f}^3 / 6, 1.6 x {elastic:.4g}) x {yield_pa:.4g} / {OMEGA}"
    clause = en("1-8, 3.13.2") if code == "EN" else aisc("F11")
    lever = (joint.middle_m + 4.0 * joint.gap_m + 2.0 * joint.ear_m) / 8.0
    value = moment / lever
    steps = (
        Step("bending the pin may carry", "Mc", formula, moment, "N m", clause),
        Step(
            "moment of a force of 1 N", "M / F",
            f"({joint.middle_m:.4f} + 4 x {joint.gap_m:.4f} + 2 x {joint.ear_m:.4f}) / 8", lever, "m", en("1-8, Fig. 3.11"),
        ),
        Step("force at that bending", "Rc", f"{moment:.5g} / {lever:.4g}", value, "N", clause),
    )  # fmt: skip
    return Allowable(value, "N", steps)


def pin_sheared_and_bent(joint: PinnedJoint) -> Allowable:
    """Force at which shear and bending together are all the pin may bear: (F/Fv)^2 + (F/Fm)^2 = 1 [N].

    Source: EN 1993-1-8 Table 3.10 (from memory).

    Args:
        joint: The joint.
    """
    shear, bent = pin_double_shear(joint.pin_m, joint.pin_steel, "EN"), pin_bending(joint, "EN")
    value = 1.0 / (shear.value**-2 + bent.value**-2) ** 0.5
    formula = f"1 / sqrt({shear.value:.0f}^-2 + {bent.value:.0f}^-2)"
    last = Step("force at both together", "Rc", formula, value, "N", en("1-8, Table 3.10"))
    return Allowable(value, "N", (*shear.steps, *bent.steps, last))


def bolt_bearing_n(diameter_m: float, plate_m: float, ultimate_pa: float) -> float:
    """Force a bolt may press on the edge of its hole with, where the hole may stretch: 2.4 d t Fu / 2 [N].

    Source: AISC 360 J3.10 (from memory).

    Args:
        diameter_m: d [m].
        plate_m: t [m].
        ultimate_pa: Fu of the plate [Pa].

    Example:
        >>> round(bolt_bearing_n(0.01905, 0.0127, 399.9e6) / 4448.2216, 1)  # 3/4 in in 1/2 in A36, kip
        26.1
    """
    return 2.4 * diameter_m * plate_m * ultimate_pa / PIN_OMEGA


def ears(joint: PinnedJoint, code: SteelCode = "AISC") -> Allowable:
    """Force two ears may carry through their pin [N]: bearing, tearing at the hole, tearing out.

    Source: AISC 360 J7 (1.8 Fy d t / 2) and D5.1 (Fu 2 t be and .6 Fu 2 t (a + d/2), over 2); EN 1993-1-8 Tables 3.9 and
    3.10 (1.5 t d fy; the edge distances solved for the force).

    Args:
        joint: The joint.
        code: Which code's format.

    Example:
        >>> joint = PinnedJoint(0.0254, "1045", 0.0127, 0.0254, 0.003, 0.0508, "A36")
        >>> round(ears(joint).value / 1000.0)
        144
    """
    steel = material(joint.ear_steel)
    fy, fu = float(steel["yield_mpa"]) * 1e6, float(steel["ultimate_mpa"]) * 1e6
    d, t, clear = joint.pin_m, joint.ear_m, joint.edge_m - joint.pin_m / 2.0
    middle = min(joint.middle_m / (2.0 * t), 1.0)  # same steel and edge as the ears
    if code == "EN":
        bearing = 2.0 * 1.5 * t * d * fy / GAMMA_M0
        ahead = 2.0 * 2.0 * t * fy / GAMMA_M0 * max(clear - 2.0 * d / 3.0, 0.0)
        beside = 2.0 * 2.0 * t * fy / GAMMA_M0 * max(clear - d / 3.0, 0.0)
        rows = (
            ("bearing on both ears", "Fb,Rd", f"2 x 1.5 x {t:.4f} x {d:.4f} x {fy:.4g}", bearing, "1-8, Table 3.10"),
            ("steel ahead of the hole", "Rd", f"2 x 2 x {t:.4f} x {fy:.4g} x ({clear:.4f} - 2 x {d:.4f} / 3)", ahead, "1-8, Table 3.9"),
            ("steel beside the hole", "Rd", f"2 x 2 x {t:.4f} x {fy:.4g} x ({clear:.4f} - {d:.4f} / 3)", beside, "1-8, Table 3.9"),
            ("what turns between, as it is thinner than both", "Rd", f"the least of these x {middle:.3f}", middle * min(bearing, ahead, beside), "1-8, Tables 3.9 and 3.10"),
        )  # fmt: skip
    else:
        wide = min(2.0 * t + 0.016, clear)
        bearing = 2.0 * 1.8 * fy * d * t / PIN_OMEGA
        across = 2.0 * fu * 2.0 * t * wide / PIN_OMEGA
        out = 2.0 * 0.6 * fu * 2.0 * t * (clear + d / 2.0) / PIN_OMEGA
        rows = (
            ("bearing on both ears", "Rc", f"2 x 1.8 x {fy:.4g} x {d:.4f} x {t:.4f} / {PIN_OMEGA}", bearing, "J7"),
            ("tearing beside the hole", "Rc", f"2 x {fu:.4g} x 2 x {t:.4f} x min(2 t + 16 mm, {clear:.4f}) / {PIN_OMEGA}", across, "D5.1 (a)"),
            ("tearing out", "Rc", f"2 x .6 x {fu:.4g} x 2 x {t:.4f} x ({clear:.4f} + {d:.4f} / 2) / {PIN_OMEGA}", out, "D5.1 (b)"),
            ("what turns between, as it is thinner than both", "Rc", f"the least of these x {middle:.3f}", middle * min(bearing, across, out), "J7, D5.1"),
        )  # fmt: skip
    where = en if code == "EN" else aisc
    steps = tuple(Step(word, sign, formula, value, "N", where(clause)) for word, sign, formula, value, clause in rows)  # fmt: skip
    governs = min(rows, key=lambda row: row[3])
    value = max(governs[3], 0.0) if clear > 0.0 else 0.0
    least = Step(f"least of these: {governs[0]}", "Rc", "", value, "N", where(governs[4]))
    return Allowable(value, "N", (*steps, least))
