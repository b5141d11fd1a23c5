"""A small SVG writer: presentation attributes only, one unit one CSS pixel, every text in a named face."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from xml.sax.saxutils import escape, quoteattr

Point = tuple[float, float]
BROAD = 0.6  # of a mean letter, what an m or a w is wider
TROUBLE = frozenset('&<>"\n\r\t')  # what an attribute may not hold as it is


@dataclass(frozen=True, slots=True)
class Ink:
    """Colours and face of one medium (paper, or screen by class names in the page's own style sheet)."""

    ink: str
    pencil: str
    rust: str
    ghost: str
    paper: str
    face: str
    letter: float  # mean width of a letter of the face over its size, for leaving room
    edge: str = "#7B7565"  # ghosts and hatches
    ochre: str = "#7A5200"  # assumed
    plumb: str = "#24507F"  # what can be taken hold of


PAPER = Ink("#1B1A17", "#5A564C", "#9B3B1E", "#B9B3A4", "#FFFFFF", "Libertinus Serif", 0.45)
SCREEN = Ink(
    "var(--ink)",
    "var(--pencil)",
    "var(--rust)",
    "var(--ghost)",
    "var(--leaf)",
    "system-ui, sans-serif",
    0.58,
    "var(--edge)",
    "var(--ochre)",
    "var(--plumb)",
)


def letters_of(words: str) -> float:
    """How many mean letters some words are as broad as: "1,054 mm" has more broad ones than most.

    Example:
        >>> letters_of("frost"), round(letters_of("662 mm"), 1)
        (5.0, 7.2)
    """
    return len(words) + BROAD * sum(letter in "mwMW" for letter in words)


def tag(name: str, body: str = "", **attributes: object) -> str:
    """One element; underscores in names become hyphens, None is left out."""
    written = "".join(
        [
            f'{_name(key)}"{_plain(value)}"' if isinstance(value, float) else _name(key) + _quoted(str(value))
            for key, value in attributes.items()
            if value is not None
        ]
    )  # fmt: skip
    return f"<{name}{written}>{body}</{name}>" if body else f"<{name}{written}/>"


@cache
def _name(key: str) -> str:
    """Up to its value."""
    return f" {key.rstrip('_').replace('_', '-')}="


@lru_cache(maxsize=1024)
def _quoted(text: str) -> str:
    """The same few colours, faces and words again and again."""
    return quoteattr(text)


def _plain(value: float) -> str:
    written = f"{value:.2f}"
    if written[-1] != "0":
        return written
    return written[:-3] if written[-2] == "0" else written[:-1]


def line(a: Point, b: Point, stroke: str, width: float = 1.0, dash: str | None = None) -> str:
    """A straight line."""
    dashed = (
        "" if dash is None else f" stroke-dasharray={_quoted(dash)}"
    )  # written out, as ``text`` is
    return (
        f'<line x1="{_plain(a[0])}" y1="{_plain(a[1])}" x2="{_plain(b[0])}" y2="{_plain(b[1])}" stroke={_quoted(stroke)} '
        f'stroke-width="{_plain(width)}"{dashed} stroke-linecap="round"/>'
    )


def polyline(
    points: Sequence[Point], stroke: str, width: float = 1.0, dash: str | None = None
) -> str:
    """A line through points."""
    drawn = " ".join(f"{x:.2f},{y:.2f}" for x, y in points)
    return tag(
        "polyline", points=drawn, fill="none", stroke=stroke, stroke_width=width, stroke_dasharray=dash,
        stroke_linejoin="round", stroke_linecap="round",
    )  # fmt: skip


def polygon(
    points: Iterable[Point],
    fill: str,
    stroke: str | None = None,
    width: float = 1.0,
    dash: str | None = None,
) -> str:
    """A closed shape."""
    drawn = " ".join(f"{x:.2f},{y:.2f}" for x, y in points)
    return tag(
        "polygon", points=drawn, fill=fill, stroke=stroke, stroke_width=width if stroke else None, stroke_dasharray=dash,
        stroke_linejoin="round",
    )  # fmt: skip


def text(
    at: Point,
    words: str,
    ink: str,
    face: str,
    size: float = 13.0,
    anchor: str = "start",
    weight: str | None = None,
) -> str:
    """One line of text."""
    # half of what a drawing holds: written out, not through ``tag``
    body = words if TROUBLE.isdisjoint(words) else escape(words)
    heavy = f" font-weight={_quoted(weight)}" if weight is not None else ""
    return (
        f'<text x="{_plain(at[0])}" y="{_plain(at[1])}" fill={_quoted(ink)} font-family={_quoted(face)} '
        f'font-size="{_plain(size)}" text-anchor={_quoted(anchor)}{heavy}>{body}</text>'
    )


def hatch(name: str, ink: str, gap: float, angle: float, dots: bool = False) -> str:
    """A fill pattern of lines, or of dots for concrete."""
    mark = (
        tag("circle", cx=gap / 2, cy=gap / 2, r=0.9, fill=ink)
        if dots
        else tag("line", x1=0.0, y1=0.0, x2=0.0, y2=gap, stroke=ink, stroke_width=0.8)
    )
    return tag(
        "pattern",
        mark,
        id=name,
        width=gap,
        height=gap,
        patternUnits="userSpaceOnUse",
        patternTransform=f"rotate({angle})",
    )


def drawing(
    width: float, height: float, defs: str, body: Iterable[str], title: str, words: str
) -> str:
    """The whole picture, with its words for those who do not see it."""
    inside = (
        tag("title", escape(title))
        + tag("desc", escape(words))
        + tag("defs", defs or " ")
        + "".join(body)
    )
    return tag(
        "svg", inside, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {_plain(float(width))} {_plain(float(height))}",
        width=width, height=height, role="img",
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Label:
    """Words on a rail with a leader to the thing."""

    words: tuple[str, ...]
    at: Point
    left: bool
    strong: bool = False


def label_boxes(labels: Sequence[Label], height: float, size: float) -> list[tuple[Label, float]]:
    """Where each label's first line stands so that none overlaps its neighbour on the same rail.

    Labels keep the order of the things they name; each rail is pushed down from the top, then up from the bottom.

    Returns:
        (label, y of its first line), left rail first.
    """
    placed: list[tuple[Label, float]] = []
    for left in (True, False):
        rail = sorted(
            (label for label in labels if label.left is left), key=lambda label: label.at[1]
        )
        tops = [label.at[1] for label in rail]
        room = [size * 1.25 * len(label.words) + size * 0.55 for label in rail]
        for i in range(len(rail)):
            least = size * (3.2 if left else 1.2) if i == 0 else tops[i - 1] + room[i - 1]
            tops[i] = max(tops[i], least)
        for i in reversed(range(len(rail))):
            most = (
                (height - size * 0.4 if i == len(rail) - 1 else tops[i + 1]) - room[i] + size * 0.55
            )
            tops[i] = (
                min(tops[i], most) if i == len(rail) - 1 else min(tops[i], tops[i + 1] - room[i])
            )
        placed += list(zip(rail, tops, strict=True))
    return placed
