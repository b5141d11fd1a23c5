"""The field that cures a check that fails, or tells whose field to look at first."""

from __future__ import annotations

from polestead.base.check import Check
from polestead.web.places import place_of_path

# The first word that stands in part or name counts; the closest field a builder would turn to.
FIELDS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("cold voltage", ("array", "in_series")),
    ("working voltage", ("array", "in_series")),
    ("charging current", ("household", "battery")),
    ("cells over freezing", ("household", "battery")),
    ("storm hold", ("lock",)),
    ("actuator", ("drive",)),
    ("lowest edge", ("mount", "hinge_height")),
    ("upper edge", ("mount", "hinge_height")),
    ("frame and pole", ("mount", "glass_above_hinge")),
    ("strongback", ("mount", "strongback")),
    ("hinge pin", ("mount", "hinge_pin")),
    ("hinge ears", ("frame", "weld_leg")),
    ("hinge cable", ("run",)),
    ("clamps", ("frame", "clamps_per_module")),
    ("rails", ("frame", "rail")),
    ("cap bolts", ("frame", "cap_bolts")),
    ("modules", ("array", "module")),
    ("frost", ("footing", "depth")),
    ("concrete", ("footing", "pole_depth")),
    ("pier", ("footing", "depth")),
    ("soil under", ("footing", "diameter")),
    ("own line", ("buried",)),
    ("trench", ("run",)),
    ("conduit", ("run",)),
    ("breaker", ("run",)),
    ("run", ("run",)),
    ("string", ("array", "in_series")),
    ("battery", ("household", "battery")),
    ("pole", ("mount", "pole")),
)  # fmt: skip


def cure_place(check: Check) -> str:
    """The page and field to turn to.

    Args:
        check: One that fails.
    """
    words = f"{check.part}, {check.name}"
    path = next((path for word, path in FIELDS if word in check.part), None)
    path = path or next((path for word, path in FIELDS if word in words), ())
    return place_of_path(path) if path else "/file"
