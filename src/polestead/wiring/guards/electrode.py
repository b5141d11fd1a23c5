"""The electrode at the pole, and in volts and amperes why it does not replace the earth wire."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.wiring.by_code import borrowed
from polestead.wiring.currents import Code
from polestead.wiring.guards.clauses import clause
from polestead.wiring.guards.result import Electrode, Guard
from polestead.wiring.guards.rounded import amps_down

ROD_OHM = 25.0
ROD = Source("NEC", "250.53(A)(2): a single rod of 25 ohm or less is good enough", "seen-copy")
OHM = Source("Ohm's law", status="computed")
COLD = Source("maker's coefficient at the record low, with margin", status="ours")
BREAKER = Source("the homestead file, or the next standard rating", status="computed")
MOST = Source("the array gives no more", status="computed")
TOUCH_V = 120.0  # direct current, IEC 60364-4-41; from memory


def electrode_of(
    code: Code,
    cold_v: float,
    bright_a: float,
    breaker_a: float,
    earth_ohm: float,
    in_pier: bool = True,
) -> Electrode:
    """The electrode, and a fault at the pole worked through the rod and through the earth wire.

    The fault: a live wire touches the frame, the other live wire stands at earth in the house (through the controller's bond, or
    through a second fault nobody has found).  Only one rod is counted; with the house's own the current is less still.

    Source: NEC 250.53(A)(2) (seen in a public copy), 250.52(A)(3), 250.66 (electrode wires seen in public copies); Ohm's law.

    Args:
        code: That holds.
        cold_v: Cold voltage with margin [V].
        bright_a: 1.25 times the short-circuit current of all strings [A].
        breaker_a: Breaker of the run [A].
        earth_ohm: The earth wire from pole to house, warm [ohm].
        in_pier: Whether steel bars lie in the pier's concrete.

    Example:
        >>> found = electrode_of("NEC", 190.8, 35.0, 45.0, 0.273)
        >>> round(found.rod_a, 2), round(found.rod_v), round(found.wire_a), round(found.wire_v, 1)
        (7.63, 191, 35, 9.6)
    """
    rod_a = min(cold_v / ROD_OHM, bright_a)
    rod_v = rod_a * ROD_OHM
    wire_a = min(cold_v / earth_ohm, bright_a)
    wire_v = wire_a * earth_ohm
    working = Working(
        "a live wire on the frame: the rod alone, and the earth wire",
        (
            Step("string on the coldest dawn", "V", "", cold_v, "V", COLD),
            Step("the most all strings give", "Imax", "", bright_a, "A", MOST),
            Step("a good rod", "Rrod", "", ROD_OHM, "ohm", borrowed(ROD, code)),
            Step("breaker of the run", "In", "", breaker_a, "A", BREAKER),
            Step("current home through the rod", "Irod", f"min({cold_v:.1f} / {ROD_OHM:g}, {bright_a:.1f})", rod_a, "A", OHM),
            Step("its share of what trips the breaker", "Irod/In", f"{rod_a:.2f} / {breaker_a:g}", rod_a / breaker_a, "", OHM),
            Step("the frame then stands over the house's earth by", "Urod", f"{rod_a:.2f} x {ROD_OHM:g}", rod_v, "V", OHM),
            Step("earth wire, pole to house", "Re", "", earth_ohm, "ohm", OHM),
            Step("current home through the earth wire", "Ie", f"min({cold_v:.1f} / {earth_ohm:.3f}, {bright_a:.1f})", wire_a, "A", OHM),
            Step("the frame then stands over it by", "Ue", f"{wire_a:.1f} x {earth_ohm:.3f}", wire_v, "V", OHM),
        ),
        (
            _trips(bright_a, breaker_a),
            f"Direct current over about {TOUCH_V:g} V on a thing people hold counts as a danger (IEC 60364-4-41, from memory); wet or kneeling, half of that.",
            "Dry or frozen soil makes a rod of hundreds of ohms: less current still, the same volts.",
        ),
    )  # fmt: skip
    return Electrode(_guard(code, in_pier, rod_a, breaker_a), rod_a, rod_v, wire_a, wire_v, working)


def _trips(bright_a: float, breaker_a: float) -> str:
    if bright_a < breaker_a:
        return (
            f"Even a dead short gives no more than {bright_a:.1f} A from the array, under the breaker's {breaker_a:g} A: no breaker clears a fault fed by the sun. The earth wire "
            "keeps the frame's voltage down and carries the current that the ground-fault guard sees; a fault fed from the battery it clears through the breaker."
        )
    return "The earth wire carries what the ground-fault guard and the breaker must see."


def _guard(code: Code, in_pier: bool, rod_a: float, breaker_a: float) -> Guard:
    bars = (
        "The pole and the bars in its concrete: 20 ft (6 m) of 1/2 in bar in one piece or tied, or 20 ft of bare 4 AWG copper, within the lowest 2 in of concrete"
        f"{' (250.52(A)(3))' if code == 'NEC' else ''}. A wire to it 4 AWG copper, to a rod 6 AWG"
    )
    if code == "IEC":
        bars = "The pole and the bars in its concrete, a tail of galvanized flat or 16 mm2 copper left out of the form before it is poured; a wire to it from 16 mm2 copper, guarded"
    if code == "Canada":
        bars += "; in Canada section 10 and its Table 43 hold: ask"
    rod = (
        ""
        if in_pier
        else " No bars lie in this pier: a copper coil before the pour, or rods beside it."
    )
    return Guard(
        "electrode", "at the pole", "earth electrode, bonded to the earth wire", None, None, None, clause("electrode", code),
        f"{bars}.{rod} Bond it to the earth wire in the switch's box at the pole, straight, bolted, no copper on bare zinc or aluminium. It holds the pole near the soil under it in thunder; "
        f"a fault through it alone would give {amps_down(rod_a)}, and the breaker is {breaker_a:g} A: it never replaces the earth wire.",
        "Before the pour: does the inspector take the pole and its bars for the electrode, and must he see them before the concrete?",
    )  # fmt: skip
