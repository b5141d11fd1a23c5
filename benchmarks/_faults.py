"""Planted faults and faultless years through the daybook's teaching: delays, causes, false alarms. Minutes, not seconds.

python -m benchmarks._faults [logs a fault] [faultless logs of five years]
"""

from __future__ import annotations

import sys
from collections import Counter

import numpy as np
from scipy.stats import beta
from tests.daybook.teaching.logs import FAULTS, FIRST, START, log_of

from polestead.daybook.teaching.causes import told_apart
from polestead.daybook.teaching.months import month_factors
from polestead.daybook.teaching.scatter import MEASURED, USUAL
from polestead.daybook.teaching.series import expected_of, paired, seen_of
from polestead.daybook.teaching.shapes import shapes_of
from polestead.daybook.teaching.trees import Tree
from polestead.daybook.teaching.view import view_fit
from polestead.daybook.teaching.watch import BUDGET_DAYS, watched

SUNS = ("measured", "eye")
FIRST_DAY = int(START.astype(int))


def told(made, strings, sun):
    """Test and causes of one log."""
    seen = seen_of(made.day, made.made_wh, charge=made.charge)
    pairs = paired(seen, expected_of(made.expected_wh, made.log_sd, low_sun_share=made.low_sun_share))  # fmt: skip
    scatter = MEASURED if sun == "measured" else USUAL
    found = watched(pairs, shapes_of(strings), scatter, strings=strings)
    return found, lambda nth: told_apart(pairs, seen, found, nth, strings, scatter)


def faults(logs: int, suns: tuple[str, ...] = SUNS) -> None:
    """Delay and cause of each planted fault."""
    for sun in suns:
        for name, (loss, strings, days) in FAULTS.items():
            delays, causes, early, inside = [], Counter(), 0, 0
            for seed in range(logs):
                found, apart = told(log_of(5000 + seed, days, sun, loss), strings, sun)
                mine = [nth for nth, a in enumerate(found.alarms) if a.told - FIRST_DAY >= FIRST]
                early += len(found.alarms) - len(mine)
                if mine:
                    delays.append(int(found.alarms[mine[0]].told - FIRST_DAY - FIRST + 1))
                    best = apart(mine[0]).causes
                    causes[best[0].name] += 1
                    inside += name.split()[0] in (best[0].name, best[1].name)
            late = [*delays, *([10**6] * (logs - len(delays)))]
            middle, most = np.quantile(late, (0.5, 0.9), method="lower")
            print(
                f"{sun:9} {name:14} found {len(delays)} of {logs}, half in {middle} d, nine in ten in {most} d; "
                f"{dict(causes.most_common())}, right one first or second {inside}; told before it began {early}",
                flush=True,
            )


def faultless(logs: int, suns: tuple[str, ...] = SUNS) -> None:
    """False alarms over logs of five years with nothing wrong, and their 90 % interval."""
    for sun in suns:
        days, count, when = 1826, 0, []
        for seed in range(logs):
            found, _ = told(log_of(9000 + seed, days, sun), 2, sun)
            count += len(found.alarms)
            when += [int((a.told - FIRST_DAY) // 365) + 1 for a in found.alarms]
        years = logs * days / 365.25
        budget = years * 365.25 / BUDGET_DAYS
        low = beta.ppf(0.05, count, logs * days - count + 1) * 365.25 if count else 0.0
        high = beta.ppf(0.95, count + 1, logs * days - count) * 365.25
        print(
            f"{sun:9} {count} false alarms in {years:.0f} years, budget {budget:.0f}; a year {count / years:.3f} "
            f"(90 % {low:.3f} to {high:.3f}), budget {365.25 / BUDGET_DAYS:.3f}; by year of the log {sorted(Counter(when).items())}",
            flush=True,
        )


def months_and_view(logs: int) -> None:
    """How often the 90 % intervals of month factors and of the trees' light hold the truth."""
    held = count = past = 0
    off = np.zeros(12)
    for seed in range(logs):
        made = log_of(300 + seed, 1096)
        pairs = paired(seen_of(made.day, made.made_wh, charge=made.charge), expected_of(made.expected_wh, made.log_sd))  # fmt: skip
        for nth, one in enumerate(month_factors(pairs, np.zeros(pairs.days, dtype=bool))):
            held += one.low <= np.exp(made.truth_by_month[nth]) <= one.high
            count += 1
            off[nth] += (np.log(one.factor) - made.truth_by_month[nth]) / logs
        times = 0.6 if seed % 2 else 1.0
        made = log_of(500 + seed, 900, "eye", lambda _, low, __, t=times: np.log1p(low * (t - 1.0)))  # fmt: skip
        pairs = paired(seen_of(made.day, made.made_wh, charge=made.charge), expected_of(made.expected_wh, made.log_sd, low_sun_share=made.low_sun_share))  # fmt: skip
        fit = view_fit(pairs, np.zeros(pairs.days, dtype=bool), (Tree(1, 180.0, 270.0, 0.5, None, 0.0),))  # fmt: skip
        past += fit.low <= times <= fit.high
    print(
        f"month factors: {held} of {count} intervals hold the truth, off by {np.abs(off).max():.3f} at most in a month"
    )
    print(f"light past the trees: {past} of {logs} intervals hold the truth", flush=True)


if __name__ == "__main__":
    faults(int(sys.argv[1]) if len(sys.argv) > 1 else 60)
    faultless(int(sys.argv[2]) if len(sys.argv) > 2 else 100)
    months_and_view(30)
