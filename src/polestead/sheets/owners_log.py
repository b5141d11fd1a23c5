"""What a homestead file brings to its daybook: words known there, what the house can be, chores of this house."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from polestead.base.show import Style
from polestead.build.chores import chore_words
from polestead.daybook.chores import Due, asks_of, dues
from polestead.daybook.daybook import Daybook
from polestead.daybook.entry import Entry
from polestead.daybook.house import House, house_of
from polestead.daybook.words import Known
from polestead.homestead.read import OwnersFile
from polestead.sheets.gust_rows import eye_ladder, force_ladder
from polestead.sheets.log import UNPROVED


def house_in(owners: OwnersFile, style: Style) -> House:
    """What the file knows of the house, against slips of the pen.

    Args:
        owners: The file as read.
        style: Whose units.
    """
    file = owners.homestead
    return house_of(file.mount, file.household, file.array, style)


def dues_in(book: Daybook, owners: OwnersFile, today: date) -> tuple[Due, ...]:
    """Chores of this house by its daybook.

    Args:
        book: The daybook.
        owners: The file as read.
        today: The day.
    """
    file = owners.homestead
    living = file.we_are == "living with it"
    asks = asks_of(file.household, file.drive, file.place.latitude_deg, stands=living)
    return dues(book.entries(), today, asks)


def known_in(owners: OwnersFile) -> Known:
    """What the words of a line are read by.

    Args:
        owners: The file as read.
    """
    exposure = owners.homestead.place.exposure
    return Known(_tilt_of_rod(owners), eye_ladder(exposure), force_ladder(exposure), chore_words())


def _tilt_of_rod(owners: OwnersFile) -> Callable[[float], float] | None:
    drive, mount = owners.homestead.drive, owners.homestead.mount
    if drive is None:
        return None

    def tilt(rod_m: float) -> float:
        from polestead.mount.gauge import gauge_of, tilt_at_rod

        return tilt_at_rod(gauge_of(drive, mount.least_tilt_deg, mount.steepest_tilt_deg), rod_m)

    return tilt


def unproved_rod(entry: Entry, owners: OwnersFile) -> list[str]:
    """What is to be said of a tilt made from the rod while its table is unproved.

    Args:
        entry: What was written.
        owners: The file as read.
    """
    if entry.rod_m is None or owners.homestead.drive is None:
        return []
    from polestead.mount.pins import as_measured

    fit = as_measured(owners.homestead.drive)[1]
    return [] if fit is not None and fit.proved else [UNPROVED]
