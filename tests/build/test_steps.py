"""The order has no ring, and nothing passes a gate unsigned."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from polestead.build.steps import ACTS, SIGN_OFFS, STEPS, in_order, may_sign, waits_for

NAMES = [act.name for act in ACTS]
GATES = [gate.name for gate in SIGN_OFFS]


def test_the_order_holds_every_act_and_gate_once_each_after_what_it_needs() -> None:
    order = in_order()
    assert sorted(order) == sorted([*NAMES, *(f"gate: {name}" for name in GATES)])
    for act in ACTS:
        for need in (*act.needs, *(f"gate: {name}" for name in act.behind)):
            assert order.index(need) < order.index(act.name)
    for gate in SIGN_OFFS:
        for need in gate.after:
            assert order.index(need) < order.index(f"gate: {gate.name}")
    assert len(STEPS) == len(order)


def test_a_ring_and_a_name_that_is_not_there_are_refused() -> None:
    ring = tuple(replace(act, needs=("first travel",)) if act.name == "locate" else act for act in ACTS)  # fmt: skip
    with pytest.raises(ValueError, match="each waits"):
        in_order(ring)
    with pytest.raises(ValueError, match="not there: dance"):
        in_order((*ACTS, replace(ACTS[0], name="feast", needs=("dance",))))


def test_every_gate_stands_before_something() -> None:
    assert {name for act in ACTS for name in act.behind} == set(GATES)


@given(st.sets(st.sampled_from(NAMES)), st.sets(st.sampled_from(GATES)))
def test_nothing_behind_an_unsigned_gate_may_start(done: set[str], signed: set[str]) -> None:
    """Walk back over all needs: if any gate on the way is unsigned, the act waits, whatever is ticked."""
    by_name = {act.name: act for act in ACTS}

    def gates_behind(name: str) -> set[str]:
        act = by_name[name]
        return set(act.behind).union(*(gates_behind(need) for need in act.needs))

    for name in NAMES:
        if gates_behind(name) - signed:
            assert waits_for(name, done, signed)


def test_pour_waits_for_the_footing_gate_alone_and_steel_for_the_clock() -> None:
    before = {"ask", "locate", "stake", "trench", "hole", "aim"}
    assert waits_for("pour", before, ()) == ("gate: footing",)
    assert waits_for("pour", before, ("footing",)) == ()
    ready = {*before, "pour", "shop", "weld", "coat"}
    assert waits_for("lift", ready, ("footing", "test piece")) == ("gate: bare steel",)
    # the pour was ticked without its gate: it does not count
    assert "pour" in waits_for("lift", ready, ("test piece", "bare steel"))
    assert may_sign("footing", {"ask", "locate"}, ()) == ("aim",)
