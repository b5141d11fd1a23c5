"""Numbers where the thing is: what each says at a tilt, where it points, and its working's name."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import cos, radians
from textwrap import wrap

from polestead.base.quantity import in_unit
from polestead.base.show import dimension, gust, gust_step, in_style, number, rod_words
from polestead.sheets.scene.field import Field
from polestead.sheets.scene.still import sun_at
from polestead.sheets.scene.tipped import rod_ends
from polestead.sheets.sentences import use_of
from polestead.sheets.svg import Point
from polestead.stand.result import TiltStand


@dataclass(frozen=True, slots=True)
class Number:
    """One number of the drawing.

    Attributes:
        key: Name of its working; also of its place in the page.
        head: What it says, heavy.
        beside: What stands under it.
        at: What it points at.
        side: ``left`` or ``right`` rail, ``sun`` beside the disc, ``edge`` at its dimension line.
        colour: Of its head: ``ink``, ``rust``, ``ochre``.
    """

    key: str
    head: tuple[str, ...]
    beside: tuple[str, ...]
    at: Point
    side: str
    colour: str = "ink"

    @property
    def lines(self) -> int:
        """Of words."""
        return len(self.head) + len(self.beside)

    @property
    def words(self) -> str:
        """All of it in one line."""
        return ", ".join((" ".join(self.head), *self.beside))


Sun = tuple[float, float, float] | None  # a dull, a middle, a bright day [Wh]


def numbers(field: Field, tilt_deg: float, sun: Sun, noon_deg: float, day_words: str, fault: str = "") -> list[Number]:  # fmt: skip
    """All that find room in this width class, the most wanted first.

    Args:
        field: Of the drawing.
        tilt_deg: On the card.
        sun: What the chosen day gives; None while it is being worked.
        noon_deg: Height of that day's sun.
        day_words: That day.
        fault: Why its sun could not be worked.
    """
    made = (
        _stands_to(field, tilt_deg),
        _lowest_edge(field, tilt_deg),
        _rod(field, tilt_deg),
        _first_gives(field, tilt_deg),
        _sun(field, sun, noon_deg, day_words, fault),
        _pole(field, tilt_deg),
        _pier(field, tilt_deg),
        _top(field, tilt_deg),
        _heap(field),
    )
    there = [number for number in made if number is not None][: field.size.numbers]
    return [_fitted(field, number) for number in there]


def _fitted(field: Field, one: Number) -> Number:
    """The words of the right rail wrapped into its width."""
    if one.side != "right" or field.size.keyed:
        return one
    most = field.most_letters
    head = tuple(line for words in one.head for line in wrap(words, most))
    beside = tuple(line for words in one.beside for line in wrap(words, int(most * 1.1)))
    return replace(one, head=head, beside=beside)


def _row(field: Field, tilt_deg: float) -> TiltStand:
    return field.answer.stand.card[field.tilts.place_of(tilt_deg)]


def _stands_to(field: Field, tilt_deg: float) -> Number:
    row = _row(field, tilt_deg)
    locked = "locked" if field.tilts.setting.lock is not None else "on the rod alone"
    x, y = field.on_arc(tilt_deg)
    return Number("stands-to", (f"stands to {gust(row.stands_to_m_s, field.style)}",), (f"at {tilt_deg:.0f}°, {locked}",), (x + 14.0 * cos(radians(tilt_deg)), y), "right")  # fmt: skip


def _lowest_edge(field: Field, tilt_deg: float) -> Number:
    here, g = field.tilts.at[field.tilts.place_of(tilt_deg)], field.answer.geometry
    corner = field.on_array(tilt_deg, -g.lower_m, g.glass_above_m - g.depth_m)
    wanted = field.tilts.setting.mount.clear_below_m
    words = dimension(here.lowest_edge_m, field.style, 1)
    low = here.lowest_edge_m < wanted
    beside = f"lowest edge{', too low' if low else ''}"
    return Number("lowest-edge", (words,), (beside,), corner, "edge", "rust" if low else "ink")


def _rod(field: Field, tilt_deg: float) -> Number | None:
    here = field.tilts.at[field.tilts.place_of(tilt_deg)]
    if here.rod_shows_m is None or here.rod is None:
        return None
    pin, foot = rod_ends(field, tilt_deg)
    middle = (foot[0] * 0.6 + pin[0] * 0.4, foot[1] * 0.6 + pin[1] * 0.4)
    pulls = here.rod.wind_pull_n >= -here.rod.wind_push_n
    force = in_style(here.rod.wind_pull_n if pulls else -here.rod.wind_push_n, "N", field.style)
    word = "pulls" if pulls else "pushes"
    proved = field.answer.more.refit is not None and field.answer.more.refit.proved
    return Number("rod", (f"rod out {rod_words(here.rod_shows_m, field.style, proved)}",), (f"wind {word} {force}",), middle, "right")  # fmt: skip


def _first_gives(field: Field, tilt_deg: float) -> Number:
    row = _row(field, tilt_deg)
    use = dict(field.tilts.at[field.tilts.place_of(tilt_deg)].uses).get(row.gives_first)
    beside = () if use is None else (f"by the code {use_of(use)}",)
    return Number("first-gives", (f"first gives: {row.gives_first}",), beside, place_of_part(field, row.gives_first, tilt_deg), "right", "rust")  # fmt: skip


def _sun(field: Field, sun: Sun, noon_deg: float, day_words: str, fault: str) -> Number:
    at = sun_at(field, max(noon_deg, 0.0))
    if sun is None:
        beside = (
            ("could not be worked", "it is tried again") if fault else (f"the sun of {day_words}",)
        )
        return Number("sun", ("not yet",), beside, at, "sun")
    low, middle, high = (f"{wh / 1000.0:.1f}" for wh in sun)
    return Number(
        "sun",
        (f"{middle} kWh, {day_words}",),
        (f"dull {low}, bright {high}", "snow off the glass"),
        at,
        "sun",
    )


def _use(field: Field, word: str, at: Point, tilt_deg: float, side: str, key: str, *begins: str) -> Number | None:  # fmt: skip
    most = field.tilts.at[field.tilts.place_of(tilt_deg)].most_used(*begins)
    if most is None:
        return None
    gives = most[1] > 1.0
    return Number(key, (f"{word} {use_of(most[1])}",), (), at, side, "rust" if gives else "ink")


def _pole(field: Field, tilt_deg: float) -> Number | None:
    g = field.answer.geometry
    at = field.at(field.answer.pipe.outside_m / 2.0, g.hinge_height_m * 0.3)
    made = _use(field, "pole", at, tilt_deg, "right", "pole", "pole")
    return None if made is None else replace(made, beside=(field.answer.pipe.written,))


def _pier(field: Field, tilt_deg: float) -> Number | None:
    pier = field.answer.pier
    at = field.at(-pier.diameter_m / 2.0, -pier.depth_m * 0.72)
    made = _use(field, "pier", at, tilt_deg, "left", "pier", "pier", "soil", "weak soil")
    soil = next((row for row in field.answer.rows if (row.section, row.key) == ("place", "soil")), None)  # fmt: skip
    if made is None or soil is None:
        return made
    across = f"{dimension(pier.diameter_m, field.style, 1)} across"
    if not soil.unsettled:
        return replace(made, beside=(across,))
    head = tuple(
        re.sub(r"(\d+ of)", r"~\1", words, count=1) for words in made.head
    )  # it rests on a guess
    return replace(made, head=head, beside=(across,), colour="ochre" if made.colour == "ink" else made.colour)  # fmt: skip


def _top(field: Field, tilt_deg: float) -> Number:
    here, limit = field.tilts.at[field.tilts.place_of(tilt_deg)], field.tilts.setting.place.height_limit_m  # fmt: skip
    g = field.answer.geometry
    corner = field.on_array(tilt_deg, g.upper_m, g.glass_above_m)
    head = f"top {dimension(here.top_height_m, field.style, 1)}"
    if limit is None:
        return Number("top", (head,), ("no height limit told",), corner, "right")
    spare = limit - here.top_height_m
    word = "under the limit" if spare >= 0.0 else "over the limit"
    words = f"{dimension(abs(spare), field.style, 1)} {word}"
    return Number("top", (head,), (words,), corner, "right", "rust" if spare < 0.0 else "ink")


def _heap(field: Field) -> Number | None:
    t, setting = field.tilts, field.tilts.setting
    if setting.place.ground_snow_pa <= 0.0:
        return None
    middle = -field.answer.geometry.lower_m * cos(radians(setting.mount.winter_tilt_deg))
    both = dimension(t.heap_m + t.lying_m, field.style, 1)
    at = field.at(middle - t.heap_m * 0.55, t.heap_m * 0.5)
    return Number("heap", (f"snow heap {dimension(t.heap_m, field.style, 1)}",), (f"to {both}, hard winter",), at, "left")  # fmt: skip


def place_of_part(field: Field, name: str, tilt_deg: float) -> Point:
    """Where a part is, by the words it is called with."""
    return next((at for words, at in _places(field, tilt_deg) if any(word in name for word in words)), field.hinge)  # fmt: skip


def _places(field: Field, tilt_deg: float) -> Iterator[tuple[tuple[str, ...], Point]]:
    g, pier, setting = field.answer.geometry, field.answer.pier, field.tilts.setting
    half = field.answer.pipe.outside_m / 2.0
    arm = 0.0 if setting.lock is None else setting.lock.arm_m
    yield ("storm hold",), field.on_array(tilt_deg, min(arm, g.upper_m * 0.8), g.beam_clear_m)
    yield ("modules", "clamps"), field.on_array(tilt_deg, g.upper_m * 0.72, g.glass_above_m)
    yield ("rails",), field.on_array(tilt_deg, g.upper_m * 0.5, g.glass_above_m - g.depth_m)
    yield ("hinge", "nothing holds"), field.hinge
    yield ("cap bolts",), field.at(half * 1.7, g.hinge_height_m - g.pole_top_below_m)
    yield ("below the ground", "in its concrete", "under the pole"), field.at(half, -pier.depth_m * 0.22)  # fmt: skip
    yield ("pier", "soil"), field.at(pier.diameter_m / 2.0, -pier.depth_m * 0.3)
    yield ("strongback",), field.on_array(tilt_deg, setting.beam.breadth_m / 2.0, g.beam_clear_m - setting.beam.depth_m / 2.0)  # fmt: skip
    yield ("pole",), field.at(half, pier.collar_m + 0.15)
    if setting.drive is not None:
        pin, foot = rod_ends(field, tilt_deg)
        yield ("rod", "actuator"), ((pin[0] + foot[0]) / 2.0, (pin[1] + foot[1]) / 2.0)


def slider_words(field: Field, tilt_deg: float) -> str:
    """What the handle says of itself to those who do not see it."""
    row = _row(field, tilt_deg)
    here = field.tilts.at[field.tilts.place_of(tilt_deg)]
    speed = gust_step(row.stands_to_m_s, field.style)
    unit = "miles an hour" if field.style == "feet" else "metres a second"
    return (
        f"{tilt_deg:.0f} degrees, stands to {speed:.0f} {unit}, {row.gives_first} gives first, "
        f"lowest edge {length_words(here.lowest_edge_m, field.style)}"
    )


def length_words(metres: float, style: str) -> str:
    """A length spoken: whole inches, or metres to the centimetre.

    Example:
        >>> length_words(1.25, "feet"), length_words(0.3048, "feet"), length_words(1.25, "metric")
        ('4 feet 1', '1 foot', '1.25 metres')
    """
    if style != "feet":
        return f"{number(metres, 2)} metres"
    feet, inches = divmod(round(in_unit(metres, "in")), 12)
    word = "foot" if feet == 1 else "feet"
    if not feet:
        return f"{inches} inches"
    return f"{feet} {word} {inches}" if inches else f"{feet} {word}"
