"""The earth wire that goes with the circuit."""

from __future__ import annotations

from functools import cache

from polestead.base.check import Check, share
from polestead.base.problem import Problem, Wrong
from polestead.base.source import OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.wiring.currents import Code
from polestead.wiring.guards.result import Earth
from polestead.wiring.run.conductor import area_mm2, size_words

BY_BREAKER = Source("NEC", "Table 250.122", "seen-copy")
BY_LIVE = Source("IEC 60364-5-54", "Table 54.2", "seen-copy")
BY_BREAKER_CANADA = Source(
    "CSA C22.1", "Table 16, figures borrowed from NEC Table 250.122: ask", "memory"
)
COPPER_FOR_ALUMINIUM = 76.0 / 115.0  # k of PVC wires, IEC 60364-5-54, tables A.54 (from memory)
BREAKER = Source("the homestead file, or the next standard rating", status="computed")
AREA = Source("ASTM B258 for gauges, the name itself for mm2", status="computed")
_COPPER_IN_NEC = " Copper, or aluminium in pipe only, never within 18 in of the ground outdoors (NEC 250.120(B), from memory)."


def earth_wire_of(breaker_a: float, metal: str = "copper") -> str:
    """Least earth wire behind a breaker; 690.45 asks for no thicker one because of voltage drop.

    Source: NEC Table 250.122 (seen in a public copy; aluminium over 200 A from memory); 690.45 (from memory).
    Valid for: up to 800 A.

    Args:
        breaker_a: Rating [A].
        metal: ``copper`` or ``aluminium``.

    Raises:
        Wrong: Over 800 A.

    Example:
        >>> earth_wire_of(15.0), earth_wire_of(45.0), earth_wire_of(61.0), earth_wire_of(45.0, "aluminium")
        ('14 AWG', '10 AWG', '8 AWG', '8 AWG')
    """
    for row in table("wiring", "guards/earth"):
        if breaker_a <= float(row["up_to_a"]):
            return row[metal]
    problem = Problem(
        "run", "breaker", f"{breaker_a:g} A", "up to 800 A", "Run two cables with a breaker each."
    )
    raise Wrong([problem])


def earth_by_live_mm2(live_mm2: float) -> float:
    """Least earth wire of the same metal by the live wire's cross-section.

    Source: IEC 60364-5-54, Table 54.2 (seen in public copies): S up to 16, 16 up to 35, half above.

    Args:
        live_mm2: Cross-section of a live wire [mm2].

    Example:
        >>> [earth_by_live_mm2(s) for s in (2.5, 16.0, 25.0, 35.0, 70.0)]
        [2.5, 16.0, 16.0, 16.0, 35.0]
    """
    if live_mm2 <= 16.0:
        return live_mm2
    return 16.0 if live_mm2 <= 35.0 else live_mm2 / 2.0


def in_metric(size: str) -> str:
    """The thinnest metric size that is no thinner than an American one.

    Example:
        >>> in_metric("10 AWG"), in_metric("14 AWG")
        ('6 mm2', '2.5 mm2')
    """
    return metric_over(area_mm2(size))


@cache
def metric_over(area: float) -> str:
    """The thinnest metric copper size that is no thinner than so many mm2; the thickest known where none is.

    Example:
        >>> metric_over(12.5), metric_over(16.0)
        ('16 mm2', '16 mm2')
    """
    metric = sorted(
        (
            row["size"]
            for row in table("wiring", "run/resistance")
            if row["metal"] == "copper" and row["size"].endswith("mm2")
        ),
        key=area_mm2,
    )
    return next((size for size in metric if area_mm2(size) >= area - 1e-9), metric[-1])


def earth_of(
    code: Code, breaker_a: float, live_size: str, live_metal: str, given: str | None
) -> Earth:
    """The least earth wire, and the one in the file held against it.

    Source: NEC Table 250.122 and 250.122(A); IEC 60364-5-54, Table 54.2; CSA C22.1, Table 16 (from memory).

    Args:
        code: That holds.
        breaker_a: Breaker of the run [A].
        live_size: Of the run.
        live_metal: Of the run.
        given: Copper earth wire in the file, if any.

    Raises:
        Wrong: Over 800 A.

    Example:
        >>> earth_of("NEC", 45.0, "4 AWG", "copper", None).least, earth_of("IEC", 45.0, "16 mm2", "copper", None).least
        ('10 AWG', '16 mm2')
    """
    least = _least(code, breaker_a, live_size, live_metal)
    source = {"NEC": BY_BREAKER, "Canada": BY_BREAKER_CANADA, "IEC": BY_LIVE}[code]
    check = None
    if given is not None:
        check = _check(size_words(given), least, breaker_a, live_size, source)
    aluminium = None if code == "IEC" else earth_wire_of(breaker_a, "aluminium")
    return Earth(least, aluminium, check, _words(code, breaker_a), source)


def _least(code: Code, breaker_a: float, live_size: str, live_metal: str) -> str:
    if code == "IEC":
        share_of_it = 1.0 if live_metal == "copper" else COPPER_FOR_ALUMINIUM
        return metric_over(share_of_it * earth_by_live_mm2(area_mm2(live_size)))
    least = earth_wire_of(breaker_a)
    if live_metal == "copper" and area_mm2(least) > area_mm2(live_size):
        least = live_size  # 250.122(A): never thicker than the live wire
    return in_metric(least) if live_size.endswith("mm2") and least.endswith("AWG") else least


def _words(code: Code, breaker_a: float) -> str:
    if code == "IEC":
        return (
            "As thick as the live wire up to 16 mm2, 16 mm2 up to 35, half above; of that, copper beside an aluminium live wire 66 % (k 76 over 115, from memory). A "
            "thinner one may be shown by the adiabatic sum of the same part: the electrician's to work."
        )
    words = f"By the breaker of {breaker_a:g} A; a larger breaker asks for a thicker one."
    if code == "Canada":
        return f"{words} Ask the inspector for the row of Table 16, and whether a live wire made thicker against voltage drop changes it: in Canada no rule is known here that says no."
    return f"{words} A live wire made thicker against voltage drop asks for no thicker earth wire here (NEC 690.45, from memory, which sets 250.122(B) aside).{_COPPER_IN_NEC}"


def _check(given: str, least: str, breaker_a: float, live_size: str, source: Source) -> Check:
    wanted, there = area_mm2(least), area_mm2(given)
    working = Working(
        "the earth wire's thickness",
        (
            Step("breaker of the run", "In", "", breaker_a, "A", BREAKER),
            Step(f"live wire, {live_size}", "S", "", area_mm2(live_size), "mm2", AREA),
            Step(f"least earth wire, {least}", "Spe,min", "", wanted, "mm2", source),
            Step(f"earth wire in the file, {given}", "Spe", "", there, "mm2", OWNER),
        ),
    )
    return Check("earth wire", "thick enough", wanted, there, "mm2", share(wanted, there), source, working)  # fmt: skip
