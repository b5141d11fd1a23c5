"""The order of work with its gates, and the cautions that belong to the acts."""

from __future__ import annotations

from polestead.wiring.trench.closing import GATE as TRENCH_GATE

STEPS = (
    "Ask: wind, snow, frost, soil, height limit, setback; find your own buried lines; have the public ones marked.",
    "Stake the pole, aim true south (north below the equator), mark the trench.",
    "Trench and hole on one machine day; plank the hole over at night.",
    "Into the hole: crushed rock, pole with its twist bars through the foot, conduit sweep, brace, plumb both ways, aim.",
    "GATE: nothing is poured before the footing has been looked at and signed for.",
    "Pour; read the plumb again; keep it from freezing.",
    TRENCH_GATE,
    "While it cures: strongback, rails, hinge and lock in the shop, fitted together on the floor.",
    "GATE: no steel on the pole before the concrete has its strength; no modules before it has all of it.",
    "Lift strongback and hinge on a still day; prop and storm hold in before the first module.",
    "Rails, then modules from the middle outwards, both sides of the hinge in balance; torque; mark the bolts.",
    "Wire, guard, label; test covered and open; close the battery first, the array after it.",
    "GATE: connected only when the one who answers for the wiring has signed.",
    "First travel slowly, with no load: stops, limit switches, lowest edge, cable loop; measure rod and tilt and write them in.",
)

CAUTIONS = (
    "Screening sums, not a stamped design. An array like this on one pole can kill: an engineer checks pole, pier and hinge.",
    "Nobody under it while it moves, while only the rod holds it, in wind, or with snow on it. Prop and lock before hands go in.",
    "Never climb into the pier hole. A trench of 5 ft (1.5 m) or more is sloped or shored first.",
    "Own buried lines are on no map but yours.",
    "Lift with rated gear, tag lines, in calm, nobody under it, away from power lines. Not alone, not at dusk.",
    "Modules are live in any light and cannot be switched off; an arc of direct current does not go out. Cover, open, measure.",
    "A cold clear dawn gives more volts than any reading you have taken: trust the record low, not the meter.",
    "The engine's exhaust kills indoors; it must never feed a line anyone else may touch.",
    "Welding zinc makes a fever; grind it off, keep the air across the work.",
)
