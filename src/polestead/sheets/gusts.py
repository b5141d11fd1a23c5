"""The gust card, its states and the workings behind it, as text."""

from __future__ import annotations

from collections.abc import Iterator

from polestead.base.show import Style, gust, gust_asked, in_style, length, number, rod_words, wall
from polestead.mount.pins import TAPE_M
from polestead.sheets.sentences import use_of
from polestead.sheets.text import card_lines, heading, say
from polestead.sheets.working import working_lines
from polestead.stand.code import FLAT_DEG, FLAT_WITHIN_DEG
from polestead.stand.result import StandMore, StandResult, StateCard
from polestead.stand.setting import SET_WITHIN_DEG

ADVICE = (
    "Screening sums, not a stamped design. --working PART shows how a part was found; --state locked, rod, prop, moving or "
    '"half snow" shows one state.'
)
AS_SET = (
    f"Each as it is really set: what the weakest tilt within {SET_WITHIN_DEG:.0f}° of it stands to, "
    f"laid flat (under {FLAT_DEG:g}°) within {FLAT_WITHIN_DEG:.0f}°. So the card's own row may stand to more."
)


def gusts_text(name: str, stand: StandResult, more: StandMore, style: Style) -> str:
    """The card, every degree, and all that stands beside it."""
    return "\n".join(_lines(name, stand, more, style))


def _lines(name: str, stand: StandResult, more: StandMore, style: Style) -> Iterator[str]:
    yield f"{name}: gust card"
    yield ""
    yield from card_lines(stand, style, range(91))
    yield ""
    yield say(f"The code's own wind on the same scale: {gust_asked(stand.code_gust_m_s, style)}.")
    yield heading("State by state, at the weakest tilt of each")
    for card in stand.states:
        yield _state(card, style)
    yield heading("Four ways to leave it")
    yield say(AS_SET)
    for stance in stand.stances:
        yield say(
            f"{stance.name}, {stance.tilt_deg:.0f}°: {gust(stance.stands_to_m_s, style)}; first gives {stance.gives_first}. {stance.words}",
            "  ", "    ",
        )  # fmt: skip
    yield heading("Half built")
    for half in more.half_built:
        yield say(f"{half.name}: {gust(half.gust_m_s, style)}; {half.gives_first}. {half.words}", "  ", "    ")  # fmt: skip
    yield heading("What one change would do")
    yield from _changes(stand, more, style)
    yield from _rod(more, style)
    yield heading("Rust at the ground, bare steel, the code's check")
    for row in stand.rust:
        yield f"  after {row.years:2d} years  wall {wall(row.wall_m, style):>9}  {use_of(row.use)}"
    yield heading("What stands beside it")
    for note in stand.notes:
        yield say(note, "  * ", "    ")
    yield "  It relies on:"
    for relied in stand.relied_on:
        yield say(relied, "  * ", "    ")
    yield ""
    yield say(ADVICE, "")


def _state(card: StateCard, style: Style) -> str:
    place = card.weakest
    told = f"{card.tilt_deg[place]:.0f}°, {gust(card.gust_m_s[place], style)}: {card.gives_first[place]}"
    return say(f"{card.state} ({card.words}): {told}.", "  ", "    ")


def _rod(more: StandMore, style: Style) -> Iterator[str]:
    """The tape table, stamped unproved until two pairs are measured; and the limit of the geometry that governs."""
    if more.rod_table:
        proved = more.refit is not None and more.refit.proved
        yield heading(f"Rod that shows{'' if proved else ' - UNPROVED'}")
        yield "  tilt  rod shows       lever         seconds a degree, to cold and loaded"
        for row in more.rod_table:
            rated, cold = row.seconds_per_deg, row.cold_seconds_per_deg
            time = (
                "-"
                if rated is None or cold is None
                else f"{number(rated, 1)} to {number(cold, 1)} s"
            )
            yield f"  {row.tilt_deg:3.0f}°  {rod_words(row.rod_shows_m, style, proved):<14}  {length(row.arm_m, style):<12}  {time}"
        yield say(_proof(more, style))
    if more.rod_forces:
        yield ""
        yield "  tilt      weight   snow: pull, push      wind: pull, push    friction"
        for force in more.rod_forces:
            yield (
                f"  {force.tilt_deg:3.0f}°  {in_style(force.dead_n, 'N', style):>10}  {in_style(force.snow_pull_n, 'N', style):>9} {in_style(force.snow_push_n, 'N', style):>10}"
                f"  {in_style(force.wind_pull_n, 'N', style):>9} {in_style(force.wind_push_n, 'N', style):>10}  {in_style(force.friction_n, 'N', style):>9}"
            )
        yield say(
            "Along the rod, + pulls it out; uneven snow and the code's wind each as the check takes them."
        )
    yield say(
        f"In the code's wind the hinge moves {wall(more.leans_m, style)}, the pole alone bending; the soil adds to it."
    )
    if more.sleeve is not None:
        yield say(
            f"Split sleeve of the pole's own pipe: cut along, opened to a slot of {wall(more.sleeve.opens_m, style)}, filled with a strip of {wall(more.sleeve.strip_m, style)}."
        )
    yield say(
        f"Snow under the low edge, what lies and one fall shed: {use_of(more.heap.use)} of the room there is."
    )
    room = more.governing_room
    yield say(
        f"Of clearances, height and stroke the one that governs: {room.part}, {room.name} ({use_of(room.use)})."
    )


def _proof(more: StandMore, style: Style) -> str:
    fit = more.refit
    if fit is None:
        return "Unproved: measure rod and tilt together at two tilts or more, far apart, and write them under drive.measured."
    pairs = f"{fit.pairs} measured pair{'s' if fit.pairs > 1 else ''}"
    if not fit.believed:
        return f"Unproved: {pairs} off the table by {wall(fit.worst_miss_m, style)}, or by a pin two inches (50 mm) from its place: measure again; till then the plan counts."
    if fit.proved:
        return f"Laid on {pairs}, within {wall(fit.worst_miss_m, style)}."
    return f"Laid on {pairs}, off by {wall(fit.worst_miss_m, style)} at most: still unproved, for it takes two pairs at least 20° apart within {wall(TAPE_M, style)}."


def _changes(stand: StandResult, more: StandMore, style: Style) -> Iterator[str]:
    now = stand.first_gives_m_s
    for change in more.changes:
        price = "" if change.price is None else f"; concrete for {number(change.price)}"
        gained = "" if change.weakest_m_s > now + 0.5 else " (no more than now)"
        yield say(
            f"{change.words}: the weakest tilt stands to {gust(change.weakest_m_s, style)}{gained}, then {change.gives_first} gives first; "
            f"the code's check {use_of(change.worst_use)}{price}.",
            "  ", "    ",
        )  # fmt: skip
    pier, pins = more.smallest_pier, more.best_pins
    if pier is not None:
        yield say(
            f"The pier of least concrete that holds: {length(pier.diameter_m, style)} across, {length(pier.depth_m, style)} deep, "
            f"{in_style(pier.concrete_m3, 'm^3', style)} against {in_style(pier.as_planned_m3, 'm^3', style)} as it is; most used: {pier.governs}, {use_of(pier.use)}.",
            "  ", "    ",
        )  # fmt: skip
    if pins is not None:
        yield say(
            f"Pins where the actuator bears least, within your bounds or a third of where they are: frame pin {length(pins.pin_along_m, style)} along and "
            f"{length(pins.pin_below_m, style)} below, bracket {length(pins.bracket_out_m, style)} out and "
            f"{length(pins.bracket_below_m, style)} down: {in_style(pins.peak_n, 'N', style)} in place of {in_style(pins.peak_now_n, 'N', style)}.",
            "  ", "    ",
        )  # fmt: skip


def state_text(name: str, card: StateCard, style: Style) -> str:
    """One state, every degree, and the working of its weakest tilt."""
    lines = [f"{name}: {card.state}, {card.words}", "", "  tilt  stands to  gives first"]
    lines += [
        f"  {tilt:3.0f}°  {gust(speed, style):>9}  {part}"
        for tilt, speed, part in zip(card.tilt_deg, card.gust_m_s, card.gives_first, strict=True)
    ]
    lines += ["", *working_lines(card.working, style), "", say(ADVICE, "")]
    return "\n".join(lines)
