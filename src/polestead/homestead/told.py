"""What the validator found, told to the owner: section, key, given, allowed, what to do."""

from __future__ import annotations

from difflib import get_close_matches
from typing import Any, get_args

from annotated_types import Ge, Gt, Le, Lt
from pydantic import ValidationError
from pydantic.fields import FieldInfo

from polestead.base.problem import Problem
from polestead.base.quantity import SI_UNIT, in_unit
from polestead.base.show import number
from polestead.homestead.fields import Section, dimension_of, extra_of, key_of
from polestead.homestead.standing import Plain, section_class
from polestead.homestead.words import PoleWords

# The unit a limit is also told in, for owners who write feet.
TRADE_UNIT = {
    "length": "ft",
    "mass": "lb",
    "force": "lbf",
    "pressure": "psf",
    "speed": "mph",
    "temperature": "F",
    "volume": "gal",
    "fuel rate": "gal/h",
}


def told(wrong: ValidationError, plain: Plain, model: type[Section]) -> list[Problem]:
    """All errors of one validation as problems."""
    return [_problem(error, plain, model) for error in wrong.errors(include_url=False)]


def _field_at(model: type[Section], loc: tuple[Any, ...]) -> tuple[type[Section], FieldInfo | None]:
    """The section class and field that a location names."""
    here: type[Section] = model
    info: FieldInfo | None = None
    for part in loc:
        if isinstance(part, int):
            continue
        info = next((f for name, f in here.model_fields.items() if key_of(name) == part), None)
        inner = section_class(info) if info is not None else None
        if inner is not None:
            here = inner
        elif info is None:
            break
    return here, info


def _problem(error: Any, plain: Plain, model: type[Section]) -> Problem:
    loc = tuple(error["loc"])
    owner, info = _field_at(model, loc)
    words = [str(part + 1) if isinstance(part, int) else str(part) for part in loc]
    section, key = ".".join(words[:-1]), words[-1] if words else ""
    kind = error["type"]
    if kind == "missing":
        return _missing(section, key, info)
    if kind == "extra_forbidden":
        return _unknown(section, key, owner)
    allowed_words = next(
        (text for word, text in _IN_A_LIST.items() if word in words[:-1]), allowed(info)
    )
    path = tuple(words)
    given = plain.written.get(path, _shown(error.get("input")))
    if kind == "value_error":
        return Problem(section, key, given, allowed_words, _sentence(str(error["ctx"]["error"])))
    return Problem(section, key, given, allowed_words, _do(kind, info))


def _shown(given: Any) -> str:
    if isinstance(given, dict):
        return "a table"
    if isinstance(given, (list, tuple)):
        return "a list" if given else "an empty list"
    text = str(given).lower() if isinstance(given, bool) else str(given)
    return text if len(text) <= 60 else text[:57] + "..."


def _missing(section: str, key: str, info: FieldInfo | None) -> Problem:
    extra = extra_of(info) if info is not None else {}
    if "ask" in extra:
        do = (
            f'Ask {extra["ask"]}: "{extra["question"]}" Until then write  '
            f'{key} = {{ assumed = "...", why = "..." }}; it will carry a ~.'
        )
    elif info is not None and section_class(info) is not None:
        do = f"Add the section [{f'{section}.' if section else ''}{key}]."
    else:
        do = f"Add  {key} = ...  to it."
    return Problem(section, key, "nothing", allowed(info), do)


_IN_A_LIST = {
    "uses": 'a sentence such as "900 W, 20 min after breakfast"',
    "lines": "a number, in the currency of the prices",
    "snow_on_ground": "whole numbers, months 1 to 12",
}


def _unknown(section: str, key: str, owner: type[Section]) -> Problem:
    known = [key_of(name) for name in owner.model_fields]
    near = get_close_matches(key, known, n=1, cutoff=0.5)
    do = (
        f"Did you mean {near[0]}?"
        if near
        else "Take it out, or put # before it to keep it as a remark."
    )
    return Problem(section, key, "a key that is not known", ", ".join(known), do)


def _do(kind: str, info: FieldInfo | None) -> str:
    if kind in ("greater_than", "greater_than_equal", "less_than", "less_than_equal"):
        return "Check the number and its unit."
    if kind == "literal_error" and info is not None and "sandy gravel or gravel" in _choices(info):
        return (
            "One of these, letter for letter. Fill, peat, mud, rock and slopes get no number here: "
            "an engineer must size the footing."
        )
    if kind == "literal_error":
        whole = info is not None and all(isinstance(choice, int) for choice in _choices(info))
        return (
            "Write it bare, without quotes."
            if whole
            else "Write one of these, in quotes, letter for letter."
        )
    if kind == "bool_type":
        return "Write true or false, without quotes."
    if kind in ("int_type", "int_from_float", "float_type"):
        return "Write a bare number, without quotes and without a unit."
    if kind == "string_type":
        return "Write it as text in quotes."
    if kind in ("too_short", "string_too_short"):
        return "It may not be empty."
    if info is not None and section_class(info) is not None:
        return "Write it as a section of its own, with its keys below its heading."
    return "Write it as shown in the demos."


def _sentence(text: str) -> str:
    text = text[0].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else text + "."


def allowed(info: FieldInfo | None) -> str:
    """What a field takes, in words, limits in SI and in the trade's unit.

    Example:
        >>> from polestead.homestead.model import Mount
        >>> allowed(Mount.model_fields["hinge_height_m"])
        'a length with its unit, over 0.3 m (0.98 ft), at most 12 m (39.4 ft)'
    """
    if info is None:
        return "a value of this section"
    dimension = dimension_of(info)
    limits = "".join(_limit(mark, dimension) for mark in info.metadata)
    choices = _choices(info)
    if dimension:
        article = "an" if dimension[0] in "aeiou" else "a"
        return f"{article} {dimension} with its unit{limits}"
    if choices:
        return " or ".join(
            f'"{choice}"' if isinstance(choice, str) else str(choice) for choice in choices
        )
    if section_class(info) is not None:
        return "a section"
    if info.description and info.annotation in (str, PoleWords):
        return info.description.rstrip(".")
    kinds = {
        bool: "true or false",
        int: "a whole number",
        float: "a number",
        str: "a text in quotes",
    }
    for part in (info.annotation, *get_args(info.annotation)):
        if part in kinds:
            return kinds[part] + limits
    return (info.description or "a text in quotes").rstrip(".")


def _choices(info: FieldInfo) -> tuple[Any, ...]:
    return tuple(part for part in get_args(info.annotation) if isinstance(part, (str, int)))


def _limit(mark: Any, dimension: str | None) -> str:
    for kind, word, name in (
        (Gt, "over", "gt"),
        (Ge, "at least", "ge"),
        (Lt, "under", "lt"),
        (Le, "at most", "le"),
    ):
        if isinstance(mark, kind):
            return f", {word} {_in_both(getattr(mark, name), dimension)}"
    return ""


def _in_both(value: float, dimension: str | None) -> str:
    if dimension is None:
        return f"{value:g}"
    if dimension == "share":
        return f"{value * 100:g} %"
    if dimension == "share per degree":
        return f"{value * 100:g} %/C"
    text = f"{value:g} {SI_UNIT[dimension]}"
    trade = TRADE_UNIT.get(dimension)
    if trade is None:
        return text
    converted = in_unit(value, trade)
    return f"{text} ({number(converted, 0 if abs(converted) >= 100 else 1 if abs(converted) >= 10 else 2)} {trade})"
