"""What strings are worked from, of a new module's datasheet as of an old one's label."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.source import OWNER, Source
from polestead.homestead.fields import source_of
from polestead.homestead.model import Module, NewArray, OldArray

OLD_CHANGE_PER_K = -0.0035
OLD_CHANGE = Source("older crystalline silicon, .30 to .35 % of the open voltage", status="memory")
OLD_LOW_BY = 0.03
AS_NEW = Source("as of a new module", status="ours")
OLD_YEARS = Source("its age is not in the file: the new array's years alone", status="ours")
OLD_AND_MORE = Source("its age in the file and the new array's years on top", status="computed")


@dataclass(frozen=True, slots=True)
class Label:
    """A module as its strings see it.

    Attributes:
        array: Name of the array it belongs to; empty: the new one.
        open_circuit_voltage_v, working_voltage_v, short_circuit_current_a, working_current_a: At 1000 W/m2 and 25 C.
        change_per_k: Of the open-circuit voltage; None where nobody knows it, then the code's table decides.
        volts_low_by: It may have so many volts less than its sheet says.
        years: In the sun when its strings must still charge.
        series_fuse_a: Largest series fuse on its label; None where nobody has read it.
        system_voltage_v: Largest system voltage on its label; None likewise.
        low_by_source, years_source: Who says ``volts_low_by`` and ``years``.
    """

    array: str
    open_circuit_voltage_v: float
    working_voltage_v: float
    short_circuit_current_a: float
    working_current_a: float
    change_per_k: float | None
    volts_low_by: float
    years: float
    series_fuse_a: float | None
    system_voltage_v: float | None
    low_by_source: Source = OWNER
    years_source: Source = OWNER

    @property
    def hot_change_per_k(self) -> float:
        """For the heat only: its own coefficient, or a steep one of older silicon."""
        return OLD_CHANGE_PER_K if self.change_per_k is None else self.change_per_k

    @property
    def hot_change_source(self) -> Source:
        """Where that comes from."""
        return OLD_CHANGE if self.change_per_k is None else OWNER


def new_label(array: NewArray) -> Label:
    """Of the new array."""
    return module_label(
        array.module, array.charges_for_years, source_of(array, "charges_for_years")
    )


def module_label(module: Module, years: float, years_source: Source = OWNER) -> Label:
    """Of a new module that is to charge for so many years."""
    return Label(
        array="",
        open_circuit_voltage_v=module.open_circuit_voltage_v,
        working_voltage_v=module.working_voltage_v,
        short_circuit_current_a=module.short_circuit_current_a,
        working_current_a=module.working_current_a,
        change_per_k=module.voltage_change_per_k,
        volts_low_by=module.volts_low_by,
        years=years,
        series_fuse_a=module.series_fuse_a,
        system_voltage_v=module.system_voltage_v,
        low_by_source=source_of(module, "volts_low_by"),
        years_source=years_source,
    )


def old_label(old: OldArray, years_more: float) -> Label | None:
    """Of an array that is there already; None where its module is not written.

    Args:
        old: Its section.
        years_more: How long its strings must still charge, on top of the years it has.
    """
    module = old.module
    if module is None:
        return None
    return Label(
        array=old.name,
        open_circuit_voltage_v=module.open_circuit_voltage_v,
        working_voltage_v=module.working_voltage_v,
        short_circuit_current_a=module.short_circuit_current_a,
        working_current_a=module.working_current_a,
        change_per_k=module.voltage_change_per_k,
        volts_low_by=OLD_LOW_BY,
        years=years_more + (old.age_years or 0.0),
        series_fuse_a=None,
        system_voltage_v=None,
        low_by_source=AS_NEW,
        years_source=OLD_YEARS if old.age_years is None else OLD_AND_MORE,
    )
