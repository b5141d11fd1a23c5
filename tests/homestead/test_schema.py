"""The schema of the file, and the names the model gives to keys."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from polestead.base.quantity import SI_UNIT
from polestead.homestead.demos import demo_names, demo_path
from polestead.homestead.fields import Section, dimension_of, key_of
from polestead.homestead.model import Homestead
from polestead.homestead.schema import homestead_schema
from polestead.homestead.standing import section_class

SCHEMA = homestead_schema()
KINDS: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str, date),
    "boolean": (bool,),
    "integer": (int,),
    "number": (int, float),
}


def misfits(value: Any, rule: dict[str, Any], at: str = "") -> Iterator[str]:
    """Where a value breaks a rule; the few words of JSON Schema that ours uses."""
    if "$ref" in rule:
        rule = SCHEMA["$defs"][rule["$ref"].removeprefix("#/$defs/")]
    if "anyOf" in rule and all(list(misfits(value, one)) for one in rule["anyOf"]):
        yield f"{at}: {value!r} fits none of {rule['anyOf']}"
    if "enum" in rule and value not in rule["enum"]:
        yield f"{at}: {value!r} is none of {rule['enum']}"
    kinds = rule.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    if kinds and not any(
        isinstance(value, KINDS[kind]) and (kind == "boolean" or not isinstance(value, bool))
        for kind in kinds
    ):
        yield f"{at}: {value!r} is no {kinds}"
        return
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if is_number and not rule.get("minimum", value) <= value <= rule.get("maximum", value):
        yield f"{at}: {value} out of bounds"
    if isinstance(value, dict):
        known, rest = rule.get("properties", {}), rule.get("additionalProperties", True)
        yield from (
            f"{at}: {key} is missing" for key in rule.get("required", []) if key not in value
        )
        for key, inner in value.items():
            if key in known:
                yield from misfits(inner, known[key], f"{at}.{key}")
            elif rest is False:
                yield f"{at}: {key} is not known"
            elif isinstance(rest, dict):
                yield from misfits(inner, rest, f"{at}.{key}")
    if isinstance(value, list) and "items" in rule:
        for number, inner in enumerate(value, start=1):
            yield from misfits(inner, rule["items"], f"{at}.{number}")


def sections(model: type[Section] = Homestead) -> Iterator[type[Section]]:
    yield model
    for info in model.model_fields.values():
        inner = section_class(info)
        if inner is not None:
            yield from sections(inner)


@pytest.mark.parametrize("name", demo_names())
def test_every_demo_fits_the_schema(name: str) -> None:
    assert list(misfits(tomllib.loads(demo_path(name).read_text(encoding="utf-8")), SCHEMA)) == []


@pytest.mark.parametrize(
    ("section", "key", "value"),
    [
        ("mount", "hinge_height", 11),
        ("mount", "hinge_hight", "11 ft"),
        ("place", "soil", "peat"),
        ("place", "wind_speed", {"guessed": "100 mph"}),
        ("array", "columns", "4"),
        ("array", "columns", 0),
        ("footing", "twist_bars", 1),
        ("prices", "fuel", 2.15),
        ("household", "battery", "large"),
    ],
)
def test_what_the_reader_refuses_does_not_fit_the_schema(
    section: str, key: str, value: Any
) -> None:
    raw = tomllib.loads(demo_path("hollow-spruce").read_text(encoding="utf-8"))
    raw[section][key] = value
    assert list(misfits(raw, SCHEMA))


def test_the_schema_is_json_and_every_default_in_it_has_its_source() -> None:
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA
    fields = [
        field
        for part in SCHEMA["$defs"].values()
        for field in part.get("properties", {}).values()
        if "default" in field
    ]
    assert len(fields) > 30
    assert all(field["x-source"] for field in fields)


def test_every_quantity_of_the_schema_names_its_dimension_and_its_units() -> None:
    quantities = [
        kind
        for part in SCHEMA["$defs"].values()
        for field in part.get("properties", {}).values()
        for kind in field.get("anyOf", [])
        if "x-dimension" in kind
    ]
    assert len(quantities) > 60
    assert all(kind["x-dimension"] in SI_UNIT and kind["x-units"] for kind in quantities)


def test_no_two_fields_of_a_section_share_a_key() -> None:
    for section in sections():
        keys = [key_of(name) for name in section.model_fields]
        assert len(keys) == len(set(keys)), section.__name__


def test_a_field_that_is_a_quantity_ends_in_its_unit() -> None:
    ends = {"length": "_m", "mass": "_kg", "force": "_n", "pressure": "_pa", "speed": "_m_s", "temperature": "_c",
            "angle": "_deg", "voltage": "_v", "current": "_a", "power": "_w", "charge": "_ah", "time": "_s",
            "volume": "_l", "fuel rate": "_l_h", "share per degree": "_per_k"}  # fmt: skip
    for section in sections():
        for name, info in section.model_fields.items():
            dimension = dimension_of(info)
            if dimension in ends:
                assert name.endswith(ends[dimension]), f"{section.__name__}.{name}"
                assert key_of(name) == name.removesuffix(ends[dimension])
