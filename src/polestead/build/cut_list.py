"""The cut list: for each material the pieces of it, the lengths the yard sells, and the best bars to buy."""

from __future__ import annotations

from collections.abc import Sequence

from polestead.build.bars import CuttingPlan, Sold, Wanted
from polestead.build.cutting import cutting_plan
from polestead.build.given import FOOT_M, Given
from polestead.build.pieces.piece import Piece, StockKind

# Lengths sold where the file has none: common practice, no source.
FEET: dict[StockKind, tuple[float, ...]] = {"pole": (21 * FOOT_M,), "tube": (20 * FOOT_M, 24 * FOOT_M), "rebar": (20 * FOOT_M,), "round": (12 * FOOT_M,)}  # fmt: skip
METRIC: dict[StockKind, tuple[float, ...]] = {"pole": (6.0, 12.0), "tube": (6.0, 7.5), "rebar": (6.0,), "round": (3.0,)}  # fmt: skip


def cut_list(g: Given, pieces: Sequence[Piece]) -> tuple[CuttingPlan, ...]:
    """A plan for each material that is cut from bought lengths, in the order of the list.

    Args:
        g: What is built.
        pieces: The marked pieces.
    """
    materials = dict.fromkeys(p.material for p in pieces if p.cut_from is not None)
    return tuple(_plan(g, material, [p for p in pieces if p.material == material and p.cut_from is not None]) for material in materials)  # fmt: skip


def lengths_sold_m(g: Given, kind: StockKind) -> tuple[float, ...]:
    """Lengths the yard sells of a kind of stock."""
    return _said(g)[kind] or (METRIC if g.metric else FEET)[kind]


def lengths_guessed(g: Given, pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Kinds of stock that are cut here and whose lengths the file does not give.

    Args:
        g: What is built.
        pieces: The marked pieces.
    """
    named: dict[StockKind, str] = {"pole": "pipe", "tube": "tube", "rebar": "reinforcing bar", "round": "round bar"}  # fmt: skip
    kinds = dict.fromkeys(p.cut_from for p in pieces if p.cut_from is not None)
    return tuple(named[kind] for kind in kinds if not _said(g)[kind])


def _said(g: Given) -> dict[StockKind, tuple[float, ...]]:
    return {
        "pole": g.shop.pole_lengths_m, "tube": g.shop.tube_lengths_m,
        "rebar": g.shop.rebar_lengths_m, "round": g.shop.round_lengths_m,
    }  # fmt: skip


def _plan(g: Given, material: str, pieces: list[Piece]) -> CuttingPlan:
    per_m = g.prices.stock.get(material)
    lengths = dict.fromkeys(length for p in pieces if p.cut_from for length in lengths_sold_m(g, p.cut_from))  # fmt: skip
    sold = [Sold(length, None if per_m is None else per_m * length) for length in lengths]
    wanted = [Wanted(p.mark, p.length_m, p.count) for p in pieces if p.length_m is not None]
    return cutting_plan(wanted, sold, g.kerf_m, material)
