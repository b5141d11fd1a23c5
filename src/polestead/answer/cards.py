"""The cards, the calendar's cure and the aim of a file, without the weather and the house."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, cast

from polestead.answer.stands import given_only, stand_only, wires_of
from polestead.base.show import Style
from polestead.build.aim import aim_of
from polestead.build.build import build_of
from polestead.build.calendar import Calendar, calendar_of
from polestead.build.cards.card import Card
from polestead.build.cards.cards import cards_of
from polestead.build.cards.known import Known
from polestead.build.cure import Cure, cured_by
from polestead.homestead.read import OwnersFile
from polestead.mount.gauge import Gauge, gauge_of
from polestead.mount.schedule import two_tilts
from polestead.site.table import monthly_climate
from polestead.stand.result import StandResult
from polestead.wiring.drawn.form import form_of

if TYPE_CHECKING:
    from polestead.wiring.trench.trench import Trench


def known_of(
    owners: OwnersFile,
    on: date | None = None,
    cure: Cure | None = None,
    stand: StandResult | None = None,
    style: Style | None = None,
) -> Known:
    """All that the cards are made from.

    Args:
        owners: The file as read.
        on: The day the pole is aimed.
        cure: The cure clock, where the pour has been.
        stand: Gusts, where they were worked already.
        style: In whose units sentences are written; None: the file's.

    Raises:
        Wrong: No such pipe, tube or wire.
    """
    file = owners.homestead
    stand, wires = stand or stand_only(owners), wires_of(file)
    trench = cast("Trench", wires.trench)  # always there where the pole was looked at
    given = given_only(owners, wires, style)
    controller = next(one for one in file.household.controller if one.name == file.array.controller)
    return Known(
        given, build_of(given), stand, wires,
        trench,
        form_of(file.place, file.array, controller, wires.drop_share), _gauge(owners, stand), cure,
        None if on is None else aim_of(file.place, file.mount.facing_deg, on),
    )  # fmt: skip


def _gauge(owners: OwnersFile, stand: StandResult) -> Gauge | None:
    file = owners.homestead
    if file.drive is None:
        return None
    stances = [(stance.name, stance.tilt_deg) for stance in stand.stances]
    holes = () if file.lock is None else file.lock.holes_deg
    return gauge_of(file.drive, file.mount.least_tilt_deg, file.mount.steepest_tilt_deg, stances, holes)  # fmt: skip


def cards_only(
    owners: OwnersFile,
    on: date | None = None,
    poured: date | None = None,
    daily_c: Sequence[float | None] = (),
    stand: StandResult | None = None,
    style: Style | None = None,
) -> tuple[Card, ...]:
    """Every card.

    Args:
        owners: The file as read.
        on: The day the pole is aimed.
        poured: The day of the pour.
        daily_c: Mean of each 24 hours since the pour [C]; None where nobody looked.
        stand: Gusts, where they were worked already.
        style: In whose units sentences are written; None: the file's.
    """
    cure = None
    if poured is not None or daily_c:
        cure = cured_by(daily_c, owners.homestead.footing.concrete_pa, poured=poured)
    return cards_of(known_of(owners, on, cure, stand, style))


def air_by_month_c(owners: OwnersFile) -> tuple[float, ...]:
    """Mean air of each month, January first: the file's own, else the shipped table's [C].

    Args:
        owners: The file as read.
    """
    climate, place = owners.homestead.climate, owners.homestead.place
    own = climate.air_by_month_c if climate.source == "months" else ()
    return tuple(own or monthly_climate(place.latitude_deg, place.longitude_deg, place.elevation_m).air_c.tolist())  # fmt: skip


def calendar_only(
    owners: OwnersFile,
    start: date,
    poured: date | None = None,
    daily_c: Sequence[float | None] = (),
) -> Calendar:
    """Dates from a first day on; the cure clock takes the owner's readings, then the shipped table's mean air of each month.

    Args:
        owners: The file as read.
        start: The first day.
        poured: The day of the pour, where it is done.
        daily_c: Mean of each 24 hours since [C]; None where nobody looked.
    """
    file = owners.homestead
    place, means = file.place, air_by_month_c(owners)
    tilts = two_tilts(file.mount.winter_tilt_deg, file.mount.summer_tilt_deg, place.latitude_deg)
    return calendar_of(
        start, tilts, place.latitude_deg, file.footing.concrete_pa, means, poured=poured, daily_c=daily_c
    )  # fmt: skip
