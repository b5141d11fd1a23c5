"""All there is to say of the wires: what hangs on no weather, and what the years say of run, controllers and tilt drive."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from polestead.answer.stands import layouts_in, strongback_kg_of, wire_choices_of, wires_of
from polestead.answer.supply import BLOCK_YEARS, Skies
from polestead.answer.tilt_drive import drive_supply_of
from polestead.answer.winter import HouseOnSun
from polestead.answer.wires_run import RunChoices, run_choices_of, run_over_year
from polestead.answer.wires_year import held_back_by_controller
from polestead.base.check import Check
from polestead.homestead.model import Homestead
from polestead.homestead.read import OwnersFile
from polestead.mount.geometry import geometry_of
from polestead.mount.schedule import two_tilts
from polestead.wiring.basis import Ask, Basis, asks_of, basis_of
from polestead.wiring.choices import Choices
from polestead.wiring.drawn.form import Form, form_of
from polestead.wiring.drawn.one_line import OneLine, one_line_of
from polestead.wiring.drawn.string_map import StringMap, string_map_of
from polestead.wiring.layouts import Layouts
from polestead.wiring.result import WiringResult
from polestead.wiring.run.hinge_cable import HINGE_CABLE, ONE_CORD
from polestead.wiring.tilt_drive.result import NO_DRIVE, NO_SUPPLY, TiltDrive


@dataclass(frozen=True, slots=True)
class Wires:
    """The wires from the modules to the battery's terminals, and the little system that drives the tilt.

    Attributes:
        name: Of the homestead.
        basis: The code that counts, and what it is taken to say.
        asks: What to ask where local rules are known to differ.
        wiring: Strings and run as the file has them; what guards them; battery; trench; cord over the hinge.
        layouts: Every way to string new and old arrays.
        choices: Every size of wire.
        over_years: The run over the year, its worth, the trade of strings, controller and wire.
        tilt_drive: Its supply through every winter; None where the file has none.
        one_line, string_map: To be drawn.
        form: What a meter should show.
        not_looked_at: What no sum here saw, because the file does not have it; it is no pass.
        open_asks: All that stands open of run, guards, battery, trench and tilt drive; none of it counts as passed.
    """

    name: str
    basis: Basis
    asks: tuple[Ask, ...]
    wiring: WiringResult
    layouts: Layouts
    choices: Choices
    over_years: RunChoices
    tilt_drive: TiltDrive | None
    one_line: OneLine
    string_map: StringMap
    form: Form
    not_looked_at: tuple[str, ...]
    open_asks: tuple[str, ...]

    @property
    def checks(self) -> tuple[Check, ...]:
        """Everything that must hold: wires, the strings in the file with what hangs beside them, old arrays, tilt drive."""
        drive = () if self.tilt_drive is None else self.tilt_drive.checks
        return (*self.wiring.checks, *self._of_strings(), *drive)

    def _of_strings(self) -> Iterator[Check]:
        """What only the layouts ask: fuse, neighbours and amperes of the new strings, and everything of each old array."""
        told = {(check.part, check.name) for check in self.wiring.checks}
        # the file's own cord is held already, by all three of what that one is the worst of
        if self.wiring.cord is not None:
            told.add((HINGE_CABLE, ONE_CORD))
        yield from (one for one in self.layouts.chosen.checks if (one.part, one.name) not in told)
        for old in self.layouts.old:
            for layout in old.layouts:
                if layout.chosen:
                    for check in layout.checks:
                        yield replace(check, part=f"old array {old.name}, {check.part}")


def wires_in(
    owners: OwnersFile,
    seed: int = 1,
    plane_w_m2: float | None = None,
    cell_c: float | None = None,
) -> Wires:
    """Work the wires through: one block of years under the owner's own moves.

    Args:
        owners: The file as read.
        seed: Of the weather.
        plane_w_m2: Irradiance on the glass at the hour of the test [W/m2]; None: the form's table only.
        cell_c: Temperature of the cells then [C]; None: the form's table only.

    Raises:
        Wrong: Where the file is consistent in itself but not in the world (no such wire, pipe, place).
    """
    file = owners.homestead
    mount, place = file.mount, file.place
    wiring, choices = wires_of(file), wire_choices_of(file)
    geometry = geometry_of(mount, file.array, strongback_kg_of(mount, file.array))
    skies = Skies(file, owners.path.parent, geometry, BLOCK_YEARS, seed)
    house = HouseOnSun(file, skies)
    plan = two_tilts(mount.winter_tilt_deg, mount.summer_tilt_deg, place.latitude_deg)
    held_back = held_back_by_controller(file, house, plan)
    layouts = layouts_in(file, held_back)
    year = run_over_year(file, skies, house, plan)
    drive = drive_supply_of(file, skies)
    controller = next(one for one in file.household.controller if one.name == file.array.controller)
    return Wires(
        name=file.name,
        basis=basis_of(place.wired_by),
        asks=asks_of(place, wiring.cold_with_margin_v, file.run.in_house_m),
        wiring=wiring,
        layouts=layouts,
        choices=choices,
        over_years=run_choices_of(file, year, choices.sizes, layouts.new, held_back),
        tilt_drive=drive,
        one_line=drawn_from(file, wiring),
        string_map=string_map_of(file.array),
        form=form_of(place, file.array, controller, wiring.drop_share, plane_w_m2, cell_c),
        not_looked_at=_not_looked_at(file),
        open_asks=(*wiring.open_asks, *(() if drive is None else drive.asks)),
    )


def _not_looked_at(file: Homestead) -> tuple[str, ...]:
    if file.drive is None:
        return (NO_DRIVE,)
    return (NO_SUPPLY,) if file.drive.supply is None else ()


def drawn_from(file: Homestead, wiring: WiringResult) -> OneLine:
    """The one-line of the file's own wiring: for the list, the book and the drawings alike."""
    return one_line_of(file.household, file.array, file.run, wiring, file.place.wired_by)
