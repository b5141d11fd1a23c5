"""Pins, tubes, rod and modules: allowable strengths as plain numbers with their steps."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.working import Step


@dataclass(frozen=True, slots=True)
class Allowable:
    """One allowable strength and how it was found."""

    value: float
    unit: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class TubeSection:
    """A square or rectangular tube with its design wall and steel."""

    written: str
    depth_m: float
    breadth_m: float
    design_wall_m: float
    area_m2: float
    inertia_m4: float
    plastic_m3: float
    torsion_m3: float
    radius_m: float
    mass_kg_m: float
    yield_pa: float


def tube_section(written: str) -> TubeSection:
    """``HSS 6x6x1/4 A500 C`` or ``SHS 60x60x4 S355``.

    Raises:
        Wrong: Not readable, or no such tube.
    """
    raise NotImplementedError


def pin_double_shear(diameter_m: float, steel: str) -> Allowable:
    """Allowable shear of a pin cut twice [N]."""
    raise NotImplementedError


def strut_push(tube: TubeSection, length_m: float) -> Allowable:
    """Allowable push of a pin-ended strut [N] (AISC E3)."""
    raise NotImplementedError


def rod_push(rod_diameter_m: float, free_length_m: float) -> Allowable:
    """Allowable push of a pin-ended round rod [N]: Euler over 3."""
    raise NotImplementedError


def tube_bending(tube: TubeSection) -> Allowable:
    """Allowable bending moment of a tube [N m]."""
    raise NotImplementedError


def tube_torsion(tube: TubeSection) -> Allowable:
    """Allowable torsion of a tube [N m]."""
    raise NotImplementedError


def module_front(tested_front_pa: float) -> Allowable:
    """Allowable pressure on the glass [Pa]: test over 1.5."""
    raise NotImplementedError


def module_back(tested_back_pa: float) -> Allowable:
    """Allowable pressure on the back [Pa]: test over 1.5."""
    raise NotImplementedError
