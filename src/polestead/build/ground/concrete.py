"""The pour: in place less the pole, in bags and trucks, and the words to order it with."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, pi

from polestead.base.source import COMMON_PRACTICE, OWNER, Source
from polestead.base.table import table
from polestead.base.working import Step, Working
from polestead.build.ground.spoil import heap_m, loose_m3

WASTE_SHARE = 0.10  # an augered hole is never round: common practice, no source
TRUCK_FROM_M3 = 1.0  # past about 60 bags a truck is the sensible way: common practice, no source
TRUCK_HOLDS_M3 = 6.0  # 8 yd3: common practice, no source
YARD_M3 = 0.764554857984
SHORT_LOAD_M3 = 3.0 * YARD_M3  # up to about 3 yd3 plants charge for the short load (from memory)
YARD_STEP, METRIC_STEP_M3 = 0.25, 0.1  # plants sell in such steps: common practice, no source
PSI_PA = 6894.757
BAG_YIELD = Source("bagged-concrete yield tables", "a bag of 80 lb (36.3 kg): 0.60 ft3 (0.0170 m3)")
GEOMETRY = Source("volume of a cylinder", status="computed")
AIR = Source("ACI 318", "19.3.2 and 19.3.3: 3/4 in stone, wet and freezing", "memory")
FROST_PA, WET_FROST_PA = 3500 * PSI_PA, 4500 * PSI_PA  # ACI 318 classes F1 and F2
FROST_EN_PA = 30e6  # EN 206 table F.1, XF1 and XF3: C30/37


@dataclass(frozen=True, slots=True)
class Bags:
    """So many bags of one size.

    Attributes:
        bag: The size, as sold.
        count: How many, for the pour with its waste.
        mass_kg: Dry, all of them.
    """

    bag: str
    count: int
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Concrete:
    """The pour.

    Attributes:
        hole_m3: Hole and collar, as if nothing stood in them.
        pole_m3: What the pole takes of it: its steel, or the whole of it where it is left empty.
        volume_m3: In place.
        with_waste_m3: A tenth more, for a hole that is never round.
        order_m3: To order: that, up to the next step a plant sells in. The one figure for plant, card and price.
        bags_80_lb: Number of 80 lb bags for what is wanted with the waste: bags have no such step.
        bags: The same in each size sold.
        truck: Whether a truck is the sensible way.
        trucks: How many; 0 where it is mixed by hand.
        short_load: Whether a plant is likely to charge for a short load.
        sold: That figure as the plant sells it, and in the units it is told in where these differ.
        why: Why so much: waste, and the step it is sold in.
        order: The sentence to say on the telephone.
        doubts: What to settle before it is ordered.
        spoil_bank_m3, spoil_loose_m3: Soil out of the hole.
        heap_wide_m, heap_high_m: Of that soil in a heap.
        working: The sums.
    """

    hole_m3: float
    pole_m3: float
    volume_m3: float
    with_waste_m3: float
    order_m3: float
    bags_80_lb: int
    bags: tuple[Bags, ...]
    truck: bool
    trucks: int
    short_load: bool
    sold: str
    why: str
    order: str
    doubts: tuple[str, ...]
    spoil_bank_m3: float
    spoil_loose_m3: float
    heap_wide_m: float
    heap_high_m: float
    working: Working

    def bags_sold(self, metric: bool) -> tuple[Bags, ...]:
        """The bags as they are sold where these units are used, the largest first."""
        return tuple(one for one in self.bags if one.bag.endswith("kg" if metric else "lb"))


def cylinder_m3(diameter_m: float, height_m: float) -> float:
    """Volume of a cylinder.

    Example:
        >>> round(cylinder_m3(0.75, 2.1), 3)
        0.928
    """
    return pi * diameter_m**2 / 4.0 * height_m


def bags_for(volume_m3: float, bag: str) -> Bags:
    """Bags of one size for a volume, rounded up.

    Source: ``ground/bags.csv``.

    Args:
        volume_m3: Concrete wanted [m^3].
        bag: ``80 lb``, ``60 lb`` or ``25 kg``.

    Example:
        >>> bags_for(1.27 * YARD_M3, "80 lb").count
        58
    """
    row = next(row for row in table("build", "ground/bags") if row["bag"] == bag)
    count = ceil(volume_m3 / float(row["yield_m3"]) - 1e-9)
    return Bags(bag, count, count * float(row["mass_kg"]))


@dataclass(frozen=True, slots=True)
class Pour:
    """What is poured, and round what.

    Attributes:
        diameter_m, depth_m, collar_m: The hole, and the concrete over the ground.
        pole_outside_m, pole_steel_m2: The pole's outside and the area of its wall.
        pole_depth_m: Pole below the ground.
        filled: Whether it is poured inside as high as outside.
        strength_pa: Asked for.
        freezes: Whether the collar freezes.
        eurocode: Whose classes name it.
        metric: In which units it is told.
        sold_metric: In which units the plant sells; None: those.
    """

    diameter_m: float
    depth_m: float
    collar_m: float
    pole_outside_m: float
    pole_steel_m2: float
    pole_depth_m: float
    filled: bool
    strength_pa: float
    freezes: bool
    eurocode: bool
    metric: bool
    sold_metric: bool | None = None

    @property
    def by_m3(self) -> bool:
        """Whether the plant sells by the cubic metre."""
        return self.metric if self.sold_metric is None else self.sold_metric


def concrete_of(pour: Pour, soil: str) -> Concrete:
    """The pour of a round pier with the pole standing in it.

    Args:
        pour: Hole, pole and what is asked of the concrete.
        soil: Soil class.
    """
    high_m = pour.depth_m + pour.collar_m
    hole_m3 = cylinder_m3(pour.diameter_m, high_m)
    pole_m = pour.pole_depth_m + pour.collar_m
    pole_m2 = pour.pole_steel_m2 if pour.filled else pi / 4.0 * pour.pole_outside_m**2
    pole_m3 = pole_m2 * pole_m
    volume_m3 = hole_m3 - pole_m3
    wasted_m3 = volume_m3 * (1.0 + WASTE_SHARE)
    order_m3 = order_step_m3(wasted_m3, pour.by_m3)
    bags = tuple(bags_for(wasted_m3, row["bag"]) for row in table("build", "ground/bags"))
    truck = wasted_m3 >= TRUCK_FROM_M3
    trucks = ceil(order_m3 / TRUCK_HOLDS_M3) if truck else 0
    bank_m3 = cylinder_m3(pour.diameter_m, pour.depth_m)
    loose = loose_m3(bank_m3, soil)
    what = "the pole's steel, poured full" if pour.filled else "the pole, left empty"
    steps = (
        Step("diameter of the hole", "b", "", pour.diameter_m, "m", OWNER),
        Step("depth and collar", "D + e", f"{pour.depth_m:.3f} + {pour.collar_m:.3f}", high_m, "m", OWNER),
        Step("hole and collar", "V0", f"pi {pour.diameter_m:.3f}^2 / 4 x {high_m:.3f}", hole_m3, "m^3", GEOMETRY),
        Step(f"less {what}", "Vp", f"{pole_m2:.5f} x {pole_m:.3f}", pole_m3, "m^3", GEOMETRY),
        Step("in place", "V", f"{hole_m3:.4f} - {pole_m3:.4f}", volume_m3, "m^3", GEOMETRY),
        Step("with waste", "V + 10 %", f"{volume_m3:.3f} x {1 + WASTE_SHARE:.2f}", wasted_m3, "m^3", COMMON_PRACTICE),
        Step("or bags of 80 lb (36 kg)", "n", f"{wasted_m3:.3f} / 0.01699, rounded up", float(bags[0].count), "", BAG_YIELD),
        Step("to order from a plant", "Vo", f"{wasted_m3:.3f}, up to the next {'0.1 m3' if pour.by_m3 else '1/4 yd3'}", order_m3, "m^3", COMMON_PRACTICE),
    )  # fmt: skip
    return Concrete(
        hole_m3, pole_m3, volume_m3, wasted_m3, order_m3, bags[0].count, bags, truck, trucks, truck and order_m3 <= SHORT_LOAD_M3 * trucks * (1.0 + 1e-9),
        sold_words(order_m3, pour.metric, pour.by_m3), order_why(wasted_m3, pour.metric, pour.by_m3), order_words(pour, order_m3), doubts_of(pour), bank_m3, loose, *heap_m(loose),
        Working("concrete for the pier", steps),
    )  # fmt: skip


def order_step_m3(wasted_m3: float, metric: bool) -> float:
    """Up to the next quarter yard, or tenth of a cubic metre, as plants sell it: common practice, no source.

    Args:
        wasted_m3: With the waste in it [m^3].
        metric: In which units it is ordered.

    Example:
        >>> round(order_step_m3(2.16, metric=True), 6), round(order_step_m3(2.16, metric=False) / YARD_M3, 6)
        (2.2, 3.0)
    """
    step_m3 = METRIC_STEP_M3 if metric else YARD_STEP * YARD_M3
    return ceil(wasted_m3 / step_m3 - 1e-9) * step_m3


def sold_words(order_m3: float, metric: bool, by_m3: bool) -> str:
    """What is ordered, in the plant's unit; in the reader's beside it where that is another.

    Args:
        order_m3: To order [m^3].
        metric: In which units it is told.
        by_m3: Whether the plant sells by the cubic metre.

    Example:
        >>> sold_words(3.0 * YARD_M3, False, False), sold_words(2.2, True, True), sold_words(3.0 * YARD_M3, True, False)
        ('3 yd³', '2.2 m³', '3 yd³ (2.29 m³)')
    """
    yards, metres = f"{order_m3 / YARD_M3:.4g} yd³", f"{order_m3:.4g} m³"
    if metric == by_m3:
        return metres if metric else yards
    return f"{metres} ({order_m3 / YARD_M3:.2f} yd³)" if by_m3 else f"{yards} ({order_m3:.2f} m³)"


def order_why(wasted_m3: float, metric: bool, by_m3: bool) -> str:
    """Why so much is ordered; arguments as ``sold_words``, with the waste in it but no step yet.

    Example:
        >>> order_why(2.14, False, False)
        '2.80 yd³ with a tenth for waste, up to the next quarter yard, as plants sell it'
    """
    with_waste = f"{wasted_m3:.2f} m³" if metric else f"{wasted_m3 / YARD_M3:.2f} yd³"
    step = "tenth of a cubic metre" if by_m3 else "quarter yard"
    return f"{with_waste} with a tenth for waste, up to the next {step}, as plants sell it"


def strength_words(strength_pa: float, metric: bool) -> str:
    """The strength as a plant knows it.

    Example:
        >>> strength_words(3000 * PSI_PA, False), strength_words(25e6, True), strength_words(20.68e6, True)
        ('3,000 psi', 'cylinder strength 25 MPa', 'cylinder strength 20.7 MPa')
    """
    if metric:
        return f"cylinder strength {f'{strength_pa / 1e6:.1f}'.removesuffix('.0')} MPa"
    return f"{round(strength_pa / PSI_PA / 50.0) * 50:,d} psi"


def order_words(pour: Pour, order_m3: float) -> str:
    """The sentence to say to the plant; what is its to say is asked.

    Args:
        pour: What is poured.
        order_m3: To order [m^3].
    """
    wide = f"{pour.diameter_m:.2f} m" if pour.metric else f"{pour.diameter_m / 0.0254:.0f} in"
    deep = f"{pour.depth_m:.2f} m" if pour.metric else f"{pour.depth_m / 0.3048:.1f} ft"
    stone = "20 mm" if pour.metric else "3/4 in"
    air = (
        f"with entrained air for {stone} stone that freezes wet (about 6 percent: you say)"
        if pour.freezes
        else "no entrained air needed for frost"
    )
    return (
        f"I want {sold_words(order_m3, pour.metric, pour.by_m3)} of {strength_words(pour.strength_pa, pour.metric)} at 28 days, "
        f"largest stone {stone}, {air}, for one pier {wide} across and {deep} deep poured from the chute round a steel pole in one go. "
        f"Which slump do you send for that, how near must the truck come, how long may it stand, and what is the charge for a short load? "
        f"No calcium chloride: there is steel in it. No water is added on the place."
    )


def doubts_of(pour: Pour) -> tuple[str, ...]:
    """What to settle before it is ordered."""
    said = []
    if pour.freezes and not pour.eurocode and pour.strength_pa < WET_FROST_PA:
        said.append(
            f"The collar freezes: for concrete that freezes ACI 318 table 19.3.2.1 asks {strength_words(FROST_PA, pour.metric)}, and {strength_words(WET_FROST_PA, pour.metric)} where it stands wet "
            f"(from memory); the file has {strength_words(pour.strength_pa, pour.metric)}. Ask the building office which class a collar is."
        )
    if pour.freezes and pour.eurocode and pour.strength_pa < FROST_EN_PA:
        said.append(
            f"The collar freezes: EN 206 table F.1 advises C30/37 for XF1 and XF3 (from memory); the file has {strength_words(pour.strength_pa, pour.metric)}. Ask the engineer which class a collar is."
        )
    if not pour.filled:
        said.append("The pole is left empty: give it a drain hole and a cap, or water stands and freezes in it.")  # fmt: skip
    return tuple(said)
