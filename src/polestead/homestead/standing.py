"""Who says so: tables with built, said, planned or assumed turned into plain values, and the rows kept of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, get_args

from pydantic.fields import FieldInfo

from polestead.base.problem import Problem
from polestead.base.quantity import SI_UNIT
from polestead.base.row import Row, Standing
from polestead.homestead.fields import Section, dimension_of, extra_of, key_of
from polestead.homestead.words import PoleWords

COUNTS_FIRST: tuple[Standing, ...] = ("built", "said", "planned", "assumed")  # conventions §15
BESIDE = {"asked_of", "on", "why"}
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
    """

    values: dict[str, Any]
    said: dict[Path, Said] = field(default_factory=dict)
    written: dict[Path, str] = field(default_factory=dict)


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
        elif inner is not None and isinstance(given, Mapping) and not is_list(info):
            values[key] = _section(given, inner, path, plain, problems)
        elif inner is not None and isinstance(given, list):
            values[key] = tuple(
                _section(one, inner, (*path, str(number)), plain, problems)
                if isinstance(one, Mapping)
                else one
                for number, one in enumerate(given, start=1)
            )
        elif isinstance(given, Mapping) and key not in ("uses", "lines"):
            _value_table(given, path, values, plain, problems)
        else:
            values[key] = tuple(given) if isinstance(given, list) else given
            plain.written[path] = str(given)
    return values


def _value_table(
    given: Mapping[str, Any],
    path: Path,
    values: dict[str, Any],
    plain: Plain,
    problems: list[Problem],
) -> None:
    """One value given as a table; the value that counts goes into the values."""
    section, key = ".".join(path[:-1]), path[-1]
    allowed = "a plain value, or a table with built, said, planned or assumed"

    def wrong(said: str, do: str) -> None:
        problems.append(Problem(section, key, said, allowed, do))

    unknown = sorted(set(given) - set(COUNTS_FIRST) - BESIDE)
    if unknown:
        wrong(f"a table with {', '.join(unknown)}", "Leave these out.")
    standing = next((word for word in COUNTS_FIRST if word in given), None)
    if standing is None:
        wrong(
            "a table without a value",
            f'Write for instance  {key} = {{ assumed = "...", why = "..." }}.',
        )
        return
    if standing == "said" and not given.get("asked_of"):
        wrong(
            "an answer without the one who gave it", 'Add  asked_of = "..."  and  on = 2026-05-01.'
        )
    if standing == "assumed" and not given.get("why"):
        wrong("an assumption without its reason", 'Add  why = "...".')
    on = given.get("on")
    if on is not None and not isinstance(on, date):
        wrong(f"on = {on}", "A date is written without quotes: on = 2026-05-01.")
        on = None
    values[key] = given[standing]
    plain.written[path] = str(given[standing])
    plain.said[path] = Said(
        standing,
        str(given["planned"]) if standing != "planned" and "planned" in given else "",
        str(given.get("asked_of", "")),
        on,
        str(given.get("why", "")),
    )


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
            rows += [
                Row(here, k, str(v), v if isinstance(v, float) else str(v), "", "planned")
                for k, v in value.items()
            ]
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
        said = plain.said.get(path, Said("planned"))
        return Row(
            section, key, plain.written[path], _row_value(value), unit, said.standing,
            "", said.why, said.planned, said.asked_of, said.on,
        )  # fmt: skip
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
        str(info.default),
        _row_value(value),
        unit,
        "default",
        extra["source"],
        extra["why"],
    )


def _row_value(value: Any) -> float | str:
    if isinstance(value, PoleWords):
        return value.written
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return str(value)
    return float(value)
