"""What the validator found, told to the owner: section, key, given, allowed, what to do."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches
from typing import Any, Literal, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt
from pydantic import ValidationError
from pydantic.fields import FieldInfo

from polestead.base.problem import Problem
from polestead.base.quantity import SI_UNIT, in_unit
from polestead.base.show import number, significant
from polestead.homestead.fields import Forms, Section, dimension_of, extra_of, key_of, read_one
from polestead.homestead.model import Homestead
from polestead.homestead.standing import Plain, is_list, section_class, writing
from polestead.homestead.text import shown
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
INCHES_UNDER_FT = 0.5  # a pin is not read in parts of a foot


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


def told_beside(plain: Plain) -> list[Problem]:
    """What cannot be read among the values that stand in a table beside the one that counts."""
    found: list[Problem] = []
    for path, word, value, info in plain.beside:
        try:
            read_one(info, value)
        except ValidationError as wrong:
            error: Any = wrong.errors(include_url=False)[0]
            given = f"{word} = {shown(writing(value))}"
            section, key = ".".join(path[:-1]), path[-1]
            found.append(Problem(section, key, given, _allowed_at(path, info), _mend(error, info)))
    return found


def _problem(error: Any, plain: Plain, model: type[Section]) -> Problem:
    loc = tuple(error["loc"])
    owner, info = _field_at(model, loc)
    path = tuple(str(part + 1) if isinstance(part, int) else str(part) for part in loc)
    section = ".".join(shown(part) for part in path[:-1])
    key = shown(path[-1]) if path else ""
    kind = error["type"]
    if path[-1:] == ("[key]",):
        return _no_such_key(path, str(error.get("ctx", {}).get("expected", "")))
    if kind == "missing":
        return _missing(section, key, info)
    if kind == "extra_forbidden":
        return _unknown(section, path[-1], owner)
    given = plain.written.get(path) or writing(error.get("input"))
    return Problem(section, key, shown(given), _allowed_at(path, info), _mend(error, info))


def _allowed_at(path: tuple[str, ...], info: FieldInfo | None) -> str:
    in_a_list = (text for word, text in _IN_A_LIST.items() if word in path[:-1])
    return next(in_a_list, allowed(info))


def _mend(error: Any, info: FieldInfo | None) -> str:
    """What to do about one error of the validator."""
    if error["type"] == "value_error":
        return _sentence(str(error["ctx"]["error"]))
    return _do(error["type"], info)


def _missing(section: str, key: str, info: FieldInfo | None) -> Problem:
    extra = extra_of(info) if info is not None else {}
    if "ask" in extra:
        do = (
            f'Ask {extra["ask"]}: "{extra["question"]}" Until then write  '
            f'{key} = {{ assumed = "...", why = "..." }}; it will carry a ~.'
        )
    elif info is not None and section_class(info) is not None:
        brackets = ("[[", "]]") if is_list(info) else ("[", "]")
        name = f"{section}.{key}" if section else key
        do = f"Add the section {name.join(brackets)}."
    elif key.isdigit():
        do = "It takes one more: write them all."
    else:
        only = choices_of(info) if info is not None else ()
        do = f"Add  {key} = {only[0] if len(only) == 1 else '...'}  to it."
    return Problem(section, key, "nothing", allowed(info), do)


_IN_A_LIST = {
    "uses": 'a sentence such as "900 W, 20 min after breakfast"',
    "lines": "a number, in the currency of the prices",
    "bought_lines": "a number, in the currency of the prices",
    "snow_on_ground": "whole numbers, months 1 to 12",
}


def _unknown(section: str, key: str, owner: type[Section]) -> Problem:
    known = [key_of(name) for name in owner.model_fields]
    near = get_close_matches(key, known, n=1, cutoff=0.6)
    elsewhere = [name for name in _sections_with(key) if name != section]
    if near:
        do = f"Did you mean {near[0]}?"
    elif elsewhere:
        do = f"Did you mean it to stand under {' or '.join(f'[{name}]' for name in elsewhere)}?"
    else:
        do = "Take it out, or put # before it to keep it as a remark."
    return Problem(section, shown(key), "a key that is not known", ", ".join(known), do)


def _no_such_key(path: tuple[str, ...], names: str) -> Problem:
    """A key of a table whose keys are a list of our own words (``ledger_columns``)."""
    *above, key, _ = path
    do = "Our word stands left of the = and yours right of it, in quotes."
    return Problem(".".join(map(shown, above)), shown(key), "a key that is not known", names.replace("'", ""), do)  # fmt: skip


def _sections_with(key: str) -> tuple[str, ...]:
    """The sections, lists left out, that have this key."""
    return tuple(
        ".".join(at)
        for at, section in _all_sections(Homestead)
        if at and key in map(key_of, section.model_fields)
    )


def _all_sections(
    model: type[Section], at: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], type[Section]]]:
    yield at, model
    for name, info in model.model_fields.items():
        inner = section_class(info)
        if inner is not None and not is_list(info):
            yield from _all_sections(inner, (*at, key_of(name)))


def _do(kind: str, info: FieldInfo | None) -> str:
    if kind in ("greater_than", "greater_than_equal", "less_than", "less_than_equal"):
        return "Check the number and its unit."
    if (
        kind == "literal_error"
        and info is not None
        and "sandy gravel or gravel" in choices_of(info)
    ):
        return (
            "One of these, letter for letter. Fill, peat, mud, rock and slopes get no number here: "
            "an engineer must size the footing."
        )
    if kind == "literal_error":
        whole = info is not None and all(isinstance(choice, int) for choice in choices_of(info))
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
    if kind == "string_too_long":
        return "Say it shorter."
    if kind == "finite_number":
        return "Write a plain number."
    if kind in ("dict_type", "tuple_type"):
        return (
            "Write it as a section of its own, a line for each."
            if kind == "dict_type"
            else "Write it in brackets, with commas between."
        )
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
    for mark in info.metadata:
        if isinstance(mark, Forms):
            return mark.words
    limits = "".join(_limit(mark, dimension) for mark in info.metadata)
    choices = choices_of(info)
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


def choices_of(info: FieldInfo) -> tuple[Any, ...]:
    """What a field may be one of, also where it may be left out."""
    parts = get_args(info.annotation)
    inside = (one for part in parts if get_origin(part) is Literal for one in get_args(part))
    return tuple(part for part in (*parts, *inside) if isinstance(part, (str, int)))


def _limit(mark: Any, dimension: str | None) -> str:
    for kind, word, name in (
        (Gt, "over", "gt"),
        (Ge, "at least", "ge"),
        (Lt, "under", "lt"),
        (Le, "at most", "le"),
    ):
        if isinstance(mark, kind):
            return f", {word} {both(getattr(mark, name), dimension)}"
    return ""


def both(value: float, dimension: str | None) -> str:
    """A value in its SI unit and, where the trade has one of its own, in that.

    Example:
        >>> both(2.8956, "length"), both(0.15, "length"), both(0.55, "share"), both(-0.1, "temperature")
        ('2.896 m (9.50 ft)', '0.15 m (5.91 in)', '55 %', '−0.1 C (31.8 F)')
    """
    if dimension is None:
        return _plain(value)
    if dimension == "share":
        return f"{_plain(value * 100.0)} %"
    if dimension == "share per degree":
        return f"{_plain(value * 100.0)} %/C"
    text = f"{_plain(value)} {SI_UNIT[dimension]}"
    trade = TRADE_UNIT.get(dimension)
    if trade is None:
        return text
    converted = in_unit(value, trade)
    if trade == "ft" and 0.0 < abs(converted) < INCHES_UNDER_FT:
        converted, trade = 12.0 * converted, "in"
    digits = 0 if abs(converted) >= 100 else 1 if abs(converted) >= 10 else 2
    return f"{text} ({number(converted, digits)} {trade})"


def _plain(value: float) -> str:
    """To four figures, whole numbers in full."""
    return number(value) if value == round(value) else significant(value)
