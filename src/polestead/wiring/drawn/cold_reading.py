"""From a reading of today to the coldest dawn: is the string what the sums took it for?"""

from __future__ import annotations

from polestead.base.check import Check, share
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.homestead.model import Module
from polestead.modules.diode import diode_points, fitted_diode
from polestead.wiring.drawn.expected import DIODE
from polestead.wiring.strings.voltage import COLD, MARGIN, with_margin_v

READ = Source("read on the string", status="owner")
RATIO = Source("the maker's coefficient at both temperatures", status="computed")
COLD_NAME = "cold voltage projected from the reading"


def cold_factor(module: Module, cell_c: float, record_low_c: float) -> float:
    """What a reading in full sun is multiplied with to give the voltage at the record low.

    Source: the maker's coefficient at both ends (NEC 690.7(A)(1), seen): (1 + beta (Tlow - 25)) / (1 + beta (T - 25)).

    Args:
        module: Its coefficient.
        cell_c: Cells at the reading [C].
        record_low_c: [C].

    Example:
        >>> from polestead.homestead.demos import demo_path
        >>> from polestead.homestead.read import read_homestead
        >>> module = read_homestead(demo_path("hollow-spruce")).homestead.array.module
        >>> round(cold_factor(module, 45.0, -43.9), 3)
        1.234
    """
    beta = module.voltage_change_per_k
    return (1.0 + beta * (record_low_c - 25.0)) / (1.0 + beta * (cell_c - 25.0))


def light_factor(module: Module, plane_w_m2: float, cell_c: float) -> float:
    """What a reading in less than full sun is multiplied with to give that of full sun: open volts fall a little in dim light.

    Source: the single diode fitted to the datasheet.

    Args:
        module: The datasheet.
        plane_w_m2: On the glass [W/m2].
        cell_c: Cells at the reading [C].
    """
    diode = fitted_diode(module)
    full, here = diode_points(diode, [(1000.0, cell_c), (plane_w_m2, cell_c)])
    return full.open_v / here.open_v


def projected_cold_v(
    module: Module, measured_v: float, plane_w_m2: float, cell_c: float, record_low_c: float
) -> float:
    """Open volts of a string at the record low and full sun, from a reading.

    Source: ``light_factor`` times ``cold_factor``.

    Args:
        module: The datasheet.
        measured_v: Open volts read on the string [V].
        plane_w_m2: On the glass at the reading [W/m2].
        cell_c: Cells at the reading [C].
        record_low_c: [C].
    """
    return (
        measured_v
        * light_factor(module, plane_w_m2, cell_c)
        * cold_factor(module, cell_c, record_low_c)
    )


def cold_reading_check(
    module: Module,
    measured_v: float,
    plane_w_m2: float,
    cell_c: float,
    record_low_c: float,
    limit_v: float,
) -> Check:
    """The reading, brought to the record low with the usual margin, against the controller's limit.

    Args:
        module: The datasheet.
        measured_v: Open volts read on the string [V].
        plane_w_m2: On the glass at the reading [W/m2].
        cell_c: Cells at the reading [C].
        record_low_c: [C].
        limit_v: Of the controller [V].
    """
    bright = light_factor(module, plane_w_m2, cell_c)
    cold = cold_factor(module, cell_c, record_low_c)
    at_low = projected_cold_v(module, measured_v, plane_w_m2, cell_c, record_low_c)
    most = with_margin_v(at_low)
    beta = module.voltage_change_per_k
    working = Working(
        COLD_NAME,
        (
            Step("read on the string", "V", "", measured_v, "V", READ),
            Step("light at the reading", "G", "", plane_w_m2, "W/m^2", READ),
            Step("cells at the reading", "T", "", cell_c, "C", READ),
            Step("its change per degree", "beta", "", beta, "1/K", OWNER),
            Step("record low", "Tlow", "", record_low_c, "C", OWNER),
            Step("to full sun", "kG", f"Voc(1000) / Voc({plane_w_m2:.0f})", bright, "", DIODE),
            Step("to the record low", "kT", f"(1 + {beta:g} x ({record_low_c:.1f} - 25)) / (1 + {beta:g} x ({cell_c:.1f} - 25))", cold, "", RATIO),
            Step("cold voltage", "Vcold", f"{measured_v:.1f} x {bright:.4f} x {cold:.4f}", at_low, "V", COLD),
            Step("with margin", "Vmax", f"{at_low:.1f} + max(0.03 x {at_low:.1f}, 5)", most, "V", MARGIN),
        ),
        ("A cell misread by 3 C moves this by under 1 %; read it under a pad on the back, in steady sun.",),
    )  # fmt: skip
    return Check("string", COLD_NAME, most, limit_v, "V", share(most, limit_v), COLD, working)
