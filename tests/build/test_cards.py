"""The cards of the demos: figures, cautions, gates, keys; and what a poorer file lacks."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from pydantic import BaseModel

from polestead.answer.cards import cards_only, known_of
from polestead.build.asking import asking_leaf
from polestead.build.cards.card import Card, Figure
from polestead.build.cards.cards import cards_of
from polestead.build.cards.ground import VERBS
from polestead.build.cards.known import Known
from polestead.build.cure import cured_by
from polestead.build.steps import act_named
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.fields import key_of
from polestead.homestead.model import Homestead
from polestead.homestead.read import read_homestead
from polestead.sheets.asking import asking_text
from polestead.sheets.cards import card_lines, cards_text, figure_text
from polestead.site.place import place_in_words

ON = date(2026, 6, 12)
ACTS = (
    "locate", "stake", "trench", "hole", "aim", "pour", "shop", "weld", "coat", "lift", "load modules", "wire", "test",
    "first travel", "pole-side", "stuck",
)  # fmt: skip
MUST_WARN = {"hole": "climb", "lift": "under", "weld": "zinc", "wire": "live", "first travel": "hinge", "trench": "deep", "pour": "burns", "load modules": "live", "aim": "hanging"}  # fmt: skip


@cache
def known(name: str) -> Known:
    return known_of(read_homestead(demo_path(name)), ON)


def acts(made: tuple[Card, ...]) -> dict[str, Card]:
    """All cards of an act as if they were one."""
    whole: dict[str, Card] = {}
    for card in made:
        before = whole.get(card.act)
        if before is None:
            whole[card.act] = card
            continue
        gate = before if before.gate is not None else card
        at = before.gate_after if before.gate is not None else None if card.gate_after is None else card.gate_after + card.first - 1  # fmt: skip
        whole[card.act] = replace(
            before, figures=before.figures + card.figures, steps=before.steps + card.steps, gate=gate.gate, gate_after=at,
            as_built=before.as_built + card.as_built, missing=before.missing + card.missing,
        )  # fmt: skip
    return whole


def cards(name: str) -> dict[str, Card]:
    return acts(cards_of(known(name)))


def changed(name: str, **sections: object) -> Known:
    base = known(name)
    return replace(base, given=replace(base.given, **sections))


@pytest.mark.parametrize("name", demo_names())
def test_every_card_has_three_to_seven_figures_steps_and_no_blank(name: str) -> None:
    made = cards_of(known(name))
    assert tuple(dict.fromkeys(card.act for card in made)) == ACTS
    assert len({card.key for card in made}) == len(made)
    for card in made:
        assert 3 <= len(card.figures) <= 7, card.title
        assert 2 <= len(card.steps) <= 9, card.title
        assert card.sketch
        assert all(figure.words and (figure.text or figure.unit or figure.value >= 0.0) for figure in card.figures)  # fmt: skip
        assert (card.gate is None) == (card.gate_after is None)
        if card.gate_after is not None:
            assert 0 <= card.gate_after < len(card.steps)


@pytest.mark.parametrize("name", demo_names())
def test_a_step_has_the_same_number_on_whichever_card_of_its_act_it_stands(name: str) -> None:
    for act in ACTS:
        own = [card for card in cards_of(known(name)) if card.act == act]
        assert [card.part for card in own] == list(range(1, len(own) + 1))
        assert {card.parts for card in own} == {len(own)}
        numbers = [card.first + nth for card in own for nth in range(len(card.steps))]
        assert numbers == list(range(1, len(numbers) + 1))
        assert sum(card.gate is not None for card in own) <= 1


@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize("style", ["feet", "metric"])
def test_words_of_the_cards_are_in_the_units_asked_for(name: str, style: str) -> None:
    base = known_of(read_homestead(demo_path(name)), style=style)
    other = r"\d (m|mm|cm|kg|C|MPa|kPa)\b" if style == "feet" else r"\d (ft|in|lb|psi|psf|F|mph)\b"
    for card in cards_of(base):
        words = [word for step in card.steps for word in (step.words, step.caution)]
        words += [one.words for one in card.figures] + [*card.notes, *card.missing]
        for word in words:
            assert not re.search(other, _without_trade_names(word)), word


def _without_trade_names(words: str) -> str:
    """A pipe is sold by its name in the land's own units."""
    pipes = r"(duct|of) ?\d+ (mm|in)|\d+ mm (duct|pipe|or wider)|[\d/ ]+ in PVC schedule \d+"
    return re.sub(pipes, "", words)


@pytest.mark.parametrize("name", demo_names())
def test_cautions_stand_at_the_step_they_belong_to(name: str) -> None:
    made = cards(name)
    for act, word in MUST_WARN.items():
        told = [step.caution for step in made[act].steps if step.caution]
        assert any(word in caution for caution in told), act
        assert all(caution[0].isupper() and "!" not in caution for caution in told)


def _at(card: Card, words: str) -> int:
    """Place of the one step that begins or goes on so."""
    (found,) = (nth for nth, step in enumerate(card.steps) if words in step.words)
    return found


@pytest.mark.parametrize("name", demo_names())
def test_nothing_is_asked_after_the_act_that_makes_it_too_late(name: str) -> None:
    made, k = cards(name), known(name)
    trench = made["trench"]
    if any(line.crosses_at_m is not None for line in k.trench.own.lines):
        assert _at(trench, "Lay your own lines bare") < _at(trench, "Dig from the house end")
        assert "no bucket" in trench.steps[_at(trench, "Lay your own lines bare")].caution
    aim = made[
        "aim"
    ]  # pole coated, drilled and its foot carried before it stands; nobody coats it under the concrete after
    assert "coated" in aim.steps[_at(aim, "Have the pole ready")].words
    assert _at(aim, "Have the pole ready") < _at(aim, "Lower the pole")
    under = [figure for figure in aim.figures if "block under its foot" in figure.words]
    gap = k.given.footing.depth_m - k.given.footing.pole_depth_m
    assert [one.value for one in under] == ([gap] if gap > 0.02 else [])
    assert not any("Coat the pole" in step.words for step in made["coat"].steps)
    assert not any("order" in note for note in made["pour"].notes)
    assert len([one for one in made["pour"].missing if "before you order" in one]) == len(k.built.concrete.doubts)  # fmt: skip
    loaded = made["load modules"]
    (by_leads,) = (nth for nth, step in enumerate(loaded.steps) if "by its leads" in step.caution)
    assert by_leads == _at(loaded, "Hang them in order")
    travel = made["first travel"]
    out = _at(travel, "storm hold out")
    assert "Hands out of the hinge" in travel.steps[out].caution
    assert out == _at(travel, "Move five degrees")
    assert _at(made["lift"], "Hang the actuator") > _at(made["lift"], "Set storm hold and prop")
    assert (
        "bare steel is signed"
        in made["weld"].steps[_at(made["weld"], "Write leg and length")].caution
    )
    tested = " ".join(step.words for step in made["test"].steps)
    assert "while the array is tilted" not in tested  # it is not moved before its first travel


def test_as_many_braces_and_hands_are_told_on_one_page_as_on_another() -> None:
    k = known("cinder-mesa")
    (bare,) = (one for one in k.given.half_built if one.name.startswith("bare pole"))
    told = [
        bare.words,
        " ".join(act_named("aim").tools),
        cards("cinder-mesa")["aim"].steps[2].words,
    ]
    assert not any(re.search(r"\b(three|four)\b", words) for words in told)
    assert all(re.search(r"\b(two|both)\b", words) for words in told)
    assert (
        act_named("connect").people >= act_named("test").people == 2
    )  # the same card says nobody alone


@pytest.mark.parametrize("name", demo_names())
def test_figures_are_those_of_file_and_results(name: str) -> None:
    k, made = known(name), cards(name)
    by_words = {act: {f.words: f for f in card.figures} for act, card in made.items()}
    assert by_words["hole"]["across, straight sides"].value == k.given.footing.diameter_m
    assert by_words["hole"]["soil that comes out, loose"].value == k.built.concrete.spoil_loose_m3
    assert by_words["weld"]["leg of the fillet, both alike"].value == k.given.frame.weld_leg_m
    uses = {c.part: c.use for c in k.stand.checks}
    assert by_words["weld"]["of it used by the code's wind"].text == f"{100 * uses['welds of the hinge ears']:.0f} of 100"  # fmt: skip
    stands = {s.name: s.stands_to_m_s for s in k.stand.stances}
    assert {line.name: line.stands_to_m_s for line in made["pole-side"].stances} == stands
    assert by_words["first travel"]["move only under this gust"].value == k.stand.move_under_m_s
    assert by_words["lift"]["up to the hinge axis"].value == k.given.mount.hinge_height_m
    assert by_words["wire"]["a string at the record low, with margin"].value == k.wires.cold_with_margin_v  # fmt: skip


@pytest.mark.parametrize("name", demo_names())
def test_what_is_measured_goes_back_to_keys_the_file_has(name: str) -> None:
    for card in cards(name).values():
        for item in card.as_built:
            model: type[BaseModel] = Homestead
            *sections, last = item.key.split(".")
            for part in sections:
                model = _section(model, part)
            assert last in {key_of(field) for field in model.model_fields}, item.key


def _section(model: type[BaseModel], key: str) -> type[BaseModel]:
    kind = model.model_fields[key].annotation
    for one in (kind, *getattr(kind, "__args__", ())):
        if isinstance(one, type) and issubclass(one, BaseModel):
            return one
    raise AssertionError(key)


def test_gates_stand_where_things_close() -> None:
    made = cards("cinder-mesa")
    trench = made["trench"]
    assert trench.gate is not None
    assert "Photograph" in trench.steps[trench.gate_after].words
    assert any("ribbon" in step.words for step in trench.steps[trench.gate_after + 1 :])
    test = made["test"]
    assert "insulation" in test.steps[test.gate_after].words
    assert "battery's breaker first" in test.steps[test.gate_after + 1].words
    assert "Bad: shiny" in made["weld"].steps[made["weld"].gate_after].words
    assert "Grind zinc" in made["weld"].steps[made["weld"].gate_after + 1].words
    assert made["aim"].gate.name == "footing"
    assert made["pour"].needs[-1] == "gate: footing"


@pytest.mark.parametrize("name", demo_names())
def test_every_thing_of_the_trench_has_its_verb(name: str) -> None:
    assert {item.what for item in known(name).trench.items} - {"SIGN-OFF"} <= VERBS.keys()


def test_holes_are_numbered_from_the_flattest_and_a_stance_without_one_says_so() -> None:
    k = known("hollow-spruce")  # storm flat 8, working 65, snow steep 75
    lock = k.given.lock.model_copy(update={"holes_deg": (75.0, 8.0, 30.0)})
    made = acts(cards_of(changed("hollow-spruce", lock=lock)))
    holes = {line.name: line.hole for line in made["pole-side"].stances}
    assert holes == {"working": None, "storm flat": 1, "snow steep": 3, "hail steep": 3}
    assert any(word.startswith("a hole at working") for word in made["pole-side"].missing)


def test_a_poorer_file_is_told_what_is_missing() -> None:
    k = known("hollow-spruce")
    frame = k.given.frame.model_copy(update={"weld_leg_m": None, "rail": None})
    trench = replace(k.trench, own=replace(k.trench.own, lines=()))
    poor = replace(k, given=replace(k.given, frame=frame, drive=None, lock=None, prop=None), gauge=None, aim=None, trench=trench)  # fmt: skip
    made = acts(cards_of(poor))
    assert any("frame.weld_leg" in word for word in made["weld"].missing)
    assert any("[drive]" in word for word in made["first travel"].missing)
    assert any("[lock]" in word for word in made["lift"].missing)
    assert any("--on" in word for word in made["aim"].missing)
    assert any("[prop]" in word for word in made["pole-side"].missing)
    for act in ("locate", "trench"):  # in words first, the place in the file behind them
        (asked,) = [word for word in made[act].missing if word.startswith("your own buried lines")]
        assert asked.index("how deep") < asked.index("[[buried]]")
    for card in made.values():
        assert len(card.figures) >= 3 or card.missing


def test_the_pour_card_carries_dates_once_temperatures_are_known() -> None:
    owners = read_homestead(demo_path("hollow-spruce"))
    made = cards_only(owners, poured=date(2026, 6, 1), daily_c=[20.0] * 10)
    pour = next(card for card in made if card.clock is not None)
    assert any(figure.text == "8 Jun 2026" for figure in pour.figures)  # 7 days at 20 C
    clock = cured_by([20.0] * 10, owners.homestead.footing.concrete_pa)
    assert {f.value for f in pour.figures if f.unit == "d"} == {clock.mark("modules").least_days}
    assert not pour.missing


@pytest.mark.parametrize("name", demo_names())
def test_cards_as_text_keep_their_columns_in_either_style(name: str) -> None:
    made = cards_of(known(name))
    for style in ("feet", "metric"):
        text = cards_text(name, made, style, ON)
        assert all(len(line) <= 78 for line in text.splitlines())
        for card in made:
            assert card.title.upper() in text
    flat = next(f for card in made for f in card.figures if f.words.startswith("locked flat"))
    drop = next(card for card in made if card.act == "pole-side" and card.part == 2)
    shown = float(figure_text(flat, "feet").split()[0])
    assert shown % 5.0 == 0.0
    assert shown * 0.44704 <= flat.value
    assert figure_text(Figure(8.4, "d", "wait"), "feet") == "9 days"
    assert any("EMERGENCY DROP" in line for line in card_lines(drop, "feet"))


SUBJECTS = ("wind", "snow", "frost", "record low", "soil", "height limit", "setback", "buried lines", "concrete", "steel")  # fmt: skip


@pytest.mark.parametrize("name", demo_names())
def test_the_asking_leaf_is_whole(name: str) -> None:
    owners = read_homestead(demo_path(name))
    file = owners.homestead
    leaf = asking_leaf(owners.rows, file.buried)
    assert tuple(line.subject for line in leaf) == SUBJECTS
    for line in leaf:
        assert line.whom and line.sentence.endswith(("?", ".")) and line.trap and line.write  # noqa: PT018
        section, _, key = line.key.partition(".")
        model = Homestead.model_fields[section].annotation
        assert not key or key in {key_of(field) for field in model.model_fields}
    assert next(line for line in leaf if line.subject == "wind").settled
    assert not next(line for line in leaf if line.subject == "concrete").settled
    text = asking_text(file.name, place_in_words(file.place), (), owners.rows, leaf)
    assert text.count("They say: ____") == 10
    assert all(len(line) <= 78 for line in text.splitlines())
