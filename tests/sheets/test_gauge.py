"""The rod gauge on paper: lengths at 1:1 read from the PDF's own drawing orders."""

from __future__ import annotations

import itertools
import re
from io import BytesIO

import pytest
from pypdf import PdfReader

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.gauge import Gauge, gauge_of
from polestead.sheets.gauge import gauge_leaves
from polestead.sheets.leaf import PAPERS, leaves_pdf
from tests.sheets.pdf_lines import straight_lines_mm

HOLES = (5.0, 15.0, 25.0, 35.0, 45.0, 55.0, 65.0, 75.0)


def _gauge(name: str) -> Gauge:
    file = read_homestead(demo_path(name)).homestead
    assert file.drive is not None
    mount = file.mount
    stances = (("storm flat", mount.least_tilt_deg + 3.0), ("snow steep", mount.steepest_tilt_deg))
    return gauge_of(file.drive, mount.least_tilt_deg, mount.steepest_tilt_deg, stances, HOLES)


def _pdf(name: str, paper) -> bytes:
    return leaves_pdf(gauge_leaves(_gauge(name), name, "7f3a", paper, None, "feet"), paper, "gauge")


def _upright(lines):
    return [(x1, min(y1, y2), max(y1, y2)) for x1, y1, x2, y2 in lines if abs(x1 - x2) < 1e-3]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_proof_bars_are_150_mm_and_6_in_to_a_tenth_of_a_millimetre(paper):
    pdf = _pdf("slieve-moss", paper)
    for page in range(len(PdfReader(BytesIO(pdf)).pages)):
        long = sorted(low - top for _, top, low in _upright(straight_lines_mm(pdf, page)) if 140.0 < low - top < 160.0)  # fmt: skip
        assert long == pytest.approx([150.0, 152.4], abs=0.1)  # a tenth: what a good rule shows


@pytest.mark.parametrize(("name", "paper"), [("slieve-moss", "a4"), ("hollow-spruce", "letter"), ("cinder-mesa", "a4")])  # fmt: skip
def test_ticks_of_a_strip_stand_as_far_apart_as_the_rod_moves(name, paper):
    gauge, pdf = _gauge(name), _pdf(name, paper)
    by_strip: dict[float, list[float]] = {}
    for x1, y1, x2, y2 in straight_lines_mm(pdf, 0):
        if abs(y1 - y2) < 1e-3 and any(abs(abs(x2 - x1) - long) < 1e-2 for long in (4.0, 9.0, 14.0)):  # fmt: skip
            by_strip.setdefault(round(min(x1, x2), 1), []).append(y1)
    ticks = sorted(by_strip[12.0], reverse=True)  # first strip, upwards from its foot
    rods = [mark.rod_m * 1000.0 for mark in gauge.degrees]
    gaps = [low - high for low, high in itertools.pairwise(ticks)]
    steps = [after - before for before, after in itertools.pairwise(rods)]
    # every gap is one degree's step, or two where a stop or stance stands in a tick's place
    assert len(gaps) >= 8
    for gap in gaps:
        both = steps + [a + b for a, b in itertools.pairwise(steps)]
        assert min(abs(gap - step) for step in both) < 0.1
    assert sum(gaps) == pytest.approx(ticks[0] - ticks[-1])


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_strips_overlap_so_that_every_degree_stands_on_one(paper):
    gauge = _gauge("hollow-spruce")
    leaves = gauge_leaves(gauge, "x", "7f3a", paper, None, "metric")
    text = " ".join(one.svg for one in leaves)
    for mark in gauge.degrees:
        if mark.tilt_deg % 10 == 0:
            assert f">{mark.tilt_deg:.0f}°<" in text
    size = PAPERS[paper]
    xs = [float(x) for x in re.findall(r' x="([-\d.]+)"', text)]
    assert min(xs) >= 5.0
    assert max(xs) <= size.width_mm - 5.0


def test_the_stamp_says_unproved_until_two_pairs_are_measured():
    unproved = PdfReader(BytesIO(_pdf("hollow-spruce", "letter"))).pages[0].extract_text()
    proved = PdfReader(BytesIO(_pdf("slieve-moss", "a4"))).pages[0].extract_text()
    assert "UNPROVED" in unproved
    assert "seconds: once proved" in unproved
    assert "UNPROVED" not in proved
    assert "PROVED" in proved
    assert "hold the out key" in proved


def test_the_same_gauge_gives_the_same_bytes():
    assert _pdf("slieve-moss", "a4") == _pdf("slieve-moss", "a4")
