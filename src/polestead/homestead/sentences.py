"""Sentences of data read into plain values: a pole, a use, a price per litre."""

from __future__ import annotations

from polestead.homestead.words import PoleWords, Use


def pole_words(written: object) -> PoleWords:
    """Read a pole: ``8 in schedule 80 A53 B`` or ``measured 8-5/8 in outside, 0.32 in wall, unknown steel``."""
    raise NotImplementedError


def use_words(name: str, written: object) -> Use:
    """Read a use: ``900 W, 20 min after breakfast``."""
    raise NotImplementedError


def price_per_l(written: object) -> float:
    """Read a fuel price: ``2.60 per gal``."""
    raise NotImplementedError
