"""What the drawings are drawn from, without the weather and the house."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from polestead.answer.stands import given_only, stand_only, wires_of
from polestead.answer.wires import drawn_from
from polestead.base.row import Row
from polestead.base.show import Style
from polestead.build.build import build_of
from polestead.build.given import Given
from polestead.build.pieces.plates import PlateCut
from polestead.build.result import BuildResult
from polestead.footing.pier import IBC_EDITION
from polestead.homestead.model import BuriedLine
from polestead.homestead.read import OwnersFile
from polestead.stand.result import StandResult
from polestead.wiring.drawn.one_line import OneLine
from polestead.wiring.drawn.string_map import StringMap, string_map_of
from polestead.wiring.trench.own_lines import OwnLines

if TYPE_CHECKING:
    from polestead.wiring.trench.trench import Trench


@dataclass(frozen=True, slots=True)
class Drawables:
    """Everything a drawing shows.

    Attributes:
        name: Of the homestead.
        fingerprint: Of its file.
        basis: Codes the sums follow.
        given: Sections of the file with geometry and pipe.
        built: Pieces, plates, pour, lifts, hanging order.
        buried: The owner's own lines as written.
        trench: What must be in it, and the owner's lines against trench and hole.
        stand: Gusts and checks.
        one_line, strings: The wires.
        rows: Where every value comes from.
        unsettled: Section and key of every value nobody has settled.
    """

    name: str
    fingerprint: str
    basis: str
    given: Given
    built: BuildResult
    buried: tuple[BuriedLine, ...]
    trench: Trench
    stand: StandResult
    one_line: OneLine
    strings: StringMap
    rows: tuple[Row, ...]
    unsettled: frozenset[tuple[str, str]]

    @property
    def own(self) -> OwnLines:
        """The owner's own lines against trench and hole."""
        return self.trench.own

    @property
    def plates(self) -> tuple[PlateCut, ...]:
        """To cut and drill."""
        return self.built.plates

    @property
    def concrete_m3(self) -> float:
        """To order, waste in it."""
        return self.built.concrete.order_m3


def drawables_of(
    owners: OwnersFile, stand: StandResult | None = None, style: Style | None = None
) -> Drawables:
    """Worked from the file alone.

    Args:
        owners: The file as read.
        stand: Gusts, where they were worked already.
        style: In whose units sentences are written; None: the file's.

    Raises:
        Wrong: No such pipe or tube.
    """
    file = owners.homestead
    wires = wires_of(file)
    given = given_only(owners, wires, style)
    built = build_of(given)
    trench = cast("Trench", wires.trench)  # always there where the pole was looked at
    eurocode = given.eurocode
    return Drawables(
        name=file.name,
        fingerprint=owners.fingerprint,
        basis="EN 1990, 1991, 1993, 1997" if eurocode else f"{file.place.wind_basis}, AISC 360-16, {IBC_EDITION}",
        given=given,
        built=built,
        buried=file.buried,
        trench=trench,
        stand=stand or stand_only(owners),
        one_line=drawn_from(file, wires),
        strings=string_map_of(file.array),
        rows=owners.rows,
        unsettled=frozenset((row.section, row.key) for row in owners.rows if row.unsettled),
    )  # fmt: skip
