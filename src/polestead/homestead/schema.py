"""JSON Schema of the homestead file."""

from __future__ import annotations

from typing import Any, Literal, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt
from pydantic.fields import FieldInfo

from polestead.base.quantity import unit_names
from polestead.homestead.fields import Forms, Section, dimension_of, extra_of, key_of
from polestead.homestead.model import Homestead
from polestead.homestead.standing import is_list, named_values, section_class
from polestead.homestead.told import allowed

LIMITS = {
    Gt: ("gt", "exclusiveMinimum"),
    Ge: ("ge", "minimum"),
    Lt: ("lt", "exclusiveMaximum"),
    Le: ("le", "maximum"),
}


def homestead_schema() -> dict[str, Any]:
    """JSON Schema of the homestead file: sections, keys, quantities with their units, defaults with their source.

    A scalar may always be a table of its standings instead (``built``, ``said``, ``planned``, ``assumed``); limits of
    quantities are told in words, for JSON Schema cannot compare what carries a unit.
    """
    parts: dict[str, Any] = {"value_table": _value_table()}
    whole = _section(Homestead, parts)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "polestead homestead file",
        **whole,
        "$defs": parts,
    }


def _value_table() -> dict[str, Any]:
    plain = {"type": ["string", "number", "integer", "boolean", "array"]}
    return {
        "type": "object",
        "description": "A value with who says so; built counts before said, planned, assumed.",
        "properties": {
            **dict.fromkeys(("planned", "built", "said", "assumed"), plain),
            "asked_of": {"type": "string"},
            "on": {"type": "string", "format": "date"},
            "why": {"type": "string"},
        },
        "additionalProperties": False,
    }


def _section(model: type[Section], parts: dict[str, Any]) -> dict[str, Any]:
    infos = {key_of(name): info for name, info in model.model_fields.items()}
    return {
        "type": "object",
        "description": (model.__doc__ or "").strip().splitlines()[0],
        "properties": {key: _field(info, parts) for key, info in infos.items()},
        "required": [key for key, info in infos.items() if info.is_required()],
        "additionalProperties": False,
    }


def _field(info: FieldInfo, parts: dict[str, Any]) -> dict[str, Any]:
    inner = section_class(info)
    if inner is not None:
        name = inner.__name__
        if name not in parts:
            parts[name] = {}
            parts[name] = _section(inner, parts)
        ref = {"$ref": f"#/$defs/{name}"}
        return {"type": "array", "items": ref} if is_list(info) else ref
    named = named_values(info)
    if named is not None:
        return {
            "type": "object",
            "description": info.description or "",
            "additionalProperties": {"anyOf": [_scalar(named), {"$ref": "#/$defs/value_table"}]},
        }
    described = {"description": _words(info)} | _default(info)
    return {"anyOf": [_scalar(info), {"$ref": "#/$defs/value_table"}], **described}


def _scalar(info: FieldInfo) -> dict[str, Any]:
    dimension = dimension_of(info)
    if dimension is not None and get_origin(info.annotation) is not tuple:
        return {"type": "string", "x-dimension": dimension, "x-units": list(unit_names(dimension))}
    kinds = (info.annotation, *get_args(info.annotation))
    if any(isinstance(mark, Forms) for mark in info.metadata):
        return {"type": "string"}
    if any(get_origin(kind) is Literal for kind in kinds):
        literal = next(kind for kind in kinds if get_origin(kind) is Literal)
        return {"enum": list(get_args(literal))}
    if get_origin(info.annotation) is tuple:
        inside = get_args(info.annotation)[0]
        return {
            "type": "array",
            "items": {"type": {int: "integer", float: "number"}.get(inside, "string")},
        }
    for kind, word in ((bool, "boolean"), (int, "integer"), (float, "number")):
        if kind in kinds:
            return {"type": word} | _limits(info)
    return {"type": "string"}


def _limits(info: FieldInfo) -> dict[str, Any]:
    return {
        word: getattr(mark, name)
        for mark in info.metadata
        for kind, (name, word) in LIMITS.items()
        if isinstance(mark, kind)
    }


def _words(info: FieldInfo) -> str:
    extra = extra_of(info)
    said = [
        info.description or "",
        extra.get("why", ""),
        extra.get("question", ""),
        f"Allowed: {allowed(info)}.",
    ]
    return " ".join(word for word in said if word)


def _default(info: FieldInfo) -> dict[str, Any]:
    extra = extra_of(info)
    if "source" not in extra:
        return {}
    return {"default": extra.get("shown", info.default), "x-source": extra["source"]}
