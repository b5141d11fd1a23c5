"""String fuses: when, how large, and what pushes back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.base.table import table
from polestead.wiring.strings.fuses import FUSE_CHECK, fuse_checks, fuse_rating_a, string_fuse
from polestead.wiring.strings.label import new_label
from tests.wiring.demos import SPRUCE

LABEL = replace(new_label(SPRUCE[1]), series_fuse_a=25.0)  # 14 A


def test_from_three_strings_each_wants_a_fuse():
    """14 A x 1.5625 = 21.875: 25 A; three strings push 2 x 17.5 = 35 A back."""
    one, two, three = (string_fuse(LABEL, n, (), 190.8) for n in (1, 2, 3))
    assert (one.wanted, two.wanted, three.wanted) == (False, False, True)
    assert (one.back_feed_a, two.back_feed_a, three.back_feed_a) == (0.0, 17.5, 35.0)
    assert three.rating_a == 25.0
    assert three.bears_v == 190.8
    assert "at least 191 V direct current" in three.words
    assert all(check.holds for check in fuse_checks(three))
    assert (one.rating_a, two.rating_a) == (None, None)


def test_two_strings_that_push_back_more_than_the_label_bears_want_one_too():
    weak = string_fuse(replace(LABEL, series_fuse_a=15.0), 2, (), 190.8)
    assert weak.wanted
    (check,) = fuse_checks(weak)
    assert check.name == FUSE_CHECK
    assert not check.holds  # 25 A wanted for 21.9 A, the label bears 15 A: no fuse fits


def test_where_the_clause_lets_three_strings_off_it_is_told():
    """5 A: the other two push 12.5 A back, the label bears 15."""
    small = replace(LABEL, short_circuit_current_a=5.0, series_fuse_a=15.0)
    fuse = string_fuse(small, 3, (), 100.0)
    assert fuse.wanted
    assert fuse.rating_a == 8.0  # 7.8 A
    assert "would let it off" in fuse.words


def test_strings_of_another_array_count_and_push_with_their_own_current():
    fuse = string_fuse(LABEL, 2, ((5.9, 4),), None)
    assert fuse.strings == 6
    assert fuse.back_feed_a == pytest.approx(1.25 * (14.0 + 4 * 5.9))
    assert "its voltage at the record low" in fuse.words


def test_a_label_nobody_has_read_is_no_yes():
    unread = replace(LABEL, series_fuse_a=None)
    assert "A label that bears less" in string_fuse(unread, 2, (), 190.8).words
    three = string_fuse(unread, 3, (), 190.8)
    assert fuse_checks(three) == ()
    assert "no larger than the module's label allows" in three.words


def test_the_kind_follows_the_code():
    assert "IEC 60269-6" in string_fuse(LABEL, 3, (), 190.8, "IEC").words
    assert "gPV" not in string_fuse(LABEL, 3, (), 190.8).words
    assert (fuse_rating_a(13.5), fuse_rating_a(13.5, "IEC")) == (14.0, 15.0)
    assert (fuse_rating_a(15.2), fuse_rating_a(15.2, "IEC")) == (20.0, 16.0)


def test_current_no_fuse_is_made_for_is_refused():
    huge = string_fuse(replace(LABEL, short_circuit_current_a=45.0), 3, (), 190.8)
    assert huge.rating_a is None
    assert not fuse_checks(huge)[0].holds


def test_the_ratings_rise():
    for code in ("NEC", "IEC"):
        listed = [float(row["rating_a"]) for row in table("wiring", "strings/fuses") if row["code"] == code]  # fmt: skip
        assert listed == sorted(set(listed))


@given(st.floats(0.5, 40.0), st.integers(1, 12))
def test_one_string_more_never_pushes_back_less(amps, strings):
    label = replace(LABEL, short_circuit_current_a=amps)
    fewer, more = (string_fuse(label, n, (), 100.0) for n in (strings, strings + 1))
    assert more.back_feed_a > fewer.back_feed_a
    assert more.wanted >= fewer.wanted
    if more.rating_a is not None:
        assert more.rating_a >= 1.5625 * amps - 1e-9
