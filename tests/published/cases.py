"""Reads the published checks: one TOML file a work, every row with source, status and a reason for its tolerance."""

from __future__ import annotations

import importlib
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

FOLDER = Path(__file__).parent
STATUSES = {"seen", "seen-copy", "computed", "memory"}


@dataclass(frozen=True)
class Case:
    """One published number and how ours is found."""

    identity: str
    work: str
    place: str
    status: str
    function: str
    given: dict[str, Any]
    pick: tuple[str | int, ...]
    scale: float
    published: tuple[float, ...]
    unit: str
    abs_tolerance: float
    rel_tolerance: float
    why_this_tolerance: str

    def ours(self) -> np.ndarray:
        """What our function gives, in the published unit."""
        module, _, name = self.function.rpartition(".")
        result = getattr(importlib.import_module(module), name)(**self.given)
        for step in self.pick:
            result = getattr(result, step) if isinstance(step, str) else result[step]
        return np.asarray(result, dtype=float) * self.scale


def _arrays(given: dict[str, Any]) -> dict[str, Any]:
    """Lists of numbers become arrays, as our equations take them."""
    return {
        key: np.asarray(value, dtype=float)
        if isinstance(value, list) and value and not isinstance(value[0], str)
        else value
        for key, value in given.items()
    }


def cases() -> Iterator[Case]:
    """All cases of all files.

    A file has ``[source]`` with ``work`` and ``copied_by``; a ``[[case]]`` has ``id``, ``place``, ``status``,
    ``function`` (dotted), ``given`` (keyword arguments, SI), ``published`` (a number or a list), ``unit``,
    ``abs`` and/or ``rel``, ``why``; and may have ``work``, ``pick`` (attributes or indices) and ``scale``.
    """
    for path in sorted(FOLDER.glob("*.toml")):
        content = tomllib.loads(path.read_text(encoding="utf-8"))
        for case in content["case"]:
            published = case["published"]
            yield Case(
                identity=f"{path.stem}:{case['id']}",
                work=case.get("work", content["source"]["work"]),
                place=case["place"],
                status=case["status"],
                function=case["function"],
                given=_arrays(case.get("given", {})),
                pick=tuple(case.get("pick", ())),
                scale=float(case.get("scale", 1.0)),
                published=tuple(published) if isinstance(published, list) else (published,),
                unit=case["unit"],
                abs_tolerance=float(case.get("abs", 0.0)),
                rel_tolerance=float(case.get("rel", 0.0)),
                why_this_tolerance=case["why"],
            )
