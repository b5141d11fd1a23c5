"""The working of the card's headline: why that part gives first, at that tilt, from that gust (conventions §12)."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.loads.wind import case_told
from polestead.stand.actions import Met
from polestead.stand.gust import Crossing
from polestead.stand.parts.part import number
from polestead.stand.setting import Setting
from polestead.stand.working import SHOWN, gust_steps

RULE = Source(
    "conventions §12: dead load and the whole wind of that gust; Eurocode: in its partial factors",
    "docs/method/stand.md",
    "ours",
)


def gives_working(
    crossing: Crossing, met_by: Met, tilt: int, state: str, setting: Setting | None = None
) -> Working:
    """How the gust was found at which the first part is at its limit, in one state at one tilt.

    Args:
        crossing: First crossings over the card's tilts.
        met_by: The gust as the set of that part meets it.
        tilt: Which tilt.
        state: In words.
        setting: The mount, for the ladder of the wind itself; None where the wind is none of the two sets of figures.
    """
    gust, case = float(crossing.gust_m_s[tilt]), int(crossing.case[tilt])
    part = crossing.gives(tilt)
    still, blown = met_by.one_case(case, tilt)
    acting = still.with_values(still.values + gust**2 * blown.values)
    steps = [
        Step("tilt", "t", "", float(acting.tilt_deg[0]), "deg", RULE),
        Step(
            f"gust, three seconds at 10 m in the open; its wind is taken {met_by.factor:g} times",
            "V",
            "",
            gust,
            "m/s",
            RULE,
        ),
    ]
    if setting is not None:
        steps += gust_steps(setting, met_by, case, float(acting.tilt_deg[0]), gust)
    for name in part.fields:
        word, symbol, unit = SHOWN[name]
        formula = f"{number(still, name):.5g} + {gust:.3f}^2 x {number(blown, name):.6g}"
        steps.append(
            Step(
                f"{word}, at rest and per gust squared",
                symbol,
                formula,
                number(acting, name),
                unit,
                RULE,
            )
        )
    capacity = float(part.capacity(acting)[0, 0])
    told = part.told(acting)
    steps += [*part.steps, Step("may carry", "R", "", capacity, part.unit, part.source), *told]
    use = float(part.use(acting)[0, 0])
    if told[-1].word != "use":
        demand = float(part.demand(acting)[0, 0])
        steps.append(Step("use", "U", f"{demand:.5g} / {capacity:.5g}", use, "", part.source))
    steps.append(
        Step("stands to: the first gust at which the use is 1", "V", "", gust, "m/s", RULE)
    )
    notes = (
        f"Case: {case_told(met_by.name(case))}.",
        "The lower of the code's figures and the single-collector figures is taken.",
    )
    return Working(
        f"stands to, {state}, at {acting.tilt_deg[0]:.0f} deg: {part.name}", tuple(steps), notes
    )
