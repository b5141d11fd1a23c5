"""The order of work as data: acts with crew, tools and hire, the sign-offs nothing passes, and the cautions that belong to them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Literal

from polestead.wiring.trench.closing import GATE as TRENCH_GATE

Waits = Literal["", "bare steel", "modules"]  # marks of the cure clock


@dataclass(frozen=True, slots=True)
class Act:
    """One act.  Crew, hire and days are common practice, no source: days of work of so many people, not of waiting.

    Attributes:
        name: Short (``hole``).
        words: What is done.
        people: How many it takes.
        tools: At hand before it begins.
        hire: What is hired; empty: nothing.
        hire_days: For how long.
        work_days: Of work.
        needs: Acts done before it.
        behind: Sign-offs it stands behind.
    """

    name: str
    words: str
    people: int
    tools: tuple[str, ...]
    hire: str
    hire_days: float
    work_days: float
    needs: tuple[str, ...] = ()
    behind: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SignOff:
    """A gate: what stands behind it does not start before it is signed.

    Attributes:
        name: Short (``footing``).
        words: The sentence across it.
        sign: Who signs.
        after: Acts done before it can be signed.
        waits: Mark of the cure clock it waits for; empty: none.
    """

    name: str
    words: str
    sign: str
    after: tuple[str, ...]
    waits: Waits = ""


SPADE_TOOLS = ("spade", "tape", "level", "marking paint", "planks")
LIFT_TOOLS = ("slings with their tags", "two tag lines", "spanners", "cotter pins", "level", "wind meter")  # fmt: skip

ACTS: tuple[Act, ...] = (
    Act("ask", "Ask wind, snow, frost, record low, soil, height limit, setback; order concrete and steel.", 1, ("the asking list", "telephone"), "", 0.0, 1.0),
    Act("locate", "Find and mark your own buried lines; have the public ones marked.", 1, ("flags or paint in two colours", "tape", "spade"), "a private locator, where your own lines are not known", 0.5, 0.5, ("ask",)),
    Act("stake", "Stake the pole, the true north-south line and the trench.", 2, ("stakes", "string", "two tapes", "compass"), "", 0.0, 0.5, ("locate",)),
    Act("trench", "Dig the trench and lay what belongs in it, from the bottom up.", 2, (*SPADE_TOOLS, "camera", "duct seal"), "small digger, the same machine day as the hole", 0.5, 1.0, ("stake",)),
    Act("hole", "Drill the hole and plank it over.", 2, (*SPADE_TOOLS, "lamp or mirror to look down"), "auger or digger, the same machine day as the trench", 0.5, 0.5, ("stake",)),
    Act("aim", "Into the hole: rock, bars, pole, conduit sweep; brace, plumb both ways, aim.", 3, ("two long levels or two plumb lines", "clamps", "two braces and their stakes", "watch", "compass", "tag lines"), "loader with forks, or a hoist with its frame", 1.0, 1.0, ("hole", "trench")),
    Act("pour", "Pour in one go; read plumb and aim again; keep it damp and from freezing.", 3, ("rubber boots and gloves", "goggles", "rod or vibrator", "trowel", "water to wash eyes", "blankets", "thermometer"), "concrete truck, or a mixer", 1.0, 1.0, ("aim",), ("footing",)),
    Act("close trench", "Sand over the line, ribbon, fill and tread down in layers.", 2, ("spade", "tamper", "ribbon"), "", 0.0, 0.5, ("trench",), ("trench",)),
    Act("shop", "Cut, drill and fit together on the floor: strongback, rails, hinge, sleeve, storm hold, prop.", 1, ("saw", "drill", "files", "square", "calliper", "clamps", "the cut list"), "", 0.0, 4.0, ("ask",)),
    Act("weld", "Weld ears and what else is welded; look at every weld.", 1, ("welder and dry rods", "helmet", "grinder", "wire brush", "weld gauge", "respirator P100", "fire watch and water"), "", 0.0, 2.0, ("shop",), ("test piece",)),
    Act("coat", "Clean and coat all steel; what cannot be reached later first.", 1, ("grinder", "wire brush", "zinc-rich paint", "masking tape", "respirator"), "galvanizer, where it is hot-dipped", 0.0, 2.0, ("weld",)),
    Act("lift", "Lift strongback and hinge; storm hold and prop in before the hook comes off.", 3, LIFT_TOOLS, "loader with forks, or a crane", 1.0, 1.0, ("coat", "pour"), ("bare steel",)),
    Act("load modules", "Hang the modules in their order, both sides of the hinge in balance; torque; mark.", 3, ("two platforms", "clamps and bolts", "torque wrench", "paint pen", "covers", "wind meter"), "two work platforms, or a module hoist", 1.0, 1.0, ("lift",), ("modules",)),
    Act("wire", "Strings, boxes, loop at the hinge, guards, labels; every switch open.", 2, ("insulated tools", "meter", "crimper", "labels", "gloves rated for the volts"), "electrician, where the law asks", 1.0, 2.0, ("load modules", "close trench")),
    Act("test", "Test by the form, in its order, nothing closed before all has passed.", 2, ("meter", "clamp meter for direct current", "insulation tester", "light meter", "the test form"), "electrician, where the law asks", 0.5, 0.5, ("wire",)),
    Act("connect", "Battery first, then the array.", 2, ("meter", "insulated tools"), "", 0.0, 0.5, ("test",), ("wiring",)),
    Act("first travel", "Once over the whole travel, slowly; stops, edges, loop, lock; measure rod and tilt.", 2, ("level with degrees", "tape", "clamp meter", "paint pen", "spanners"), "", 0.0, 0.5, ("connect",)),
)  # fmt: skip

SIGN_OFFS: tuple[SignOff, ...] = (
    SignOff("footing", "Nothing is poured before the footing has been looked at and signed for.", "the inspector; where none is asked, whoever answers for the pier", ("aim",)),
    SignOff("trench", TRENCH_GATE.removeprefix("GATE: ").replace("nothing", "Nothing", 1), "the inspector, or the one who answers for the wiring", ("trench",)),
    SignOff("test piece", "Nothing of the hinge is welded before a test piece has been broken and looked at.", "the welder, and one other pair of eyes", ("shop",)),
    SignOff("bare steel", "No steel on the pole before the cure clock says bare steel.", "you, with the temperatures written down", ("pour",), "bare steel"),
    SignOff("modules", "No module before the concrete has all the strength the sums took, and storm hold and prop are in.", "you, with the temperatures written down; the inspector where he asks", ("lift",), "modules"),
    SignOff("wiring", "Nothing is connected before the one who answers for the wiring has signed.", "the inspector, or the electrician who answers for it", ("test",)),
)  # fmt: skip

CAUTIONS = (
    "Screening sums, not a stamped design. An array like this on one pole can kill: an engineer checks pole, pier and hinge.",
    "Nobody under it while it moves, while only the rod holds it, in wind, or with snow on it. Prop and lock before hands go in.",
    "Never climb into the pier hole. A trench of 5 ft (1.5 m) or more is sloped or shored first.",
    "Own buried lines are on no map but yours.",
    "Lift with rated gear, tag lines, in calm, nobody under it, away from power lines. Not alone, not at dusk.",
    "Modules are live in any light and cannot be switched off; an arc of direct current does not go out. Cover, open, measure.",
    "A cold clear dawn gives more volts than any reading you have taken: trust the record low, not the meter.",
    "The engine's exhaust kills indoors; it must never feed a line anyone else may touch.",
    "Welding zinc makes a fever; grind it off, keep the air across the work.",
)


def act_named(name: str) -> Act:
    """An act by its name.

    Example:
        >>> act_named("pour").behind
        ('footing',)
    """
    return next(act for act in ACTS if act.name == name)


def signed_before(name: str) -> tuple[str, ...]:
    """Sign-offs an act stands behind: its own, and those of every act it needs, directly or through others.

    Args:
        name: Of the act; what is no act of the order (a card that hangs at the pole) stands behind none.

    Example:
        >>> signed_before("lift"), signed_before("stake")
        (('footing', 'test piece', 'bare steel'), ())
    """
    acts = {act.name: act for act in ACTS}
    seen: set[str] = set()
    open_ones = [name] if name in acts else []
    while open_ones:
        one = open_ones.pop()
        if one not in seen:
            seen.add(one)
            open_ones += acts[one].needs
    behind = {gate for one in seen for gate in acts[one].behind}
    return tuple(gate.name for gate in SIGN_OFFS if gate.name in behind)


def sign_off_named(name: str) -> SignOff:
    """A sign-off by its name.

    Example:
        >>> sign_off_named("modules").waits
        'modules'
    """
    return next(gate for gate in SIGN_OFFS if gate.name == name)


def in_order(acts: Sequence[Act] = ACTS, gates: Sequence[SignOff] = SIGN_OFFS) -> tuple[str, ...]:
    """Names of acts and gates (``gate: footing``), each after all it needs, otherwise as listed.

    Args:
        acts: The acts.
        gates: The sign-offs.

    Raises:
        ValueError: A ring, or a name that is not there.

    Example:
        >>> order = in_order()
        >>> order.index("gate: footing") < order.index("pour") < order.index("gate: modules")
        True
    """
    asks: dict[str, tuple[str, ...]] = {}
    left = list(gates)
    for act in acts:  # a gate stands as late as it may: before the first act behind it
        for gate in [one for one in left if one.name in act.behind]:
            asks[f"gate: {gate.name}"] = gate.after
            left.remove(gate)
        asks[act.name] = (*act.needs, *(f"gate: {name}" for name in act.behind))
    asks |= {f"gate: {gate.name}": gate.after for gate in left}
    unknown = sorted({need for needs in asks.values() for need in needs} - asks.keys())
    if unknown:
        message = f"needed, but not there: {', '.join(unknown)}"
        raise ValueError(message)
    done: list[str] = []
    waiting = list(asks)
    while waiting:
        ready = next((name for name in waiting if all(need in done for need in asks[name])), None)
        if ready is None:
            message = f"each waits for another: {', '.join(waiting)}"
            raise ValueError(message)
        done.append(ready)
        waiting.remove(ready)
    return tuple(done)


def waits_for(
    name: str,
    done: Collection[str],
    signed: Collection[str],
    acts: Sequence[Act] = ACTS,
) -> tuple[str, ...]:
    """What an act still waits for, acts and gates; empty: it may start.

    A tick counts only where the act could itself be started: an act ticked behind an unsigned gate lets nothing through.

    Args:
        name: The act.
        done: Acts ticked.
        signed: Sign-offs signed.
        acts: All acts.

    Example:
        >>> waits_for("pour", {"ask", "locate", "stake", "trench", "hole", "aim"}, ())
        ('gate: footing',)
    """
    by_name = {act.name: act for act in acts}
    act = by_name[name]
    missing = [
        need for need in act.needs if need not in done or waits_for(need, done, signed, acts)
    ]
    return (*missing, *(f"gate: {gate}" for gate in act.behind if gate not in signed))


def may_sign(name: str, done: Collection[str], signed: Collection[str]) -> tuple[str, ...]:
    """What a sign-off still waits for: acts before it that are not done, or not rightly; empty: it may be signed.

    Args:
        name: The sign-off.
        done: Acts ticked.
        signed: Sign-offs signed.

    Example:
        >>> may_sign("trench", {"ask", "locate", "stake"}, ())
        ('trench',)
    """
    return tuple(
        act for act in sign_off_named(name).after if act not in done or waits_for(act, done, signed)
    )


def _lines() -> tuple[str, ...]:
    acts = {act.name: act.words for act in ACTS}
    gates = {f"gate: {gate.name}": gate.words for gate in SIGN_OFFS}
    return tuple(
        acts[name] if name in acts else f"GATE: {gates[name][0].lower()}{gates[name][1:]}"
        for name in in_order()
    )


STEPS: tuple[str, ...] = _lines()
