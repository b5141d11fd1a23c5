"""Prices built past the reader of price sentences, which is another room's."""

from __future__ import annotations

from polestead.homestead.model import Prices

_SENTENCES_READ = {"fuel_per_l": 0.7, "fuel_rise": 0.0}  # as reading "2.65 per gal", "0 %" gives it


def prices(lines=None, currency="$", **more) -> Prices:
    """The section, with two honest lines unless others are given."""
    fields = {
        **_SENTENCES_READ,
        "engine_hour": 0.5,
        "concrete_per_m3": None,
        "bought_mount": None,
        "bought_hours": None,
    }
    lines = {"modules": 1400.0, "pole and steel": 2100.0} if lines is None else lines
    return Prices.model_construct(currency=currency, lines=lines, **{**fields, **more})
