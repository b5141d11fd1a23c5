"""Spots in words: what each brings and costs, and the trees that grow."""

from __future__ import annotations

from polestead.answer.spots import SpotRank
from polestead.base.show import Style, length, number, percent
from polestead.sun.trees import GrowingTrees


def spot_words(spot: SpotRank, style: Style) -> str:
    """What one spot brings and costs."""
    limit = "" if spot.height_limit_m is None else f" of {length(spot.height_limit_m, style)} allowed"  # fmt: skip
    return (
        f"{number(spot.winter_wh / 1000.0)} kWh in the three darkest months, {number(spot.year_wh / 1000.0)} a year; "
        f"run {length(spot.run_m, style)}, {percent(spot.drop_share, 1)} lost in full sun; {spot.soil}, "
        f"pier and soil use {number(100.0 * spot.pier_use)} of 100; top {length(spot.top_m, style)}{limit}."
    )


def trees_words(told: GrowingTrees) -> str:
    """What growing trees will take of the shortest day."""
    last = len(told.left_by_year) - 1
    noon = (
        f"the noon sun of the shortest day goes behind them in {told.noon_cut_in_years} years"
        if told.noon_cut_in_years
        else "they stand before the noon sun of the shortest day already"
        if told.noon_cut_in_years == 0
        else f"the noon sun of the shortest day stays clear of them for {last} years"
    )
    lost = "" if told.tenth_lost_in_years is None else f"; a tenth of that day's sun is lost in {told.tenth_lost_in_years} years"  # fmt: skip
    return f"As they grow, {noon}{lost}. Today they leave {percent(told.left_by_year[0])} of it, in {last} years {percent(told.left_by_year[-1])}."
