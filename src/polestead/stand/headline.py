"""The working of the card's headline: why that part gives first, at that tilt, from that gust (conventions §12)."""

from __future__ import annotations

from polestead.base.source import Source
from polestead.base.working import Step, Working
from polestead.loads.wind import case_told
from polestead.stand.actions import Met
from polestead.stand.gust import CEILING_M_S, Crossing
from polestead.stand.parts.part import number
from polestead.stand.setting import Setting
from polestead.stand.working import SHOWN, gust_steps

RULE = Source(
    "conventions §12: dead load and the whole wind of that gust",
    "docs/method/stand.md",
    "ours",
)
RULE_EN = Source(
    "conventions §12: dead load and the whole wind of that gust, in their partial factors",
    "docs/method/stand.md",
    "ours",
)


def rule_of(eurocode: bool) -> Source:
    """Conventions §12 in the words of the basis."""
    return RULE_EN if eurocode else RULE


def gives_working(
    crossing: Crossing,
    met_by: Met,
    tilt: int,
    state: str,
    eurocode: bool,
    setting: Setting | None = None,
    more: tuple[Step, ...] = (),
) -> Working:
    """How the gust was found at which the first part is at its limit, in one state at one tilt.

    Args:
        crossing: First crossings over the card's tilts.
        met_by: The gust as the set of that part meets it.
        tilt: Which tilt.
        state: In words.
        eurocode: Whose words the rule is told in.
        setting: The mount, for the ladder of the wind itself; None where the wind is none of the two sets of figures.
        more: Rungs of a wind of its own.
    """
    rule = rule_of(eurocode)
    gust, case = float(crossing.gust_m_s[tilt]), int(crossing.case[tilt])
    part = crossing.gives(tilt)
    still, blown = met_by.one_case(case, tilt)
    acting = still.with_values(still.values + gust**2 * blown.values)
    steps = [
        Step("tilt", "t", "", float(acting.tilt_deg[0]), "deg", rule),
        Step(
            f"gust, three seconds at 10 m in the open; its wind is taken {met_by.factor:g} times",
            "V",
            "",
            gust,
            "m/s",
            rule,
        ),
    ]
    steps += more
    if setting is not None:
        steps += gust_steps(setting, met_by, case, float(acting.tilt_deg[0]), gust, part.fields)
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
                rule,
            )
        )
    capacity = float(part.capacity(acting)[0, 0])
    told = part.told(acting)
    steps += [*part.steps, Step("may carry", "R", "", capacity, part.unit, part.source), *told]
    use = float(part.use(acting)[0, 0])
    if told[-1].word != "use":
        demand = float(part.demand(acting)[0, 0])
        steps.append(Step("use", "U", f"{demand:.5g} / {capacity:.5g}", use, "", part.source))
    found = "stands to: the first gust at which the use is 1"
    if gust >= CEILING_M_S:
        found = "stands to: the highest gust looked at, the use is still under 1"
    steps.append(Step(found, "V", "", gust, "m/s", rule))
    notes = (
        f"Case: {case_told(met_by.name(case))}.",
        "The lower of the code's figures and the single-collector figures is taken.",
    )
    return Working(
        f"stands to, {state}, at {acting.tilt_deg[0]:.0f} deg: {part.name}", tuple(steps), notes
    )
