"""Pieces, plates, bolts and metals, by hand."""

from __future__ import annotations

import itertools
from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.quantity import read_quantity
from polestead.base.show import Style, cut_length, sawn
from polestead.build.build import build_of
from polestead.build.cut_list import lengths_sold_m
from polestead.build.pieces.bolts import bolt_length_m, bolt_row, joints_of, turn_past_snug
from polestead.build.pieces.coating import coating_of, meet
from polestead.build.pieces.ground import twist_bar_m
from polestead.build.pieces.held import clamp_count
from polestead.build.pieces.piece import Piece, priced
from polestead.build.pieces.plates import area_m2, ear_outline, plates_of
from polestead.stand.parts.frame import HOLE_BELOW
from tests.build.given import changed, demo

INCH, FOOT, POUND = 0.0254, 0.3048, 0.45359237


def pieces(name: str = "hollow-spruce", **sections: dict[str, object]) -> dict[str, Piece]:
    return {piece.name: piece for piece in build_of(changed(name, **sections)).pieces}


def test_lengths_and_weights_of_the_first_demo_by_hand() -> None:
    listed = pieces()
    # 8 ft 6 in in the pier, 11 ft hinge less 8 in: 18 ft 10 in of 8 in schedule 80 at 43.4 lb/ft
    assert listed["pole"].length_m == pytest.approx((8.5 + 11.0 - 8.0 / 12.0) * FOOT)
    assert listed["pole"].mass_kg == pytest.approx(18.8333 * 43.4 * POUND, rel=0.003)
    # four modules of 1134 mm and three gaps of 3/4 in; HSS 6x6x1/4 at 19.02 lb/ft (AISC Manual)
    width = 4 * 1.134 + 3 * 0.75 * INCH
    assert listed["strongback"].length_m == pytest.approx(width)
    assert listed["strongback"].mass_kg == pytest.approx(width / FOOT * 19.02 * POUND, rel=0.01)
    # two modules of 1762 mm and a slot of 1-1/2 in; HSS 4x2x1/8 at 4.75 lb/ft (AISC Manual), eight of them
    chord = 2 * 1.762 + 1.5 * INCH
    assert (listed["rail"].count, listed["rail"].length_m) == (8, pytest.approx(chord))
    assert listed["rail"].mass_kg == pytest.approx(8 * chord / FOOT * 4.75 * POUND, rel=0.015)
    # pin: 1 in middle, two 1/16 in gaps, two 3/4 in ears, 1-1/4 in beyond each side = 5-1/8 in; pi/4 x 1.25^2 x .2836 lb/in3
    pin = listed["hinge pin"]
    assert pin.length_m == pytest.approx(5.125 * INCH)
    assert pin.mass_kg == pytest.approx(2 * pi / 4 * 1.25**2 * 5.125 * 0.2836 * POUND, rel=0.002)
    # strut: 5 ft pin to pin and 2 x 2 x 3/4 in
    assert listed["strut of the storm hold"].length_m == pytest.approx(63.0 * INCH)
    assert listed["twist bar"].length_m == pytest.approx(0.8 * 0.9144)
    assert listed["module"].mass_kg == pytest.approx(8 * 48 * POUND)


def test_sixteenths_are_kept() -> None:
    """What is shown can be marked: the exact length is no farther than 1/32 in from it."""
    for piece in build_of(demo("hollow-spruce")).pieces:
        if piece.length_m is not None:
            shown = read_quantity(cut_length(piece.length_m, "feet"), "length")
            assert abs(shown - piece.length_m) <= INCH / 32.0 + 1e-9


@pytest.mark.parametrize("style", ["feet", "metric"])
def test_a_bar_adds_up_as_it_is_shown_and_no_piece_is_marked_too_long(style: Style) -> None:
    """Bar, pieces, a cut for each and what is left, all read back from their words."""
    built = build_of(demo("cinder-mesa"))
    long = {piece.mark: piece.long(style) for piece in built.pieces}
    for plan in built.cut_list:
        for bar in plan.bars:
            words = [sawn(cut.length_m, style) for cut in bar.cuts]
            assert words == [
                long[cut.mark] for cut in bar.cuts
            ]  # list of pieces and cut list say one figure
            said = [read_quantity(one.replace(",", ""), "length") for one in words]
            assert style == "feet" or all(one.endswith(" mm") and "." not in one for one in words)
            assert all(0.0 <= cut.length_m - one < 0.001 for cut, one in zip(bar.cuts, said, strict=True)) or style == "feet"  # fmt: skip
            left, bought = (read_quantity(sawn(one, style).replace(",", ""), "length") for one in (bar.left_m(plan.kerf_m, style), bar.stock_m))  # fmt: skip
            over = bought - sum(said) - len(said) * plan.kerf_m - left
            assert -1e-9 <= over < 0.001 if style == "metric" else abs(over) < 1e-6


def test_what_the_file_leaves_out_is_told_and_not_guessed() -> None:
    bare = build_of(changed("hollow-spruce", frame={"rail": None, "ear_thickness_m": None}))
    words = " ".join(bare.not_given)
    assert "rails' section" in words
    assert "hinge ears" in words
    rail = next(piece for piece in bare.pieces if piece.name == "rail")
    assert (rail.material, rail.mass_kg, rail.cut_from) == ("not given", None, None)
    assert not any(plate.name == "hinge ear" for plate in bare.plates)
    assert all(piece.price is None or piece.price > 0.0 for piece in bare.pieces)


def test_a_cage_is_listed_with_its_cover() -> None:
    listed = pieces(footing={"cage_bars": 8, "cage_bar_m": 0.5 * INCH})
    bar = listed["cage bar, upright"]
    # 9 ft 6 in and 4 in less 3 in at both ends: 9 ft 4 in
    assert (bar.count, bar.length_m) == (8, pytest.approx(112.0 * INCH))
    assert bar.mass_kg == pytest.approx(
        8 * 112 / 12 * 0.668 * POUND, rel=0.005
    )  # No. 4: .668 lb/ft


def test_a_twist_bar_keeps_its_cover_in_a_thin_pier() -> None:
    assert twist_bar_m(0.5) == pytest.approx(0.5 - 2 * 3 * INCH)


def test_a_sleeve_through_the_frost_is_listed_with_two_plies() -> None:
    listed = pieces(footing={"sleeve": "smooth tube and two plies"})
    assert listed["form tube"].length_m == pytest.approx((63 + 4) * INCH)
    assert listed["plastic sheet round the tube"].count == 2


def test_prices_come_from_the_file_or_not_at_all() -> None:
    prices = demo("hollow-spruce").prices.model_copy(update={"stock": {"HSS 4x2x1/8 A500 C": 20.0}})
    listed = pieces(prices={"stock": {"HSS 4x2x1/8 A500 C": 20.0}})
    assert listed["rail"].price == pytest.approx(8 * listed["rail"].length_m * 20.0)  # type: ignore[operator]
    assert listed["module"].price == 1180.0
    assert (listed["pole"].price, listed["pole"].paid_in) == (None, "pole_and_strongback")
    assert listed["rod bracket on the pole"].paid_in == ""
    (odd,) = priced([Piece("bushing", 2, "bronze", None, None, "")], prices)
    assert (odd.price, odd.paid_in) == (None, "")
    plan = next(p for p in build_of(changed("hollow-spruce", prices={"stock": {"HSS 4x2x1/8 A500 C": 20.0}})).cut_list if "4x2" in p.material)  # fmt: skip
    assert plan.price == pytest.approx(4 * 24 * FOOT * 20.0)  # whole bars are paid, not pieces


def test_the_shop_says_what_it_sells() -> None:
    assert lengths_sold_m(demo("hollow-spruce"), "tube") == (20 * FOOT, 24 * FOOT)
    assert lengths_sold_m(demo("slieve-moss"), "tube") == (6.0, 7.5)
    own = changed("hollow-spruce", shop={"tube_lengths_m": (5.0,), "kerf_m": 0.004})
    assert lengths_sold_m(own, "tube") == (5.0,)
    assert own.kerf_m == 0.004
    assert demo("hollow-spruce").kerf_m == pytest.approx(INCH / 8)
    assert demo("slieve-moss").kerf_m == 0.003
    short = build_of(changed("hollow-spruce", shop={"tube_lengths_m": (4.0,)}))
    back = next(plan for plan in short.cut_list if "6x6" in plan.material)
    assert "longer than any bar" in back.too_long[0]
    assert back.bars == ()


@given(st.integers(1, 6), st.integers(1, 5), st.integers(1, 3), st.booleans())
def test_every_module_end_is_clamped_once(columns: int, rows: int, rails: int, slot: bool) -> None:
    clamps = clamp_count(columns, rows, rails, 2 * rails, 0.02, 0.04 if slot else 0.0)
    assert 2 * clamps.middle + clamps.end == clamps.places == columns * rows * 2 * rails


def test_a_line_without_clamps_is_not_listed() -> None:
    assert "middle clamp" not in pieces()
    assert pieces("cinder-mesa")["middle clamp"].count == 8


# plates


@given(st.floats(0.05, 0.4), st.floats(0.03, 0.15), st.floats(0.02, 0.1))
def test_an_ear_has_its_edge_all_round_and_stands_on_its_foot(foot: float, height: float, edge: float) -> None:  # fmt: skip
    line = ear_outline(foot, height, edge)
    assert min(y for _, y in line) == pytest.approx(0.0, abs=1e-12)
    closed = [*line, line[0]]
    for (x1, y1), (x2, y2) in itertools.pairwise(closed):
        long = hypot(x2 - x1, y2 - y1)
        off = abs((x2 - x1) * (height - y1) - (y2 - y1) * (0.0 - x1)) / long
        assert off >= min(edge, height) - 1e-9  # the hole's middle to the line of every side
        assert (x2 - x1) * (height - y1) - (y2 - y1) * (
            0.0 - x1
        ) > -1e-9  # against the clock, the hole inside
    assert area_m2(line) > pi * edge**2 / 2.0


def test_the_ear_of_the_first_demo_by_hand() -> None:
    ear = next(plate for plate in plates_of(demo("hollow-spruce")) if plate.name == "hinge ear")
    # foot 8 in, hole 3 in up, round of 2-1/2 in: height 5-1/2 in.  From the foot's corner (4, 0) to the hole (0, 3) it is 5 in,
    # the touching line is sqrt(25 - 6.25) = 4.330 long.  Area: half base 4 x 3 triangle 6, tangent triangle .5 x 4.330 x 2.5 = 5.413,
    # each twice; the sector from tangent to tangent over the top: corner direction -36.87 deg, half angle at the hole
    # acos(2.5 / 5) = 60, so the tangent point lies at 23.13 deg; sector 180 - 46.26 = 133.74 deg: .5 x 6.25 x 2.334 = 7.294
    area = 2 * (6.0 + 5.413) + 7.294 - pi / 4 * 1.28125**2
    assert ear.count == 4
    assert ear.mass_kg == pytest.approx(area * 0.75 * 0.2836 * POUND, rel=0.002)
    assert max(y for _, y in ear.outline_m) == pytest.approx(5.5 * INCH, rel=0.002)
    assert ear.holes[0].diameter_m == pytest.approx((1.25 + 1 / 32) * INCH)


def test_the_cap_wrap_goes_once_round_and_its_holes_lie_where_they_were_summed() -> None:
    given = demo("hollow-spruce")
    wrap = next(plate for plate in plates_of(given) if plate.kind == "wrap")
    around = pi * 8.625 * INCH
    assert max(x for x, _ in wrap.outline_m) == pytest.approx(around)
    xs = [hole.x_m for hole in wrap.holes]
    gaps = [b - a for a, b in itertools.pairwise(xs)] + [xs[0] + around - xs[-1]]
    assert gaps == pytest.approx([around / 6] * 6)
    top = max(y for _, y in wrap.outline_m)
    assert top - wrap.holes[0].y_m == pytest.approx(HOLE_BELOW * 0.75 * INCH)
    assert wrap.checks[0].holds
    crowded = changed("hollow-spruce", frame={"cap_bolts": 24})
    assert not next(p for p in plates_of(crowded) if p.kind == "wrap").checks[0].holds


def test_the_hold_plate_has_a_hole_for_every_tilt_the_file_names() -> None:
    given = demo("cinder-mesa")
    plate = next(p for p in plates_of(given) if p.name == "plate of the storm hold")
    assert [hole.name for hole in plate.holes] == ["0 deg", "15 deg", "58 deg", "70 deg"]
    for hole in plate.holes:
        assert hypot(hole.x_m, hole.y_m) == pytest.approx(3 * FOOT)
    a, b = plate.holes[0], plate.holes[1]
    # chord of 15 degrees on 36 in: 2 x 36 x sin 7.5 = 9.398 in
    assert hypot(a.x_m - b.x_m, a.y_m - b.y_m) / INCH == pytest.approx(9.398, abs=0.001)
    assert plate.thickness_m is None
    assert "not given" in plate.notes[0]
    near = changed("cinder-mesa", mount={"summer_tilt_deg": 1.0})
    assert not all(c.holds for p in plates_of(near) if p.name == "plate of the storm hold" for c in p.checks)  # fmt: skip


# bolts


def test_bolt_lengths_by_hand() -> None:
    # 3/4 in through two plates of 1/2 in with two washers: 1 + 2 x 5/32 + 1 = 2-5/16, sold as 2-1/2
    assert bolt_length_m(1.0 * INCH, 0.75 * INCH, 2) == pytest.approx(2.5 * INCH)
    # M20 through 30 mm, one washer: 30 + 3 + 23 = 56, sold as 60
    assert bolt_length_m(0.030, 0.020, 1) == pytest.approx(0.060)
    assert bolt_length_m(0.030, 0.021) is None
    assert bolt_row(0.01905)["size"] == "3/4 in"  # type: ignore[index]


@given(st.floats(0.005, 0.2), st.floats(0.0, 0.05))
def test_a_longer_grip_never_takes_a_shorter_bolt(grip: float, more: float) -> None:
    assert (bolt_length_m(grip + more, 0.01905) or 0.0) >= (bolt_length_m(grip, 0.01905) or 0.0) >= grip + 0.0254  # fmt: skip


def test_only_high_strength_bolts_are_turned_past_snug() -> None:
    sleeve = {"split_sleeve_play_m": 0.0016}
    turns = {
        steel: joints_of(changed("hollow-spruce", frame={**sleeve, "cap_bolt_steel": steel}))[
            0
        ].turn_share
        for steel in ("A307", "A325", "8.8")
    }
    # two walls of 1/2 in and play: 1.063 + .156 + 1 = 2.22, sold as 2-1/4: three diameters, a third of a turn
    assert turns == {"A307": None, "A325": pytest.approx(1 / 3), "8.8": None}
    assert joints_of(demo("hollow-spruce"))[0].length_m is None  # the cap's wall is not in the file
    assert turn_past_snug(13 * 0.019, 0.019) is None


# metals


def test_the_chart_is_of_his_own_metals() -> None:
    def metals(**sections: dict[str, object]) -> set[str]:
        return {m for pair in coating_of(changed("hollow-spruce", **sections)) for m in (pair.one, pair.other)}  # fmt: skip

    assert {"zinc", "bare steel"} <= metals()
    assert "bare steel" not in metals(frame={"finish": "galvanized", "cap_bolts": None})
    assert "zinc" not in metals(frame={"finish": "painted"})
    wires = {p.where for p in coating_of(changed("hollow-spruce", run={"metal": "aluminium"}))}
    assert "run cable in its lugs" in wires
    assert "run cable in its lugs" not in {p.where for p in coating_of(demo("hollow-spruce"))}


@given(st.sampled_from(["copper", "zinc", "aluminium", "bare steel"]), st.sampled_from(["copper", "zinc", "aluminium", "bare steel"]))  # fmt: skip
def test_the_less_noble_one_is_eaten_whichever_is_named_first(one: str, other: str) -> None:
    pair, back = meet("", one, other, ""), meet("", other, one, "")
    assert pair.apart_v == back.apart_v
    assert pair.eaten == back.eaten
    assert (pair.eaten == "") == (one == other)
    rank = [
        "copper",
        "bare steel",
        "aluminium",
        "zinc",
    ]  # seawater order of the same four, noble first, is alike
    if one != other:
        assert rank.index(pair.eaten) == max(rank.index(one), rank.index(other))


def test_what_carries_pins_beyond_the_strongback_is_a_piece_that_nobody_has_told() -> None:
    """The strongback lies on the hinge and is 6 in wide; the pins of hold, prop and rod stand 3 ft from it."""
    g = demo("cinder-mesa")
    built = build_of(g)
    arm = next(piece for piece in built.pieces if piece.name == "arm on the strongback")
    assert arm.to_weigh
    assert "storm hold 3 ft, prop 3 ft, rod 3 ft" in arm.where
    assert any("arm (or arms)" in one for one in built.not_given)
    assert any("arm on the strongback" in weld.place for weld in built.welds)
    assert any("arm on the strongback" in one for lift in built.lifts for one in lift.unweighed)
    assert not any("and the strongback" in plate.where for plate in built.plates)
