"""What every page of the book is made from, and the words all of them share."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import ceil, floor
from typing import Any, TypeVar

from polestead.answer.answer import Answer
from polestead.answer.drawables import Drawables
from polestead.base.row import Row
from polestead.base.show import (
    Style,
    dimension,
    gust,
    in_style,
    length,
    number,
    rod_words,
    set_out,
    signed,
    significant,
)
from polestead.build.calendar import Calendar
from polestead.build.cards.card import Card, Figure
from polestead.homestead.read import OwnersFile
from polestead.morning.week import WeekLeaf
from polestead.sheets.book.blocks import Block, Picture, picture, raised
from polestead.sheets.leaf import Paper
from polestead.sheets.sentences import fault_of
from polestead.sheets.verdict import failing

T = TypeVar("T")
Drawn = Callable[..., str]  # called without arguments: the SVG, inked for paper
MOST_FAULTS = 3
SHOWN_UNITS = ("m", "m^2", "m^3", "m/s", "kg", "N", "N m", "Pa", "C", "l", "l/h")


@dataclass(frozen=True, slots=True, eq=False)
class Matter:
    """What a book is made from.

    Attributes:
        owners: The owner's file.
        answer: Its answer.
        style: Feet and inches, or metric.
        paper: Letter or A4.
        on: Day of the print; None leaves a blank.
        cards: One for each act, in order.
        drawings: By name; each gives its SVG, inked for paper, when it is called without arguments.
        drawn_from: What the cards' sketches are drawn from; None leaves them out.
        calendar: Acts, sign-offs and chores by date; None where no first day was given.
        week: The week leaf; None where it was not asked for, since it is of one day only.
        kept: What several leaves share, worked once.
    """

    owners: OwnersFile
    answer: Answer
    style: Style
    paper: Paper
    on: date | None
    cards: Sequence[Card]
    drawings: Mapping[str, Drawn]
    drawn_from: Drawables | None = None
    calendar: Calendar | None = None
    week: WeekLeaf | None = None
    kept: dict[str, Any] = field(default_factory=dict)

    def once(self, name: str, work: Callable[[], T]) -> T:
        """What several leaves of one book share: worked when it is first wanted."""
        if name not in self.kept:
            self.kept[name] = work()
        made: T = self.kept[name]
        return made

    @property
    def warning(self) -> str:
        """The top line of every page where something gives, else nothing."""
        return warning_of(self.answer)

    def written(self, row: Row) -> str:
        """A row's value as the owner wrote it; in the other units where these pages have them."""
        if self.style == self.owners.homestead.units or isinstance(row.value, str) or row.unit not in SHOWN_UNITS:  # fmt: skip
            return signed(row.written)
        return length(row.value, self.style) if row.unit == "m" else in_style(row.value, row.unit, self.style)  # fmt: skip

    def drawn(self, name: str) -> Picture | None:
        """A drawing by its name; None where there is none."""
        draw = self.drawings.get(name)
        return None if draw is None else picture_of(draw())

    def shown(self, name: str, wide: str = "100%", high: str = "") -> list[Block]:
        """The drawing as a block, or nothing."""
        made = self.drawn(name)
        return [] if made is None else [picture(made, wide, high)]


def warning_of(answer: Answer) -> str:
    """What the top line of every page says where something gives.

    It says so too where all of it stands only when laid flat.
    """
    broken = failing(answer)
    if not broken:
        return "" if answer.stand.verdict == "stands" else "THE SUMS SAY NO: it stands only when laid flat" if answer.stand.verdict == "stands only when laid flat" else "THE SUMS SAY NO"  # fmt: skip
    told = [fault_of(answer, check).replace("gives: ", "") for check in broken[:MOST_FAULTS]]
    more = len(broken) - len(told)
    return f"THE SUMS SAY NO: {'; '.join(told)}{f'; and {more} more' if more else ''}"


def guessed_of(answer: Answer) -> str:
    """What the foot of every page says of wind, snow, frost and soil nobody has confirmed; empty where somebody has."""
    count = sum(row.section == "place" and row.standing == "assumed" for row in answer.rows)
    return f"{count} {'fact' if count == 1 else 'facts'} of the place guessed" if count else ""


_WORDS = re.compile(r"<desc>(.*?)</desc>", re.DOTALL)
_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)


def picture_of(svg: str) -> Picture:
    """A drawing with the words it carries itself."""
    from html import unescape

    found = [unescape(one.group(1)) for one in (_TITLE.search(svg), _WORDS.search(svg)) if one]
    return Picture(svg, ". ".join(found) or "A drawing")


ROUNDED = ("V", "s")  # whole from ten on: nothing hangs on the digit behind it
_WAYS: Mapping[str, Callable[[float], float]] = {"up": ceil, "down": floor}


def rounded(figure: Figure) -> str:
    """Volts and seconds as a person says them, to the side the card asks for: what must be borne up, a limit down.

    Example:
        >>> rounded(Figure(190.2, "V", "", way="up")), rounded(Figure(250.0, "V", "", way="down")), rounded(Figure(139.6, "s", ""))
        ('191 V', '250 V', '140 s')
        >>> rounded(Figure(0.85, "V", "two metals apart"))
        '0.85 V'
    """
    if abs(figure.value) < 10.0:
        return f"{significant(figure.value, 3)} {figure.unit}"
    whole = _WAYS.get(figure.way, round)(round(figure.value, 6))
    return f"{number(whole)} {figure.unit}"


def said_alike(figure: Figure, style: Style) -> str | None:
    """A figure that paper and terminal say in the same words; None where each has its own."""
    if figure.rod:
        return rod_words(figure.value, style, figure.rod == "proved")
    if figure.unit == "m/s":
        return gust(figure.value, style)
    if figure.unit == "d":  # a wait is never shown shorter than it is
        return days_words(figure.value)
    return rounded(figure) if figure.unit in ROUNDED else None


def figure_words(figure: Figure, style: Style) -> str:
    """A card's big figure.

    Example:
        >>> figure_words(Figure(2.5908, "m", "deep"), "feet"), figure_words(Figure(3, "", "bars"), "feet")
        ('8′-6″', '3')
        >>> figure_words(Figure(0, "", "", "#5 bar"), "feet"), figure_words(Figure(1.7, "m^3", ""), "feet")
        ('#5 bar', '2.22 yd³')
    """
    if figure.text:
        return raised(figure.text)
    alike = said_alike(figure, style)
    if alike is not None:
        return alike
    if figure.unit == "m":
        return dimension(set_out(figure.value, style, figure.way), style)
    if figure.unit == "deg":
        return f"{number(figure.value, 0 if figure.value == round(figure.value) else 1)}°"
    if figure.unit == "C":
        return (
            f"{number(figure.value)} °C"
            if style == "metric"
            else in_style(figure.value, "C", style)
        )
    if figure.unit == "":
        return number(figure.value, 0 if figure.value == round(figure.value) else 2)
    return raised(in_style(figure.value, figure.unit, style))


def high_of(svg: str) -> float:
    """Height of a drawing, in its own units."""
    return float(svg.partition('viewBox="')[2].partition('"')[0].split()[3])


def days_words(days: float) -> str:
    """A wait in whole days, rounded up.

    Example:
        >>> days_words(1.0), days_words(8.4)
        ('1 day', '9 days')
    """
    whole = ceil(days - 1e-9)
    return f"{whole} {'day' if whole == 1 else 'days'}"
