"""The answer as data: SI, the unit last in each key, one format number, nothing that is not JSON (conventions §18)."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from datetime import date
from math import isfinite
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from polestead.answer.answer import Answer
from polestead.answer.instead import Instead
from polestead.answer.wires import Wires
from polestead.base.row import Row
from polestead.build.result import BuildResult
from polestead.offers.doubts import Ranked
from polestead.sheets.sentences import Said, three_answers

CAUTION = "Screening sums, not a stamped design: local code, a licensed engineer and an electrician decide."


def answer_data(answer: Answer) -> dict[str, Any]:
    """The whole answer, workings and all, as plain data; first the three answers in the words of every face, in the owner's units."""
    data: dict[str, Any] = _plain(answer)
    said = _plain(three_answers(answer, answer.units))
    return {"format": data.pop("format"), "caution": CAUTION, "said": said, **data}


def wires_data(wires: Wires) -> dict[str, Any]:
    """Strings, run, guards, battery, trench, cord, tilt drive, drawings and test form as plain data."""
    return {"caution": CAUTION, **_plain(wires)}


def build_data(name: str, built: BuildResult) -> dict[str, Any]:
    """Pieces, cut list, pour and lifts as plain data."""
    return {"caution": CAUTION, "name": name, "build": _plain(built)}


def money_data(answer: Answer, instead: tuple[Instead, ...]) -> dict[str, Any]:
    """The ledger, what is saved, and what the money might do instead, as plain data."""
    return {
        "caution": CAUTION,
        "name": answer.name,
        "money": _plain(answer.money),
        "instead": _plain(instead),
    }


def doubts_data(name: str, found: tuple[Ranked, ...]) -> dict[str, Any]:
    """What nobody has confirmed, and how far each moves the answers, as plain data."""
    return {"format": 1, "caution": CAUTION, "name": name, "doubts": _plain(found)}


def _plain(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        plain = {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
        return {"mark": value.mark, **plain} if isinstance(value, Row) else plain
    if isinstance(value, (tuple, list)):
        return [_plain(one) for one in value]
    if isinstance(value, bool) or value is None or isinstance(value, (int, str)):
        return value
    if isinstance(value, float):
        return float(value) if isfinite(value) else None
    if isinstance(value, date):
        return value.isoformat()
    message = f"no JSON for {type(value).__name__}"
    raise TypeError(message)


def answer_schema() -> dict[str, Any]:
    """JSON Schema of ``answer_data``, made from the types the rooms hand up."""
    parts: dict[str, Any] = {}
    top = _schema(Answer, parts)
    whole = parts.pop(top["$ref"].rpartition("/")[2])
    whole["properties"]["caution"] = {"type": "string"}
    whole["properties"]["said"] = _schema(tuple[Said, Said, Said], parts)
    whole["required"] += ["caution", "said"]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "polestead answer",
        "description": "SI; the unit is last in each key; null where a number is not known or has no end.",
        **whole,
        "$defs": dict(sorted(parts.items())),
    }


_SIMPLE: dict[Any, Any] = {
    float: {"type": ["number", "null"]},
    int: {"type": "integer"},
    str: {"type": "string"},
    bool: {"type": "boolean"},
    NoneType: {"type": "null"},
    date: {"type": "string", "format": "date"},
}


def _schema(kind: Any, parts: dict[str, Any]) -> dict[str, Any]:
    if kind in _SIMPLE:
        return dict(_SIMPLE[kind])
    if is_dataclass(kind):
        return _object(kind, parts)
    origin, inside = get_origin(kind), get_args(kind)
    if origin is Literal:
        return {"enum": list(inside)}
    if origin in (Union, UnionType):
        return {"anyOf": [_schema(one, parts) for one in inside]}
    if origin is tuple and len(inside) == 2 and inside[1] is Ellipsis:
        return {"type": "array", "items": _schema(inside[0], parts)}
    if origin is tuple:
        each = [_schema(one, parts) for one in inside]
        return {"type": "array", "prefixItems": each, "minItems": len(each), "maxItems": len(each)}
    message = f"no schema for {kind}"
    raise TypeError(message)


def _object(kind: Any, parts: dict[str, Any]) -> dict[str, Any]:
    name = kind.__name__
    if name not in parts:
        parts[name] = {}  # holds the place while its own fields are described
        hints = get_type_hints(kind)
        parts[name] = {
            "type": "object",
            "description": (kind.__doc__ or "").strip().splitlines()[0],
            "properties": {field.name: _schema(hints[field.name], parts) for field in fields(kind)},
            "required": [field.name for field in fields(kind)],
            "additionalProperties": False,
        }
        if kind is Row:
            parts[name]["properties"]["mark"] = {"enum": ["~", ""]}
            parts[name]["required"].append("mark")
    return {"$ref": f"#/$defs/{name}"}
