"""Kinds of fields of the homestead file: quantities read into SI, and the defaults that are visible rows."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import isfinite
from typing import Annotated, Any, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, TypeAdapter
from pydantic.fields import FieldInfo

from polestead.base.quantity import read_quantity
from polestead.base.source import OWNER, Source

TAKEN = "the tool's default, not in the file"
_SUFFIXES = (
    "_per_l", "_m_s", "_pa_m", "_per_k", "_l_h", "_m2", "_m", "_kg", "_n", "_pa", "_c", "_deg", "_v", "_a", "_w",
    "_wh", "_ah", "_s", "_l",
)  # fmt: skip


def key_of(field_name: str) -> str:
    """The file's key of a model field: the name without its unit (``hinge_height_m`` -> ``hinge_height``)."""
    if field_name == "sun_kwh_m2_day":  # twelve bare numbers: the unit stays in the key
        return field_name
    for suffix in _SUFFIXES:
        if field_name.endswith(suffix):
            return field_name.removesuffix(suffix)
    return field_name


def _reader(dimension: str) -> Callable[[Any], float]:
    def read(written: Any) -> float:
        return read_quantity(_quoted(written, "12 ft"), dimension)

    return read


def _quoted(written: Any, example: str) -> str:
    """The text of a quantity; a bare number goes on as text, so that reading tells the units it could have meant."""
    if isinstance(written, bool) or not isinstance(written, (str, int, float)):
        message = f'a quantity is one text in quotes, a number with its unit, as "{example}"'
        raise ValueError(message)
    if isinstance(written, float) and not isfinite(written):
        message = "it is no number"
        raise ValueError(message)
    return str(written)


@dataclass(frozen=True, slots=True)
class Dimension:
    """Marks a field as a quantity of this dimension (a key of ``SI_UNIT``)."""

    name: str


@dataclass(frozen=True, slots=True)
class Forms:
    """Marks a field that is written as a sentence of its own kind: what may be written, in words."""

    words: str


Length = Annotated[float, BeforeValidator(_reader("length")), Dimension("length")]
Mass = Annotated[float, BeforeValidator(_reader("mass")), Dimension("mass")]
Force = Annotated[float, BeforeValidator(_reader("force")), Dimension("force")]
Pressure = Annotated[float, BeforeValidator(_reader("pressure")), Dimension("pressure")]
PressurePerDepth = Annotated[
    float, BeforeValidator(_reader("pressure per depth")), Dimension("pressure per depth")
]
Speed = Annotated[float, BeforeValidator(_reader("speed")), Dimension("speed")]
Temperature = Annotated[float, BeforeValidator(_reader("temperature")), Dimension("temperature")]
Angle = Annotated[float, BeforeValidator(_reader("angle")), Dimension("angle")]
Voltage = Annotated[float, BeforeValidator(_reader("voltage")), Dimension("voltage")]
Current = Annotated[float, BeforeValidator(_reader("current")), Dimension("current")]
Power = Annotated[float, BeforeValidator(_reader("power")), Dimension("power")]
Energy = Annotated[float, BeforeValidator(_reader("energy")), Dimension("energy")]
Charge = Annotated[float, BeforeValidator(_reader("charge")), Dimension("charge")]
Time = Annotated[float, BeforeValidator(_reader("time")), Dimension("time")]
Volume = Annotated[float, BeforeValidator(_reader("volume")), Dimension("volume")]
FuelRate = Annotated[float, BeforeValidator(_reader("fuel rate")), Dimension("fuel rate")]
Share = Annotated[float, BeforeValidator(_reader("share")), Dimension("share")]
SharePerDegree = Annotated[
    float, BeforeValidator(_reader("share per degree")), Dimension("share per degree")
]


_COMPASS = re.compile(r"\s*(\d+(?:\.\d+)?)\s*(?:deg|°)?\s*([NSEWnsew])\s*")


def _coordinate(plus: str, minus: str) -> Callable[[Any], float]:
    """Reads ``47.9 N`` as well as ``47.9 deg``; the letter takes the sign's place."""

    def read(written: Any) -> float:
        found = _COMPASS.fullmatch(written) if isinstance(written, str) else None
        if found is None:
            return read_quantity(_quoted(written, f"47.9 {plus}"), "angle")
        if found[2].upper() not in (plus, minus):
            message = f"{written} points {found[2].upper()}; {plus} or {minus} is wanted here"
            raise ValueError(message)
        return float(found[1]) * (1.0 if found[2].upper() == plus else -1.0)

    return read


Latitude = Annotated[float, BeforeValidator(_coordinate("N", "S")), Dimension("angle")]
Longitude = Annotated[float, BeforeValidator(_coordinate("E", "W")), Dimension("angle")]


class Section(BaseModel):
    """One table of the homestead file; unknown keys are refused, values do not change after reading."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        strict=True,
        alias_generator=key_of,
        validate_by_alias=True,
        validate_by_name=False,
        allow_inf_nan=False,
        arbitrary_types_allowed=True,
    )

    def without_effect(self) -> frozenset[str]:
        """Fields whose value changes nothing as this section stands; their defaults are no rows."""
        return frozenset()


def default(written: Any, source: str, why: str, **limits: Any) -> Any:
    """A field with a default that is shown as a row: its value as the owner would write it, its source, and why.

    Args:
        written: The value as it would stand in the file (a quantity with its unit).
        source: Published source, or ``common practice, no source``.
        why: What it does, or why this value.
        limits: Passed on to pydantic (``gt``, ``le``, ...), in SI.
    """
    return Field(
        default=written,
        validate_default=True,
        json_schema_extra={"source": source, "why": why},
        **limits,
    )


def ask(whom: str, question: str, trap: str = "", **limits: Any) -> Any:
    """A fact of the place: no default; asked, or assumed by name (``{ assumed = "...", why = "..." }``).

    Args:
        whom: Whom to ring.
        question: The sentence to say.
        trap: What goes wrong in the reply.
        limits: Passed on to pydantic, in SI.
    """
    return Field(json_schema_extra={"ask": whom, "question": question, "trap": trap}, **limits)


def left_out(shown: str, source: str, why: str, **limits: Any) -> Any:
    """A field that may be left out; what then counts is shown as a row in words.

    Args:
        shown: What is taken when nothing is written, in words.
        source: Where that comes from.
        why: What it does.
        limits: Passed on to pydantic, in SI.
    """
    return Field(
        default=None, json_schema_extra={"source": source, "why": why, "shown": shown}, **limits
    )


def none_of(shown: str, source: str, why: str) -> Any:
    """A list that may be left out; what an empty one means is shown as a row in words."""
    extra: Any = {"source": source, "why": why, "shown": shown}
    return Field(default=(), json_schema_extra=extra, description=why)


def dimension_of(field: FieldInfo) -> str | None:
    """The dimension of a quantity field, also of one that may be left out; None for anything else.

    Example:
        >>> from polestead.homestead.model import Mount, Place
        >>> dimension_of(Mount.model_fields["hinge_height_m"]), dimension_of(Place.model_fields["height_limit_m"])
        ('length', 'length')
    """
    for mark in _marks(field):
        if isinstance(mark, Dimension):
            return mark.name
    return None


def _marks(field: FieldInfo) -> Iterator[Any]:
    yield from field.metadata
    for part in get_args(field.annotation):
        yield from getattr(part, "__metadata__", ())


def read_one(field: FieldInfo, given: Any) -> Any:
    """One value by its own field's rules alone.

    Raises:
        ValidationError: It does not fit.
    """
    kind: Any = field.annotation
    if field.metadata:
        kind = Annotated[(kind, *field.metadata)]
    return TypeAdapter(kind).validate_python(given, strict=True)


def extra_of(field: FieldInfo) -> dict[str, Any]:
    """What `default`, `ask` and `left_out` said of a field."""
    extra = field.json_schema_extra
    return dict(extra) if isinstance(extra, dict) else {}


def source_of(section: Section, name: str) -> Source:
    """Who says a value of a section: the file, or the source of the tool's own default, told as a default.

    Args:
        section: As read.
        name: Of the field, with its unit.

    Example:
        >>> from polestead.homestead.model import Controller
        >>> one = Controller.model_validate({"name": "a", "voltage_limit": "150 V", "current_limit": "60 A"})
        >>> str(source_of(one, "current_limit_a")), str(source_of(one, "over_battery_v"))
        ('the homestead file', "the tool's default, not in the file: common practice, no source")
    """
    if name in section.model_fields_set:
        return OWNER
    said = str(extra_of(type(section).model_fields[name]).get("source", ""))
    if said in ("ours", "assumed"):
        return Source(TAKEN, status="ours")
    if "from memory" in said:
        return Source(
            TAKEN, said.replace(" (from memory)", "").replace("from memory", ""), "memory"
        )
    return Source(
        f"{TAKEN}: {said}", status="common practice" if "common practice" in said else "seen"
    )
