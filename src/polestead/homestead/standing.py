"""Who says so: tables with built, said, planned or assumed turned into plain values, and the rows kept of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, get_args

from pydantic.fields import FieldInfo

from polestead.base.problem import Problem
from polestead.base.quantity import SI_UNIT
from polestead.base.row import Row, Standing
from polestead.homestead.fields import Section, dimension_of, extra_of, key_of
from polestead.homestead.words import PoleWords

COUNTS_FIRST: tuple[Standing, ...] = ("built", "said", "planned", "assumed")  # conventions §15
BESIDE = {"asked_of", "on", "why"}
TABLE = "a plain value, or a table with built, said, planned or assumed"
FIRST_YEAR, LAST_YEAR = 1980, 2100  # a year outside them is a slip of the pen
Path = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Said:
    """What a table of a value held beside it."""

    standing: Standing
    planned: str = ""
    asked_of: str = ""
    on: date | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class Plain:
    """The file's values with the value that counts in place of each table, and what the tables held.

    Attributes:
        values: As the model takes them, lists turned into tuples.
        said: By the path of the key.
        written: The owner's writing of the value that counts, by path.
        beside: What stands in a table beside the value that counts: path, word, value, and the field it belongs to.
    """

    values: dict[str, Any]
    said: dict[Path, Said] = field(default_factory=dict)
    written: dict[Path, str] = field(default_factory=dict)
    beside: list[tuple[Path, str, Any, FieldInfo]] = field(default_factory=list)


def writing(value: Any) -> str:
    """A value as the owner wrote it in the file, without the quotes of a text.

    Example:
        >>> writing(True), writing([11, 12]), writing("11 ft"), writing(["1 C"])
        ('true', '[11, 12]', '11 ft', '["1 C"]')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(_inside(one) for one in value)}]"
    return "a table" if isinstance(value, Mapping) else str(value)


def _inside(value: Any) -> str:
    return f'"{value}"' if isinstance(value, str) else writing(value)


def section_class(info: FieldInfo) -> type[Section] | None:
    """The section a field holds, also inside a tuple or beside None."""
    for part in (info.annotation, *get_args(info.annotation)):
        if isinstance(part, type) and issubclass(part, Section):
            return part
    return None


def is_list(info: FieldInfo) -> bool:
    """True for a field that holds a list of sections."""
    return section_class(info) is not None and getattr(info.annotation, "__origin__", None) is tuple


def plain_values(raw: Mapping[str, Any], model: type[Section]) -> tuple[Plain, list[Problem]]:
    """Turn the parsed file into plain values for the model."""
    plain = Plain({})
    problems: list[Problem] = []
    plain.values.update(_section(raw, model, (), plain, problems))
    return plain, problems


def _section(
    raw: Mapping[str, Any], model: type[Section], at: Path, plain: Plain, problems: list[Problem]
) -> dict[str, Any]:
    infos = {key_of(name): info for name, info in model.model_fields.items()}
    values: dict[str, Any] = {}
    for key, given in raw.items():
        info = infos.get(key)
        path = (*at, key)
        inner = section_class(info) if info is not None else None
        if info is None:
            values[key] = given
        elif inner is not None and is_list(info) and isinstance(given, (list, Mapping)):
            values[key] = _list(given, inner, path, plain, problems)
        elif inner is not None and isinstance(given, Mapping):
            values[key] = _section(given, inner, path, plain, problems)
        elif inner is not None:
            values[key] = given
        elif named_values(info) is not None and isinstance(given, Mapping):
            values[key] = {}
            for name, one in given.items():
                _value(one, named_values(info) or info, (*path, name), values[key], plain, problems)
        else:
            _value(given, info, path, values, plain, problems)
    return values


def _list(
    given: list[Any] | Mapping[str, Any],
    inner: type[Section],
    path: Path,
    plain: Plain,
    problems: list[Problem],
) -> tuple[Any, ...]:
    """The sections of a list; a single one that was not written as a list is read all the same, and told."""
    if isinstance(given, Mapping):
        name = ".".join(path)
        do = f"Write its heading with two brackets:  [[{name}]]."
        problems.append(
            Problem(".".join(path[:-1]), path[-1], f"[{name}]", f"a list, [[{name}]]", do)
        )
        given = [given]
    return tuple(
        _section(one, inner, (*path, str(number)), plain, problems)
        if isinstance(one, Mapping)
        else one
        for number, one in enumerate(given, start=1)
    )


def named_values(info: FieldInfo) -> FieldInfo | None:
    """The field of each value, for a section whose names are the owner's own (uses, prices paid)."""
    if getattr(info.annotation, "__origin__", None) is not dict:
        return None
    return FieldInfo.from_annotation(get_args(info.annotation)[1])


def _value(
    given: Any,
    info: FieldInfo,
    path: Path,
    values: dict[str, Any],
    plain: Plain,
    problems: list[Problem],
) -> None:
    """One value, plain or as a table; the value that counts goes into the values."""
    if isinstance(given, Mapping):
        _value_table(given, info, path, values, plain, problems)
    else:
        values[path[-1]] = _tuple(given)
        plain.written[path] = writing(given)


def _tuple(given: Any) -> Any:
    return tuple(given) if isinstance(given, list) else given


def _value_table(
    given: Mapping[str, Any],
    info: FieldInfo,
    path: Path,
    values: dict[str, Any],
    plain: Plain,
    problems: list[Problem],
) -> None:
    """One value given as a table; the value that counts goes into the values."""
    section, key = ".".join(path[:-1]), path[-1]
    faults = _table_faults(given, key)
    problems += [Problem(section, key, said, TABLE, do) for said, do in faults]
    standing = _counts(given)
    if standing is None:
        return
    on = given.get("on")
    values[key] = _tuple(given[standing])
    plain.written[path] = writing(given[standing])
    plain.beside.extend(
        (path, word, _tuple(given[word]), info)
        for word in COUNTS_FIRST
        if word in given and word != standing
    )
    plain.said[path] = Said(
        standing,
        writing(given["planned"]) if standing != "planned" and "planned" in given else "",
        str(given.get("asked_of", "")),
        on if _is_day(on) else None,
        str(given.get("why", "")),
    )


def _is_day(on: Any) -> bool:
    return isinstance(on, date) and not isinstance(on, datetime)


def _table_faults(given: Mapping[str, Any], key: str) -> Iterator[tuple[str, str]]:
    """What is wrong with a table of a value: what stands there, and what to do."""
    unknown = sorted(set(given) - set(COUNTS_FIRST) - BESIDE)
    if unknown:
        yield f"a table with {', '.join(unknown)}", "Leave these out."
    if not set(given) & set(COUNTS_FIRST):
        do = f'Write for instance  {key} = {{ assumed = "...", why = "..." }}.'
        yield "a table without a value", do
    for word in ("asked_of", "why"):
        if not isinstance(given.get(word, ""), str):
            yield f"{word} = {writing(given[word])}", "Write it as text in quotes."
    if "said" in given and not given.get("asked_of"):
        do = 'Add  asked_of = "..."  and  on = 2026-05-01.'
        yield "an answer without the one who gave it", do
    if _counts(given) == "assumed" and not given.get("why"):
        yield "an assumption without its reason", 'Add  why = "...".'
    on = given.get("on")
    if on is not None and not _is_day(on):
        do = "A date is written without quotes and without a time: on = 2026-05-01."
        yield f"on = {writing(on)}", do
    elif on is not None and not FIRST_YEAR <= on.year <= LAST_YEAR:
        yield f"on = {on}", "Check the year; a date is written year first: on = 2026-05-01."


def _counts(given: Mapping[str, Any]) -> Standing | None:
    return next((word for word in COUNTS_FIRST if word in given), None)


def rows_of(section: Section, plain: Plain, at: Path = (), shown: str = "") -> tuple[Row, ...]:
    """Every input as a row, in the file's order of sections, defaults included."""
    rows: list[Row] = []
    idle = section.without_effect()
    for name, info in type(section).model_fields.items():
        if name in idle and (*at, key_of(name)) not in plain.written:
            continue
        key = key_of(name)
        value = getattr(section, name)
        path = (*at, key)
        here = f"{shown}.{key}" if shown else key
        if isinstance(value, Section):
            rows += rows_of(value, plain, path, here)
        elif is_list(info) and value:
            for number, one in enumerate(value, start=1):
                label = getattr(one, "name", str(number))
                rows += rows_of(one, plain, (*path, str(number)), f"{here} {label}")
        elif isinstance(value, dict):
            rows += [_written_row(here, k, v, "", (*path, k), plain) for k, v in value.items()]
        else:
            row = _row(shown, key, value, info, path, plain)
            rows += [row] if row is not None else []
    return tuple(rows)


def _row(
    section: str, key: str, value: Any, info: FieldInfo, path: Path, plain: Plain
) -> Row | None:
    dimension = dimension_of(info)
    unit = SI_UNIT[dimension] if dimension else ""
    extra = extra_of(info)
    if path in plain.written:
        return _written_row(section, key, value, unit, path, plain)
    if value in (None, ()) and "shown" in extra:
        return Row(
            section,
            key,
            extra["shown"],
            extra["shown"],
            "",
            "default",
            extra["source"],
            extra["why"],
        )
    if value is None or "source" not in extra:
        return None
    return Row(
        section,
        key,
        writing(info.default),
        _row_value(value),
        unit,
        "default",
        extra["source"],
        extra["why"],
    )


def _written_row(section: str, key: str, value: Any, unit: str, path: Path, plain: Plain) -> Row:
    """The row of a value that stands in the file."""
    said = plain.said.get(path, Said("planned"))
    return Row(
        section, key, plain.written[path], _row_value(value), unit, said.standing,
        "", said.why, said.planned, said.asked_of, said.on,
    )  # fmt: skip


def _row_value(value: Any) -> float | str:
    if isinstance(value, PoleWords):
        return value.written
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    return float(value)
