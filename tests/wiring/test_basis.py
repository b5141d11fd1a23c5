"""The basis: three codes, topic by topic, and questions where local rules differ."""

from __future__ import annotations

import pytest

from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.wiring.basis import NAMES, asks_of, basis_of, countries_near


def place(code: str, latitude: float = 47.9, longitude: float = -91.4):
    found = read_homestead(demo_path("hollow-spruce")).homestead.place
    return found.model_copy(
        update={"electrical_code": code, "latitude_deg": latitude, "longitude_deg": longitude}
    )


def test_all_three_speak_on_the_same_topics_once_each() -> None:
    topics = [[rule.topic for rule in basis_of(name).rules] for name in NAMES]
    assert topics[0] == topics[1] == topics[2]
    assert len(set(topics[0])) == len(topics[0]) >= 10
    with pytest.raises(KeyError):
        basis_of("NEC").on("no such thing")


@pytest.mark.parametrize("name", NAMES)
def test_each_says_who_says_so_and_asks_something(name: str) -> None:
    basis = basis_of(name)
    assert basis.editions
    for rule in basis.rules:
        assert rule.source.status in {"seen", "seen-copy", "memory"}
        assert rule.source.place or rule.source.status == "memory"
    asks = asks_of(place(name), 190.0, 3.0)
    assert len(asks) >= 6
    assert all(ask.whom and ask.question.endswith("?") and ask.trap for ask in asks)
    assert all("{" not in ask.question for ask in asks)


@pytest.mark.parametrize("name", ["NEC", "Canada"])
def test_arcs_are_asked_from_80_volts_and_shut_off_where_wire_is_in_the_house(name: str) -> None:
    def asked(cold_v: float, in_house_m: float) -> str:
        return " ".join(ask.question for ask in asks_of(place(name), cold_v, in_house_m))

    assert "arc-fault" in asked(80.0, 3.0)
    assert "arc-fault" not in asked(79.9, 3.0)
    assert "rapid shutdown" in asked(190.0, 0.1)
    assert "rapid shutdown" not in asked(190.0, 0.0)


def test_a_countrys_own_questions_come_where_the_place_lies_near_it_and_last() -> None:
    far = asks_of(place("IEC", 46.9, 8.2), 190.0, 3.0)
    assert {ask.country for ask in far} == {""}
    irish = asks_of(place("IEC", 54.2, -8.2), 190.0, 3.0)
    assert [ask.country for ask in irish][: len(far)] == [""] * len(far)
    assert {"Ireland", "United Kingdom"} <= {ask.country for ask in irish}
    assert {a.country for a in asks_of(place("IEC", -33.9, 151.2), 190.0, 3.0)} == {"", "Australia"}
    assert {a.country for a in asks_of(place("IEC", -41.3, 174.8), 190.0, 3.0)} == {"", "New Zealand"}  # fmt: skip
    # The box of a country means nothing under another code.
    assert {a.country for a in asks_of(place("NEC", 54.2, -8.2), 190.0, 3.0)} == {""}


@pytest.mark.parametrize(
    ("town", "latitude", "longitude", "country"),
    [("Dublin", 53.35, -6.26, "Ireland"), ("London", 51.5, -0.1, "United Kingdom"), ("Lerwick", 60.15, -1.15, "United Kingdom"),
     ("Perth", -31.95, 115.86, "Australia"), ("Hobart", -42.9, 147.3, "Australia"), ("Invercargill", -46.4, 168.35, "New Zealand"),
     ("Galway", 53.27, -9.05, "Ireland")],
)  # fmt: skip
def test_towns_lie_where_they_lie(town: str, latitude: float, longitude: float, country: str) -> None:  # fmt: skip
    assert country in countries_near(latitude, longitude), town
