"""The doubts as text: what moves the answers most first, each with the act that settles it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from polestead.base.row import Row
from polestead.base.show import Style, gust, number, signed
from polestead.offers.doubts import RANKED, Ranked
from polestead.offers.reach import Bearing, Reach
from polestead.sheets.lines import heading, say
from polestead.sheets.sentences import use_of

LITTLE = 0.25  # points under which a row is told to move next to nothing; ours


def doubts_text(name: str, found: Sequence[Ranked], style: Style) -> str:
    """All doubts of a homestead for the terminal.

    Args:
        name: Of the homestead.
        found: As ranked.
        style: Units of what is shown.
    """
    return "\n".join(_lines(name, found, style))


def _lines(name: str, found: Sequence[Ranked], style: Style) -> Iterator[str]:
    much = [one for one in found if matters(one)]
    little = [one for one in found if one.reach is not None and not matters(one)]
    unknown = [one for one in found if one.reach is None]
    yield say(f"{name}: what nobody has confirmed, and how far each moves the answers", "")
    yield heading("Doubts that matter most")
    if not much:
        yield say("None: over its plausible span no unconfirmed row moves an answer by a step you would act on.")  # fmt: skip
    for place, one in enumerate(much, start=1):
        yield say(f"{place}. {_key(one)} ~{one.doubt.row.told}. {doubt_span(one)}.", "  ", "     ")
        if one.reach is not None:
            for words in reach_words(one.reach, style):
                yield say(words, "     ", "     ")
            yield say(f"Span: {one.reach.span.source}.", "     ", "     ")
        yield say(f"Settle it: {one.in_full}", "     ", "     ")
        if one.doubt.trap:
            yield say(f"Trap: {one.doubt.trap}", "     ", "     ")
    if little:
        yield heading("These move next to nothing over their spans")
        yield say("; ".join(f"{_key(one)} ~{one.doubt.row.told}" for one in little) + ".")
    if unknown:
        yield heading("No span is known for the rest; that is not to say they do nothing")
        guesses = [one for one in unknown if one.doubt.row.standing == "assumed"]
        if guesses:
            yield say("Assumed: " + "; ".join(f"{_key(one)} ~{one.doubt.row.told}" for one in guesses) + ".")  # fmt: skip
        yield say(f"And {len(unknown) - len(guesses)} defaults of the tool, which polestead answer lists.")  # fmt: skip
    yield ""
    yield say(f"{RANKED} Each is moved alone, the others as they stand. Screening sums, not a stamped design.", "")  # fmt: skip


def matters(one: Ranked) -> bool:
    """Whether a doubt moves an answer by enough to be told at the top."""
    return one.reach is not None and one.reach.points >= LITTLE


def doubt_name(row: Row) -> str:
    """A row's place in the file in words.

    Example:
        >>> doubt_name(Row("place", "frost_depth", "63 in", 1.6, "m", "assumed"))
        'place frost depth'
    """
    return f"{row.section} {row.key}".strip().replace("_", " ").replace(".", " ")


def doubt_span(one: Ranked) -> str:
    """The ends that were tried."""
    if one.reach is None:
        return ""
    return "It might be " + " or ".join(signed(end.written) for end in one.reach.span.variants)


def reach_words(reach: Reach, style: Style) -> Iterator[str]:
    """What an answer is with the row as it stands and at each end, a sentence an answer."""
    if reach.turns:
        yield "The verdict turns on it."
    for end, tried in zip(reach.ends, reach.span.variants, strict=True):
        if end.refused:
            yield f"{tried.written[0].upper()}{tried.written[1:]} was not tried; it contradicts the rest of the file: {end.refused}"
    every = [reach.base, *(end for end in reach.ends if not end.refused)]
    gusts = [one.weakest_gust_m_s for one in every if one.weakest_gust_m_s is not None]
    if gusts and gust(min(gusts), style) != gust(max(gusts), style):
        yield f"The weakest tilt stands to {gust(min(gusts), style).split()[0]} to {gust(max(gusts), style)}; as it stands {gust(gusts[0], style)}."  # fmt: skip
    yield from _uses(every)
    hours = [one.engine_h for one in every if one.engine_h is not None]
    if hours:
        yield f"Engine {number(min(hours))} to {number(max(hours))} h in a mean year; as it stands {number(hours[0])}."  # fmt: skip
    rooms = [one.room_v for one in every if one.room_v is not None]
    if rooms:
        yield f"In the coldest dawn {_volts(min(rooms))} to {_volts(max(rooms))} V of room under the controller's limit; as it stands {_volts(rooms[0])}."  # fmt: skip


def _uses(every: Sequence[Bearing]) -> Iterator[str]:
    asked = [one for one in every if one.most_used is not None]
    if not asked:
        return
    worst = max(asked, key=lambda one: one.most_used or 0.0)
    if worst.most_used == asked[0].most_used:
        return
    yield f"Of what is used most, {worst.part} {use_of(worst.most_used or 0.0)}; as it stands {asked[0].part} {use_of(asked[0].most_used or 0.0)}."  # fmt: skip


def _volts(value: float) -> str:
    """Room, rounded down."""
    return number(value // 1.0)


def _key(one: Ranked) -> str:
    return doubt_name(one.doubt.row)
