"""The service the owner consented to, asked for his place."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import numpy as np

from polestead.morning.basis import Basis
from polestead.morning.forecast.forecast import Forecast
from polestead.morning.forecast.met_norway import MetNorway
from polestead.morning.forecast.service import Asked, fetched

SEASON_DAYS = 20


def service_forecast(basis: Basis, now: datetime, kept: Path, base: str | None = None) -> Forecast:
    """Ask it, or take what is kept.

    Args:
        basis: Of the homestead, with the consent in it.
        now: The owner's clock, local standard time.
        kept: Where the reply is kept.
        base: Another scheme and host, for trying it out.
    """
    facts = basis.facts
    about = (now.timetuple().tm_yday - 1 + np.arange(-SEASON_DAYS, SEASON_DAYS + 1)) % 365
    air = basis.air_c[:, about]
    asked = Asked(
        facts.latitude_deg, facts.longitude_deg, facts.elevation_m, facts.clock_offset_h, facts.contact, facts.asked_every_s,
        (float(air.min()), float(air.max())), kept,
    )  # fmt: skip
    return fetched(MetNorway(), asked, now, base)
