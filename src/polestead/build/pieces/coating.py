"""The chart of his own metals: which of them meet, which is eaten, what goes between."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import Source
from polestead.base.table import table
from polestead.build.given import Given

OUTDOORS_V = 0.15
INDEX = Source("MIL-STD-1250A and -889", "anodic index; outdoors at most .15 V apart", "seen-copy")
CONCRETE = Source(
    "ACI 318",
    "20.6.3 (R6.3.2 of older editions), aluminium in concrete coated or kept out",
    "memory",
)
WET_ZINC = Source("galvanizers' and concrete handbooks", "wet concrete attacks zinc until it has set", "memory")  # fmt: skip


@dataclass(frozen=True, slots=True)
class MetalsMeet:
    """Two of his own materials that touch.

    Attributes:
        where: In which joint.
        one, other: The two.
        apart_v: Between them in the anodic index; None where it is no matter of volts.
        most_v: Outdoors, as they are.
        eaten: Which one suffers; empty where neither does.
        between: What goes between them, and why.
        source: Who says so.
    """

    where: str
    one: str
    other: str
    apart_v: float | None
    most_v: float
    eaten: str
    between: str
    source: Source

    @property
    def as_they_are(self) -> bool:
        """Whether they may touch with nothing between."""
        return self.apart_v is not None and self.apart_v <= OUTDOORS_V + 1e-9


def index_v(metal: str) -> float:
    """Anodic index of a metal [V]; ``painted steel`` is bare steel where the paint is scratched.

    Source: ``metals.csv``.

    Example:
        >>> index_v("zinc"), index_v("painted steel")
        (1.2, 0.85)
    """
    name = "bare steel" if metal == "painted steel" else metal
    return float(next(row for row in table("build", "pieces/metals") if row["metal"] == name)["index_v"])  # fmt: skip


def meet(where: str, one: str, other: str, between: str) -> MetalsMeet:
    """Two metals by their index.

    Args:
        where: In which joint.
        one: A row of ``metals.csv``.
        other: Another.
        between: What goes between them.

    Example:
        >>> pair = meet("lug", "copper", "aluminium", "a tinned lug")
        >>> round(pair.apart_v, 2), pair.eaten, pair.as_they_are
        (0.55, 'aluminium', False)
    """
    a, b = index_v(one), index_v(other)
    eaten = "" if a == b else one if a > b else other
    return MetalsMeet(where, one, other, abs(a - b), OUTDOORS_V, eaten, between, INDEX)


def coating_of(g: Given) -> tuple[MetalsMeet, ...]:
    """The chart, worst pair first; pairs that are no matter of volts at the end."""
    pairs = (*_frame(g), *_hinge(g), *_earth(g))
    ordered = sorted(pairs, key=lambda pair: -(pair.apart_v or 0.0))
    return (*ordered, *_concrete(g))


def steels(g: Given) -> tuple[str, ...]:
    """What his steel shows to the rain: zinc, painted or bare, both where the file does not tell."""
    return {"galvanized": ("zinc",), "painted": ("painted steel",), "bare": ("bare steel",), None: ("zinc", "bare steel")}[g.frame.finish]  # fmt: skip


def _frame(g: Given) -> tuple[MetalsMeet, ...]:
    found = []
    for steel in steels(g):
        found.append(meet("module frame on rail", "aluminium", steel, "an isolator (plastic or rubber washer, or tape) under every clamp, water able to run off; on zinc the zinc goes first, on bare steel the frame"))  # fmt: skip
        found.append(meet("clamp bolt in rail", "stainless steel", steel, "a small stainless bolt in much zinc or steel eats it slowly: a washer of plastic or nylon-lined sleeve, and paste on the thread; never the other way, a zinc bolt in much stainless"))  # fmt: skip
    found.append(meet("clamp bolt on module frame", "stainless steel", "aluminium", "a stainless washer wider than the head, anti-seize paste on the thread; the bolt is small beside the frame, so it goes slowly"))  # fmt: skip
    if g.frame.cap_bolts is not None and g.frame.finish in (None, "galvanized"):
        found.append(meet("cap bolts in the pole", "bare steel", "zinc", "take hot-dipped bolts and nuts of the same lot; black ones eat the zinc round their holes"))  # fmt: skip
    return tuple(found)


def _hinge(g: Given) -> tuple[MetalsMeet, ...]:
    return tuple(
        meet("bushing on pin and lug, where it is of bronze", "bronze", steel, "grease that fills it, or a plastic bushing, which has no volts; no zinc inside the bore")
        for steel in steels(g)
    )  # fmt: skip


def _earth(g: Given) -> tuple[MetalsMeet, ...]:
    pole = "aluminium" if g.pole_is_aluminium else None
    found = [
        meet("earth wire on module frame", "copper", "aluminium", "a tinned lug listed for it, stainless bolt and toothed washer; bare copper never touches the frame nor lies over it: rain carries copper down"),
        meet("tinned lug on module frame", "tinned copper", "aluminium", "what is left between tin and aluminium: paste in the joint, looked at once a year"),
    ]  # fmt: skip
    clamp = "a tinned or bronze clamp listed for it on cleaned metal, then painted over; above the concrete, where it can be looked at"
    found += [meet("earth wire on the pole", "copper", metal, clamp) for metal in ((pole,) if pole else steels(g))]  # fmt: skip
    if g.run.metal == "aluminium":
        found.append(meet("run cable in its lugs", "aluminium", "copper", "lugs and terminals marked for both metals, oxide paste, the terminal maker's own torque"))  # fmt: skip
    return tuple(found)


def _concrete(g: Given) -> tuple[MetalsMeet, ...]:
    if g.pole_is_aluminium:
        between = "aluminium is not set in concrete bare: bitumen or a plastic sleeve all the way in and a hand over it; never touching the bars"
        return (MetalsMeet("pole in its pier", "aluminium", "wet concrete", None, OUTDOORS_V, "aluminium", between, CONCRETE),)  # fmt: skip
    found = []
    if "zinc" in steels(g):
        between = "wet concrete eats a little zinc until it has set, then leaves it alone: nothing between. No zinc touches bare bars"
        found.append(MetalsMeet("pole in its pier", "zinc", "wet concrete", None, OUTDOORS_V, "zinc", between, WET_ZINC))  # fmt: skip
    between = "the pole rusts through just over the collar: slope the collar, coat from a hand below it to a hand above, look every year"
    found.append(MetalsMeet("pole at the collar", "steel", "wet and air by turns", None, OUTDOORS_V, "steel", between, Source("common practice, no source", status="common practice")))  # fmt: skip
    return tuple(found)
