"""The trade's symbols for a one-line, after IEC 60617 where it has one, in the house's ink: each on a line through its middle."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache

from polestead.sheets.svg import Ink, Point, line, polygon, polyline, tag
from polestead.wiring.drawn.one_line import Kind

REACH = 20.0  # from the middle of a symbol to where the line goes on
EDGE, FINE, HEAVY = 1.5, 1.0, 2.5


def symbol(kind: Kind, at: Point, ink: Ink, upright: bool = False) -> str:
    """One symbol, laid along a level line or along an upright one (its left end up).

    Args:
        kind: Which.
        at: Its middle.
        ink: Of the medium.
        upright: Turned so that the line runs from above to below.
    """
    x, y = at
    body = _body(kind, ink)
    turn = " rotate(90)" if upright and kind not in STAYS_UP else ""
    return tag("g", body, transform=f"translate({x:.2f} {y:.2f}){turn}") if body else ""


@cache
def _body(kind: Kind, ink: Ink) -> str:
    """The same for every one of its kind."""
    return "".join(_DRAWN[kind](ink)) if kind in _DRAWN else ""


STAYS_UP = ("controller", "inverter", "charger", "engine", "house", "electrode")


def _ring(at: Point, r: float, ink: Ink, fill: str | None = None, width: float = EDGE) -> str:
    return tag("circle", cx=at[0], cy=at[1], r=r, fill=fill or ink.paper, stroke=ink.ink, stroke_width=width)  # fmt: skip


def _box(half_x: float, half_y: float, ink: Ink) -> str:
    corners = [(-half_x, -half_y), (half_x, -half_y), (half_x, half_y), (-half_x, half_y)]
    return polygon(corners, ink.paper, ink.ink, EDGE)


def _clear(ink: Ink, half: float = REACH) -> str:
    """Takes the line away from under the symbol."""
    corners = [(-half, -2.0), (half, -2.0), (half, 2.0), (-half, 2.0)]
    return polygon(corners, ink.paper)


def _modules(ink: Ink) -> Iterator[str]:
    yield _box(18.0, 11.0, ink)
    yield polyline([(-18.0, -11.0), (-7.0, 0.0), (-18.0, 11.0)], ink.ink, EDGE)


def _cord(ink: Ink) -> Iterator[str]:
    yield _clear(ink)
    yield tag(
        "path",
        d="M-20 0 C-14 -12 -10 -12 -6 0 C-2 12 2 12 6 0 C10 -12 14 -12 20 0",
        fill="none",
        stroke=ink.ink,
        stroke_width=EDGE,
        stroke_linecap="round",
    )


def _fuse(ink: Ink) -> Iterator[str]:
    yield _box(15.0, 6.0, ink)
    yield line((-REACH, 0.0), (REACH, 0.0), ink.ink, EDGE)


def _blade(ink: Ink) -> Iterator[str]:
    yield _clear(ink)
    yield line((-REACH, 0.0), (-11.0, 0.0), ink.ink, EDGE)
    yield line((-11.0, 0.0), (11.0, -13.0), ink.ink, EDGE)
    yield line((11.0, 0.0), (REACH, 0.0), ink.ink, EDGE)


def _switch(ink: Ink) -> Iterator[str]:
    """A blade, the bar of an isolator and the ring of one that breaks load."""
    yield from _blade(ink)
    yield line((11.0, -6.0), (11.0, 6.0), ink.ink, EDGE)
    yield _ring((8.0, 0.0), 3.0, ink)


def _plain_switch(ink: Ink) -> Iterator[str]:
    yield from _blade(ink)
    yield line((11.0, -6.0), (11.0, 6.0), ink.ink, EDGE)


def _changed_over(ink: Ink) -> Iterator[str]:
    """One way out, a blade between two ways in: one lies on the line, the other comes from above."""
    yield _clear(ink)
    yield line((-REACH, 0.0), (-11.0, 0.0), ink.ink, EDGE)
    yield line((-11.0, 0.0), (9.0, -4.0), ink.ink, EDGE)
    yield _ring((-11.0, 0.0), 2.0, ink)
    yield line((11.0, 0.0), (REACH, 0.0), ink.ink, EDGE)
    yield _ring((9.0, -4.0), 2.0, ink)


def _breaker(ink: Ink) -> Iterator[str]:
    """A blade and the cross of one that trips."""
    yield from _blade(ink)
    yield line((7.0, -4.0), (15.0, 4.0), ink.ink, EDGE)
    yield line((7.0, 4.0), (15.0, -4.0), ink.ink, EDGE)


def _surge(ink: Ink) -> Iterator[str]:
    """A box with an arrow towards earth, which lies at its right end."""
    yield _box(14.0, 7.0, ink)
    yield line((-REACH, 0.0), (4.0, 0.0), ink.ink, EDGE)
    yield polygon([(8.0, 0.0), (1.0, -4.0), (1.0, 4.0)], ink.ink)


def _direct(at: Point, ink: Ink) -> Iterator[str]:
    x, y = at
    yield line((x - 6.0, y - 2.5), (x + 6.0, y - 2.5), ink.ink, EDGE)
    for start in (-6.0, -1.5, 3.0):
        yield line((x + start, y + 2.5), (x + start + 3.0, y + 2.5), ink.ink, EDGE)


def _alternating(at: Point, ink: Ink) -> str:
    x, y = at
    return tag("path", d=f"M{x - 7} {y} q3.5 -8 7 0 q3.5 8 7 0", fill="none", stroke=ink.ink, stroke_width=EDGE)  # fmt: skip


def _changer(left: str, right: str) -> Callable[[Ink], Iterator[str]]:
    """A box cut from corner to corner: what goes in at the upper left, what comes out at the lower right."""

    def drawn(ink: Ink) -> Iterator[str]:
        yield _box(REACH, REACH, ink)
        yield line((-REACH, REACH), (REACH, -REACH), ink.ink, FINE)
        for kind, at in ((left, (-9.0, -9.0)), (right, (9.0, 9.0))):
            if kind == "direct":
                yield from _direct(at, ink)
            else:
                yield _alternating(at, ink)

    return drawn


def _battery(ink: Ink) -> Iterator[str]:
    yield _clear(ink, 9.0)
    for x, half, width in (
        (-8.0, 14.0, EDGE),
        (-3.0, 7.0, 3.5),
        (4.0, 14.0, EDGE),
        (9.0, 7.0, 3.5),
    ):
        yield line((x, -half), (x, half), ink.ink, width)


def _engine(ink: Ink) -> Iterator[str]:
    yield _ring((0.0, 0.0), 18.0, ink)
    # A letter G drawn as a stroke, so that it turns with nothing and needs no face.
    yield tag("path", d="M6 -5 A8 8 0 1 0 7.5 2.5 L1.5 2.5", fill="none", stroke=ink.ink, stroke_width=EDGE)  # fmt: skip


def _house(ink: Ink) -> Iterator[str]:
    """A board: a bar with ways out."""
    yield _box(14.0, REACH, ink)
    yield line((-5.0, -14.0), (-5.0, 14.0), ink.ink, HEAVY)
    for y in (-10.0, 0.0, 10.0):
        yield line((-5.0, y), (8.0, y), ink.ink, FINE)


def _electrode(ink: Ink) -> Iterator[str]:
    yield line((0.0, -10.0), (0.0, 0.0), ink.ink, EDGE)
    for y, half in ((0.0, 12.0), (5.0, 8.0), (10.0, 4.0)):
        yield line((-half, y), (half, y), ink.ink, EDGE)


def _joint(ink: Ink) -> Iterator[str]:
    """A box in which lines meet."""
    yield _box(12.0, 9.0, ink)
    yield line((-REACH, 0.0), (REACH, 0.0), ink.ink, EDGE)
    yield _ring((0.0, 0.0), 2.5, ink, ink.ink)


def _bar(ink: Ink) -> Iterator[str]:
    yield line((-REACH, 0.0), (REACH, 0.0), ink.ink, 4.0)


_DRAWN: dict[Kind, Callable[[Ink], Iterator[str]]] = {
    "strings": _modules,
    "old modules": _modules,
    "cord": _cord,
    "string fuses": _fuse,
    "main fuse": _fuse,
    "load-break switch": _switch,
    "battery switch": _plain_switch,
    "transfer switch": _changed_over,
    "breaker": _breaker,
    "controller breaker": _breaker,
    "surge arrestor": _surge,
    "controller": _changer("direct", "direct"),
    "inverter": _changer("direct", "alternating"),
    "charger": _changer("direct", "alternating"),
    "battery": _battery,
    "engine": _engine,
    "house": _house,
    "electrode": _electrode,
    "box": _joint,
    "earth bar": _bar,
}
