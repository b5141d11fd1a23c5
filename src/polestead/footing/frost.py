"""Frost jacking: frozen soil that grips the shaft and lifts it."""

from __future__ import annotations

from math import inf, pi, sqrt

from polestead.base.check import Check
from polestead.base.show import percent
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.footing.pier import Pier, skin_of

GRIP_PA = 65e3  # concrete in fine soil
SLEEVED_PA = (
    20e3  # smooth tube and two plies, while they were looked at before the pour: our own judgement
)
SAFETY = 1.5
PENNER = Source("CFEM 4th ed. after Penner 1974, Penner & Goodrich 1983", "grip of frozen soil")
BALANCE = Source("frost against weight and skin, safety 1.5", status="ours")


LATENT_J_KG = 334e3  # of water


def stefan_depth_m(freezing_k_days: float, conductivity_w_mk: float, dry_kg_m3: float, water_share: float, snow_free: float = 1.0) -> float:  # fmt: skip
    """How deep frost goes in a winter: X = lambda sqrt(2 k F / L).

    Source: Stefan; UFC 3-130-06 (form seen).  Stefan's own figure (lambda 1) is too deep where winters are mild; the modified
    Berggren method brings lambda down to .6.

    Args:
        freezing_k_days: F, at the surface: degree-days under freezing [K days].
        conductivity_w_mk: k of frozen soil [W/(m K)].
        dry_kg_m3: Dry density [kg/m3].
        water_share: Water over dry soil, by weight.
        snow_free: lambda, .6 to 1.

    Example:
        >>> depth = stefan_depth_m(1000 / 1.8, 1.7307, 110 * 16.018463, 0.15)  # 1,000 F days, k 1 Btu/(h ft F)
        >>> round(depth / 0.3048, 2)
        4.5
    """
    latent = LATENT_J_KG * dry_kg_m3 * water_share
    return snow_free * sqrt(2.0 * conductivity_w_mk * freezing_k_days * 86400.0 / latent)


def frost_check(
    pier: Pier, frost_soil: str, frost_depth_m: float, dead_n: float, sleeve: str
) -> Check:
    """Uplift by frozen soil on the shaft against dead weight and skin below the frost.

    Source: F = tau pi b z_f (CFEM after Penner); R = 0.9 W + pi b (D - z_f) f_s; F <= R / 1.5 (ours).

    Args:
        pier: The pier.
        frost_soil: ``drained, not frost-susceptible`` or ``silt or clay``.
        frost_depth_m: z_f [m].
        dead_n: Array without snow and pole, without the pier [N].
        sleeve: ``none`` or ``smooth tube and two plies``.
    """
    weight_n = 0.9 * (dead_n + pier.weight_n)
    if frost_soil != "silt or clay":
        why = "drained soil with hardly any fines does not lift: no frost sum"
        held = (
            Step(
                "lift: the file says drained soil with hardly any fines", "F", "", 0.0, "N", OWNER
            ),
            Step(
                "weight that holds",
                "0.9 W",
                f"0.9 x ({dead_n:.0f} + {pier.weight_n:.0f})",
                weight_n,
                "N",
                BALANCE,
            ),
            Step(
                "allowed", "R / 1.5", f"{weight_n:.0f} / {SAFETY}", weight_n / SAFETY, "N", BALANCE
            ),
        )
        return Check(
            "frost",
            "lifting the pier",
            0.0,
            weight_n / SAFETY,
            "N",
            0.0,
            BALANCE,
            Working("frost", held, (why,)),
        )
    grip = SLEEVED_PA if sleeve != "none" else GRIP_PA
    below_m = max(pier.depth_m - frost_depth_m, 0.0)
    skin, rubs = skin_of(pier, frost_depth_m + below_m / 2.0)
    force = grip * pi * pier.diameter_m * frost_depth_m
    hold = (weight_n + pi * pier.diameter_m * below_m * skin) / SAFETY
    steps = (
        Step("grip of the frozen soil", "tau", "", grip, "Pa", PENNER),
        Step("lift", "F", f"{grip:.0f} x pi x {pier.diameter_m:.3f} x {frost_depth_m:.3f}", force, "N", PENNER),
        Step("weight that holds", "0.9 W", f"0.9 x ({dead_n:.0f} + {pier.weight_n:.0f})", weight_n, "N", BALANCE),
        *rubs,
        Step("allowed", "R / 1.5", f"({weight_n:.0f} + pi x {pier.diameter_m:.3f} x {below_m:.3f} x {skin:.0f}) / {SAFETY}", hold, "N", BALANCE),
    )  # fmt: skip
    notes = []
    if frost_depth_m > 1.0 and sleeve == "none":
        notes.append(
            "Frost over 1 m deep in silt or clay: not without a sleeve, a bell or the soil exchanged for gravel."
        )
    if sleeve != "none":
        notes.append(
            "The sleeve counts only where somebody looked at it before the pour; else the full grip."
        )
    other = (GRIP_PA if sleeve != "none" else SLEEVED_PA) * pi * pier.diameter_m * frost_depth_m
    beside = "without the sleeve, or with one nobody looked at" if sleeve != "none" else "with a smooth tube and two plies, looked at before the pour"  # fmt: skip
    notes.append(f"Beside it: {beside}, the lift would be {other / 1000.0:.0f} kN, {percent(other / hold)} of what is allowed." if hold > 0.0 else "Nothing holds it down.")  # fmt: skip
    use = force / hold if hold > 0.0 else inf
    return Check(
        "frost",
        "lifting the pier",
        force,
        hold,
        "N",
        use,
        BALANCE,
        Working("frost", steps, tuple(notes)),
    )
