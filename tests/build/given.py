"""A demo as `build` is given it, without the weather and the house; sections may be changed."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from polestead.answer.stands import setting_only, strongback_kg_of
from polestead.build.given import Given
from polestead.homestead.demos import demo_path
from polestead.homestead.read import read_homestead
from polestead.mount.geometry import geometry_of
from polestead.stand.half_built import half_built
from polestead.strength.pole import pipe_section


@cache
def demo(name: str) -> Given:
    """A demo as it is."""
    owners = read_homestead(demo_path(name))
    h = owners.homestead
    kg = strongback_kg_of(h.mount, h.array)
    return Given(
        h.place, h.array, h.mount, h.footing, h.frame, h.run, h.drive, h.lock, h.prop, h.shop, h.prices,
        h.units == "metric", geometry_of(h.mount, h.array, kg), pipe_section(h.mount.pole), kg, half_built(setting_only(owners)),
    )  # fmt: skip


def changed(name: str, **sections: dict[str, Any]) -> Given:
    """A demo with some fields of some sections changed; its geometry as it was."""
    given = demo(name)
    return replace(
        given,
        **{
            section: getattr(given, section).model_copy(update=fields)
            for section, fields in sections.items()
        },
    )
