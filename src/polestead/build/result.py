"""What `build` hands up."""

from __future__ import annotations

from dataclasses import dataclass

from polestead.base.check import Check
from polestead.base.row import Row
from polestead.build.bars import CuttingPlan
from polestead.build.ground.concrete import Concrete
from polestead.build.ground.trench import DugTrench
from polestead.build.lifts.braces import PoleBraces
from polestead.build.lifts.hanging import HangingOrder
from polestead.build.lifts.lift import Lift
from polestead.build.pieces.bolts import BoltedJoint
from polestead.build.pieces.coating import MetalsMeet
from polestead.build.pieces.piece import Piece
from polestead.build.pieces.plates import PlateCut
from polestead.build.pieces.welds import WeldJoint
from polestead.build.steps import Act, SignOff


@dataclass(frozen=True, slots=True)
class Question:
    """Whom to ask what, with the trap in the reply."""

    row: Row
    whom: str
    sentence: str
    trap: str


@dataclass(frozen=True, slots=True)
class BuildResult:
    """How it is built.

    Attributes:
        pieces: Every piece with its letter, length, weight, price, place.
        not_given: What the file does not tell of them: measured, chosen or asked before it is bought.
        cut_list: Bars to buy and how to saw them, by material.
        lengths_guessed: Kinds of stock whose lengths the file does not give: asked of the yard.
        plates: Plates and wraps to cut and drill.
        joints: Bolts and pins, and how tight.
        welds: Every weld, with leg and length where its strength is summed.
        metals: Which of his own metals meet, and what goes between.
        tipping_mass_kg: All that tips.
        heaviest_lift_kg, heaviest_lift: The heaviest thing raised at once.
        concrete: The pour.
        trench: The trench.
        lifts: Every lift, in order.
        braces: The pole kept plumb until its concrete holds.
        hanging: The order of the modules.
        checks: Holds while hanging, holes in plates, sides of hole and trench.
        notes: What does not fit together, and what to know.
        steps: The order of work with its gates.
        cautions: What belongs to the acts.
        acts: The same order as data: crew, tools, hire, what each needs and stands behind.
        sign_offs: The gates as data.
    """

    pieces: tuple[Piece, ...]
    not_given: tuple[str, ...]
    cut_list: tuple[CuttingPlan, ...]
    lengths_guessed: tuple[str, ...]
    plates: tuple[PlateCut, ...]
    joints: tuple[BoltedJoint, ...]
    welds: tuple[WeldJoint, ...]
    metals: tuple[MetalsMeet, ...]
    tipping_mass_kg: float
    heaviest_lift_kg: float
    heaviest_lift: str
    concrete: Concrete
    trench: DugTrench
    lifts: tuple[Lift, ...]
    braces: PoleBraces
    hanging: HangingOrder
    checks: tuple[Check, ...]
    notes: tuple[str, ...]
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    acts: tuple[Act, ...]
    sign_offs: tuple[SignOff, ...]
