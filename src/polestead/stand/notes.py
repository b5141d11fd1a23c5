"""What the verdict relies on, and what must be said beside it."""

from __future__ import annotations

import numpy as np

from polestead.base.check import Check
from polestead.base.edition import LATER
from polestead.footing.pier import IBC_EDITION
from polestead.loads.pressure import LEAST_NATURAL_HZ
from polestead.loads.snow import PSF_PA
from polestead.stand.code import CodeCheck, code_loads
from polestead.stand.parts.frame import unsized
from polestead.stand.result import Verdict
from polestead.stand.setting import Setting

SCREENING = (
    "Screening sums, not a stamped design: the building office and a licensed engineer decide."
)
OUT_OF_FIGURE = (
    "The open-roof figure is made for roofs of 0.25 to 1 times their length in height and up to 45 degrees; on a pole top it is"
    " used outside that range as an envelope, with wind-tunnel figures of a single collector on a pole set beside it (those from memory)."
)
BLEND = "Above 45 degrees the forces are blended in a straight line into those of an upright sign: our own rule, on the careful side."
NOT_29_4_5 = (
    "The code's own rule for ground-mounted solar (ASCE 7-22, 29.4.5) is for long rows, at least 7 times as wide as the chord;"
    " a table on one pole is outside it."
)
SOIL_EDITION = f"The soil rules are quoted from {IBC_EDITION}, the edition that was read: hold its Table 1806.2 against the one in force where it stands."
EDITION = "Most wind and snow rules were read in ASCE 7-16 and are taken for 7-22 from memory, as told beside each: hold them against 7-22."
RAIN_ON_SNOW_FROM_PSF = 20.0
RAIN_PSF = {"ASCE 7-16": 5.0, "ASCE 7-22": 8.0}  # 7.10 (from memory)
EN_BRANCH = (
    "The Eurocode's canopy figures end at 30 degrees; from there to upright the force goes in a straight line to that of a signboard:"
    " our own rule, on the careful side, with wind-tunnel figures of a single collector on a pole set beside it (those from memory)."
)
NEVER_CHECKED = "Not in these sums: brackets of the actuator and their bolts, an arm that carries pins beyond the strongback, the twist bars themselves, bending of the pins of hold and prop, earthquake."
MIXED = "Aluminium frames on steel corrode where water stands between them: part them with plastic or stainless washers, and bond them for the earth."
ALUMINIUM = (
    "Aluminium in wet concrete is eaten and aluminium on steel corrodes where it stays damp: coat it, part it with plastic, and"
    " keep chlorides out of the mix (ACI 318 20.7.4, PCA Monfore & Ost 1965)."
)


def relied_on_of(setting: Setting, verdict: Verdict, rod_alone: Check | None) -> tuple[str, ...]:
    """What must be true, and be done, for the verdict to hold."""
    words = [*_hold_words(setting, rod_alone)]
    if verdict == "stands only when laid flat":
        words.append(
            "It is laid flat and held there before the wind rises; the way there leads through worse tilts."
        )
    if setting.footing.half_inch_allowed:
        words.append(
            "Soil values doubled: you ticked that half an inch of motion at the ground does no harm (IBC 1806.3.4)."
        )
    if setting.footing.twist_bars:
        words.append("Twist bars through the pole's foot, in the concrete.")
    if setting.pipe.assumed:
        words.append(f"Pole: {setting.pipe.assumed}.")
    place = setting.place
    if place.exposure != setting.site.exposure:
        words.append(
            "Exposure C in place of the written B: woods or houses reach less than 1,500 ft (460 m) on some side (a clearing is C)."
        )
    words.append(
        "No weld on the pole within a diameter of the ground: everyday gusts would crack it."
    )
    if place.frost_soil != "silt or clay":
        words.append("The soil at the pier is drained and has hardly any fines: no frost lifts it.")
    words.append(
        f"{'Terrain' if setting.eurocode else 'Exposure'} {setting.site.exposure}, the map's wind ({place.wind_basis}) and the soil class as written in the file."
        + (" Exposure B needs 1,500 ft (460 m) of woods or houses on every side; a clearing is C." if setting.site.exposure == "B" else "")
    )  # fmt: skip
    return tuple(words)


def _hold_words(setting: Setting, rod_alone: Check | None) -> list[str]:
    if setting.lock is None and setting.drive is None:
        return ["Nothing holds the hinge: no storm hold, no actuator."]
    if setting.lock is None:
        return ["The rod alone holds it in a storm: there is no storm hold. Two holds that do not depend on each other are wanted."]  # fmt: skip
    words = "The storm hold is in, on the strongback itself, whenever it is left."
    if rod_alone is not None:
        words += f" On the rod alone the {rod_alone.part} would use {100.0 * rod_alone.use:.0f} of 100 in the code's check."
    return [words]


def notes_of(setting: Setting, code: CodeCheck, shapes: tuple[Check, ...]) -> tuple[str, ...]:
    """Scope and cautions, each once."""
    figures = [EN_BRANCH] if setting.eurocode else [OUT_OF_FIGURE, BLEND, NOT_29_4_5, SOIL_EDITION]
    notes = [
        SCREENING,
        *_failing_words(shapes),
        *figures,
        *_by_place(setting),
        *_not_summed(setting),
    ]
    steepens = _steepening_n_m(setting)
    notes.append(
        f"If the hold is lost, wind drives the array broadside: rigid stops at both ends, each for at least {_both_units(2.0 * steepens)}"
        " (twice the largest steepening moment of the code's check), and two holds that do not depend on each other in a storm."
    )
    if setting.sway_hz < LEAST_NATURAL_HZ and not setting.eurocode:
        notes.append(
            f"The pole sways slower than once a second: gust factor {setting.code_gust_factor:.2f} of a flexible thing is used."
        )
    if "-T6" in setting.mount.pole.material:
        notes.append(ALUMINIUM)
    if not any(part.name.startswith("storm hold") for part in code.parts):
        notes.append("Locked and on the rod alone are the same here: there is no storm hold.")
    notes.append(
        "From steep to flat it passes the tilts where the hinge moment is largest: move only under the least gust of the whole way."
    )
    notes.append(MIXED)
    if setting.drive is not None:
        notes.append("The rod is summed without side load: both its pins must turn freely and stand in one plane.")  # fmt: skip
    notes.append("Snow over 5 psf (.25 kPa), ice, or an edge in the heap: it is not moved; a heap that reaches the edge pushes it, so clear it.")  # fmt: skip
    notes.append("Under snow the whole design snow is kept with the moment of half of it, but the strongback is bent by what lies on it; a slab at the low rail is doubled on its quarter for the hinge only.")  # fmt: skip
    notes.append(
        "The pressure under the pier counts all its concrete; an engineer may take off the soil it displaced."
    )
    return tuple(notes)


def _by_place(setting: Setting) -> list[str]:
    """What the edition and the snow of the place leave open."""
    if setting.eurocode:
        return []
    words = [EDITION] if setting.site.basis == LATER else []
    little = 0.0 < setting.place.ground_snow_pa <= RAIN_ON_SNOW_FROM_PSF * PSF_PA + 1.0
    if little:
        more_pa = RAIN_PSF[setting.site.basis] * PSF_PA
        words.append(
            f"Rain on snow is not summed: with so little snow on the ground the code (7.10, from memory) adds {more_pa / PSF_PA:.0f} psf ({more_pa / 1e3:.2f} kPa) on a roof as good as flat: let the engineer add it where it lies flat."
        )
    return words


def _not_summed(setting: Setting) -> list[str]:
    """Parts the file does not tell the size of; and what is never summed."""
    missing = unsized(setting)
    words = [NEVER_CHECKED]
    if missing:
        words.append(f"Not summed, for the file does not tell enough of them: {', '.join(missing)}.")  # fmt: skip
    return words


def _failing_words(shapes: tuple[Check, ...]) -> list[str]:
    failing = [f"{check.part}: {check.name}" for check in shapes if not check.holds]
    return [f"The geometry does not work: {'; '.join(failing)}."] if failing else []


def _steepening_n_m(setting: Setting) -> float:
    """Largest steepening moment of the code's check over the travel."""
    loads = code_loads(setting, setting.card_tilts_deg)
    return float(np.max(loads.acting.hinge_n_m, initial=0.0))


def _both_units(moment_n_m: float) -> str:
    """A moment for a sentence that any owner may read, to two figures upwards.

    Example:
        >>> _both_units(51221.0)
        '52 kN m (39,000 lbf ft)'
    """
    thousands = np.ceil(moment_n_m / 1000.0)
    return f"{thousands:.0f} kN m ({np.ceil(thousands / 1.355818):.0f},000 lbf ft)"
