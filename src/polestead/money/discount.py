"""Money later against money now: present value, level payment, rate of return."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import expm1, log1p


def present_value(rate: float, flows: Sequence[float]) -> float:
    """What yearly flows are worth today; the first flow is today and is not discounted.

    Source: closed form, sum of flow_t / (1 + rate)^t with t = 0 first.  (Spreadsheets discount the first flow too.)

    Args:
        rate: Per period, as a share.
        flows: One per period, today first.

    Raises:
        ValueError: If the rate is -1 or less.

    Example:
        >>> round(present_value(0.08, [-40000, 5000, 8000, 12000, 30000]), 2)
        3065.22
    """
    if rate <= -1.0:
        message = "a rate of -100 % or less has no present value"
        raise ValueError(message)
    return float(sum(flow / (1.0 + rate) ** t for t, flow in enumerate(flows)))


def level_payment(rate: float, periods: int, borrowed: float) -> float:
    """The same payment each period that pays a loan off, paid at the end of each.

    Source: closed form, borrowed x rate / (1 - (1 + rate)^-n); at no interest borrowed / n.

    Args:
        rate: Per period, as a share, 0 or more.
        periods: How many.
        borrowed: Today.

    Raises:
        ValueError: If there is no period or the rate is negative.

    Example:
        >>> round(level_payment(0.05, 20, 10000.0), 2)
        802.43
    """
    if periods < 1 or rate < 0.0:
        message = "a loan needs a period and a rate of 0 or more"
        raise ValueError(message)
    if rate == 0.0:
        return borrowed / periods
    return borrowed * rate / -expm1(-periods * log1p(rate))  # true for the smallest rates too


def rate_of_return(flows: Sequence[float]) -> float | None:
    """The rate at which flows are worth nothing today; the first flow is today.

    Source: present_value = 0, solved between its two ends.  Valid where the flows change sign once, as a spending and the
    savings that follow it: then by Descartes' rule of signs there is one such rate and no other.

    Args:
        flows: One per period, today first.

    Returns:
        The rate per period, or None where the flows do not change sign exactly once, or the rate is under -99 %
        or over 1000 %.

    Example:
        >>> round(rate_of_return([-100, 39, 59, 55, 20]), 5), rate_of_return([-100.0, -5.0])
        (0.28095, None)
    """
    signs = [flow > 0.0 for flow in flows if flow != 0.0]
    if sum(one != other for one, other in pairwise(signs)) != 1:
        return None
    low, high = -0.99, 10.0
    if present_value(low, flows) * present_value(high, flows) > 0.0:
        return None
    from scipy.optimize import brentq

    return float(brentq(lambda rate: present_value(rate, flows), low, high, xtol=1e-14))
