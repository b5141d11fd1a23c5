"""Two cards written by hand, one with a gate, for tests of paper and phone."""

from __future__ import annotations

from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure, Gate

HOLE = Card(
    act="hole",
    title="Hole and footing",
    who="Two people, one day",
    tools=("bar", "shovel", "level", "cover boards"),
    hire="auger 36 in with its driver, half a day",
    needs=("locate", "stake"),
    figures=(
        Figure(2.5908, "m", "deep from the ground, the gravel in it"),
        Figure(0.9144, "m", "across, straight sides"),
        Figure(0.0, "", "down: two twist bars, crossed", "60″, 78″"),
    ),
    steps=(
        CardStep("Utility marks seen on the ground."),
        CardStep("Auger to depth.", "Cover the hole whenever you step away."),
        CardStep("Gravel, tamped."),
        CardStep("Pole in, both bars through."),
        CardStep("Pour in one go."),
    ),
    gate_after=2,
    gate=Gate("footing", "Nothing closes before the footing inspection.", "inspector"),
    as_built=(AsBuilt("depth", "footing.depth"),),
    sketch="side",
    missing=("pier size",),
    notes=(),
)
LIFT = Card(
    "lift", "Lift", "Three people", ("two tag lines",), "", ("pour",), (Figure(371.0, "kg", "the pole"), Figure(3.0, "", "people"), Figure(6.8, "m/s", "lift only under")),
    (CardStep("Look up: power lines.", "Nobody under the load."), CardStep("Raise it.")), None, None, (), "", (), (),
)  # fmt: skip
DECK = (HOLE, LIFT)
