"""The hourly house a second time, in plain Python, written from the equations and not from the compiled loop.

It takes other roads where there are any: the tanks by the difference of their levels, currents by trying two points of a
straight line, tables by its own interpolation.  Slow on purpose.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass, field, fields

B3 = (
    (-20, 1.59),
    (-10, 1.35),
    (0, 1.19),
    (10, 1.11),
    (15, 1.07),
    (20, 1.04),
    (25, 1.0),
    (30, 0.98),
    (40, 0.94),
)
IRON_SHARE = ((-20, 0.70), (-10, 0.85), (0, 0.93), (25, 1.0))
IRON_REST = ((0.0, 3.00), (0.1, 3.20), (0.3, 3.27), (0.6, 3.30), (0.9, 3.33), (1.0, 3.40))
IRON_OHM = ((-20, 4.0), (0, 2.0), (25, 1.0))
ACID = ((1.05, -2.8), (1.1, -7.8), (1.15, -15.0), (1.2, -27.2), (1.225, -37.2), (1.265, -59.4))


def along(points, x):
    if x <= points[0][0]:
        return points[0][1]
    if x >= points[-1][0]:
        return points[-1][1]
    at = bisect_right([p[0] for p in points], x)
    (x0, y0), (x1, y1) = points[at - 1], points[at]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


class Tanks:
    """Two tanks whose levels drift together: d = q1/c - q2/(1 - c) falls off with k while q1 + q2 only counts."""

    def __init__(self, bank):
        self.c, self.k = bank.at_once, bank.slow_per_h
        self.q, self.q1 = 0.8 * bank.full_ah, 0.8 * bank.full_ah * bank.at_once

    @property
    def apart(self):
        return 0.0 if self.c == 1.0 else self.q1 / self.c - (self.q - self.q1) / (1.0 - self.c)

    def first_after(self, out, under=0.0):
        """First tank after an hour, both tanks counted from a false bottom."""
        q, q1 = self.q - under, self.q1 - self.c * under
        apart = 0.0 if self.c == 1.0 else q1 / self.c - (q - q1) / (1.0 - self.c)
        e = math.exp(-self.k)
        apart = apart * e - out / self.c * (1.0 - e) / self.k
        return self.c * (q - out + (1.0 - self.c) * apart)

    def current_to(self, wanted, under=0.0):
        nothing, one = self.first_after(0.0, under), self.first_after(1.0, under)
        return (nothing - wanted) / (nothing - one)

    def draw(self, out, first_holds):
        first = self.first_after(out)
        self.q -= out
        self.q1 = (
            first if first <= first_holds else first_holds
        )  # what does not fit runs into the other


@dataclass
class Told:
    into: float = 0.0
    out: float = 0.0
    amps_in: float = 0.0
    stored: float = 0.0
    amps_out: float = 0.0
    short: float = 0.0
    drawn: float = 0.0
    spare: float = 0.0
    charger: float = 0.0
    volts: float = 0.0
    limited: bool = False

    def in_turn(self, then, share):
        values = {
            f.name: share * getattr(self, f.name) + (1 - share) * getattr(then, f.name)
            for f in fields(self)
        }
        return Told(**values | {"limited": self.limited or then.limited})


@dataclass
class Twin:
    bank: object
    inside: object
    motor: object
    charges: list = field(default_factory=list)

    def __post_init__(self):
        self.tanks = Tanks(self.bank)
        self.names = ("hours", "used", "full", "slow", "held", "dawn", "dawns")
        self.year_names = (
            "starts",
            "given",
            "uses",
            "dark_wh",
            "dark_hours",
            "lowest",
            "margin",
            "gap",
        )

    # -- the battery ------------------------------------------------------------------------------------------------
    def locked(self):
        if self.bank.lead:
            return max(0.0, self.bank.full_ah - self.bank.full_ah / along(B3, self.t))
        if not self.bank.cold_limits:
            return 0.0
        return self.bank.full_ah - self.bank.full_ah * along(IRON_SHARE, self.t)

    def in_limit(self):
        b = self.bank
        if b.lead or not b.cold_limits:
            return b.most_in_a
        table = ((0.0, 0.0), (5.0, 0.1), (10.0, 0.2), (math.inf, 0.5))
        return min(b.most_in_a, next(s for top, s in table if self.t < top) * b.rated_ah)

    def out_limit(self):
        b = self.bank
        if b.lead or not b.cold_limits:
            return math.inf
        table = ((-20.0, 0.0), (-10.0, 0.2), (0.0, 0.5), (math.inf, 1.0))
        return next(s for top, s in table if self.t < top) * b.rated_ah

    def ohm(self):
        return self.bank.cell_ohm * along(IRON_OHM, self.t)

    def take(self, source):
        b, s = self.bank, self.tanks.q / self.bank.full_ah
        if b.lead:
            left = 1.0 - min(s, 0.98)
            per_c10 = (1.036 + 0.48 * left**-1.2) * max(0.25, 1.0 - 0.025 * (self.t - 25.0))
            rest, slope = 2.0 + 0.16 * s, per_c10 / b.full_ah
            top = (b.absorb_v if s < 0.98 else 2.25) + 0.005 * (25.0 - self.t)
        else:
            rest, slope, top = along(IRON_REST, s) + b.lag_v, self.ohm(), 3.45
        watts = source / b.cells
        offer = (
            watts / rest
            if slope == 0.0
            else (math.sqrt(rest**2 + 4 * slope * watts) - rest) / (2 * slope)
        )
        if rest + slope * offer > top:
            offer = watts / top
        into = min(offer, self.in_limit())
        volts, gas = min(top, rest + slope * into), 0.0
        room = b.full_ah - self.tanks.q
        if b.lead:
            per_ah = 0.0002 * math.exp(11 * (volts - 2.23) + 0.06 * (self.t - 20))
            gas = min(into, b.gas_share * b.rated_ah * per_ah)
            over = max(0.0, top - 2.0 - 0.16 * min(s, 0.98))
            rate = over / per_c10 / left
        else:
            rate = (
                self.in_limit() / (1 - b.taper_from) / b.full_ah if b.taper_from < 1 else math.inf
            )
        wanted = (into - gas) * b.returned
        stored = min(wanted, room) if rate == math.inf else self.accepted(wanted, room, rate)
        stored = max(0.0, min(stored, room))
        if stored < wanted and b.lead:
            volts = top
        amps = stored / b.returned + gas
        power = min(source, amps * volts * b.cells)
        return power, amps, stored, volts * b.cells, stored < wanted * (1 - 1e-12) or into < offer

    @staticmethod
    def accepted(offer, room, rate):
        if min(offer, room, rate) <= 0.0:
            return 0.0
        until = max(
            0.0, (room - offer / rate) / offer
        )  # steady until the acceptance has come down to the offer
        if until >= 1.0:
            return offer
        room_then = room - offer * until
        return offer * until + room_then * (1.0 - math.exp(-rate * (1.0 - until)))

    def give(self, need):
        b, s = self.bank, self.tanks.q / self.bank.full_ah
        if b.lead:
            low = max(s, 0.05)
            a = 2.085 - 0.12 * (1 - s if s > 0.05 else 0.95)
            slope = (0.45 + 0.27 * low**-1.5 + 0.02) * (1 - 0.007 * (self.t - 25)) / b.ten_hour_ah
        else:
            a, slope = along(IRON_REST, s) - b.lag_v, self.ohm()
        watts = need / b.cells
        if slope == 0.0:
            amps = watts / a
        else:
            inside = a * a - 4 * slope * watts
            amps = a / (2 * slope) if inside < 0 else (a - math.sqrt(inside)) / (2 * slope)
        locked = self.locked()
        most = min(
            self.tanks.current_to(0.0, under=locked),
            self.tanks.q - max(locked, b.floor * b.full_ah),
            self.out_limit(),
            (a - (1.5 if b.lead else 2.5)) / slope if slope > 0.0 else math.inf,
        )
        amps = max(0.0, min(amps, most))
        volts = a - slope * amps
        return amps * volts * b.cells, amps, volts * b.cells

    # -- one hour ---------------------------------------------------------------------------------------------------
    def hour(self, sun, uses, share, engine):
        told = Told()
        from_engine = share * min(uses, engine)
        inverted = min(self.inside.power_w, uses - from_engine)
        told.short = uses - from_engine - inverted
        told.drawn = inverted / self.inside.efficiency + self.inside.idle_w + self.bank.own_draw_w
        told.charger = share * min(
            self.motor.charger_w, max(0.0, engine - uses) * self.motor.charger_efficiency
        )
        over = sun + told.charger - told.drawn
        if over >= 0.0:
            told.into, told.amps_in, told.stored, told.volts, told.limited = self.take(over)
            left = over - told.into
            unused = min(left, told.charger)
            told.charger -= unused
            told.spare = left - unused
            return told
        told.out, told.amps_out, told.volts = self.give(-over)
        missing = -over - told.out
        if missing > 1e-9 * told.drawn:
            told.short += min(inverted, missing * self.inside.efficiency)
            told.drawn -= missing
        return told

    def heard_hours(self):
        a, b = self.motor.heard_from_hour, self.motor.heard_to_hour
        hours = set()
        clock = math.ceil(a)
        length = (b - a) if a <= b else 24 - a + b
        while clock + 1 <= a + length + 1e-12:
            hours.add(clock % 24)
            clock += 1
        return hours

    # -- the years --------------------------------------------------------------------------------------------------
    def run(self, limits, efficiencies, sun, uses, air, month, hour_of_day):
        b, motor = self.bank, self.motor
        shed, heard_hours = math.isnan(b.room_c), self.heard_hours()
        years, hours = len(air), len(uses)
        self.t = sum(air[0][:24]) / len(air[0][:24]) if shed else b.room_c
        volts = b.cells * (2.0 if b.lead else 3.2)
        running, ran, since = False, 0.0, 0.0
        low = min(motor.let_go_at, motor.call_always_at + 0.05)
        for turn in [0, *range(years)]:
            by_month = {name: [0.0] * 12 for name in self.names}
            by_year = dict.fromkeys(self.year_names, 0.0) | {"lowest": 1.0, "margin": math.inf}
            charges = []
            for h in range(hours):
                if shed:
                    self.t += (air[turn][h] - self.t) * (1.0 - math.exp(-1.0 / b.lag_h))
                m, charge = month[h], self.tanks.q / b.full_ah
                charges.append(charge)
                if hour_of_day[h] == 6:
                    by_month["dawn"][m] += charge
                    by_month["dawns"][m] += 1
                keep = 1.0 - b.self_per_h * 2.0 ** ((self.t - 20.0) / 10.0)
                self.tanks.q1 *= keep
                self.tanks.q *= keep
                powers = [eff * s[turn][h] for eff, s in zip(efficiencies, sun, strict=True)]
                offered = sum(powers)
                capped = sum(min(p, limit * volts) for p, limit in zip(powers, limits, strict=True))
                engine = motor.power_w * (1 - 0.01 * max(0.0, air[turn][h] - 25.0) / 5.5556)
                heard = hour_of_day[h] in heard_hours
                started = (
                    motor.present
                    and not running
                    and ((heard and charge <= motor.call_at) or charge <= motor.call_always_at)
                )
                running = running or started
                share = float(running)
                told = self.hour(capped, uses[h], share, engine)
                if motor.present and not running and told.short > 1e-3:
                    helped = self.hour(capped, uses[h], 1.0, engine)
                    if helped.short < told.short:
                        told, running, started, share = helped, True, True, 1.0
                if running:
                    ran = 0.0 if started else ran
                    must = min(1.0, max(0.0, motor.shortest_run_h - ran))
                    target = motor.let_go_at if heard else low
                    now = self.tanks.q / b.full_ah
                    rise = (told.stored - told.amps_out) / b.full_ah
                    stop = now >= target or now + rise >= target
                    if stop:
                        share = must if now >= target else max(must, (target - now) / rise)
                        if share < 1.0:
                            part = told.in_turn(self.hour(capped, uses[h], 0.0, engine), share)
                            if part.short <= told.short + 1e-3:
                                told = part
                            else:
                                share, stop = 1.0, False
                    tired = told.limited and told.charger < share * motor.charger_w / 3.0
                    ran += share
                    if stop or tired:
                        running = ran < motor.shortest_run_h - 1e-9
                    by_month["hours"][m] += share
                    by_year["starts"] += started and share > 0.0
                    by_year["given"] += (
                        share * min(uses[h], engine) + told.charger / motor.charger_efficiency
                    )
                self.tanks.draw(told.amps_out - told.stored, b.at_once * b.full_ah)
                volts = told.volts
                after = self.tanks.q / b.full_ah
                by_month["used"][m] += capped - told.spare
                brim = told.limited and (
                    (after > 0.9 and told.stored < 0.02 * b.rated_ah) if b.lead else after > 0.97
                )
                where = ("full" if brim else "slow") if told.spare > 1e-3 else "held"
                by_month[where][m] += offered - (capped - told.spare)
                by_year["uses"] += uses[h]
                if told.short > 1e-3:
                    by_year["dark_wh"] += told.short
                    by_year["dark_hours"] += 1
                by_year["lowest"] = min(by_year["lowest"], after)
                if b.lead:
                    by_year["margin"] = min(
                        by_year["margin"], self.t - along(ACID, 1.1 + 0.165 * after)
                    )
                since = 0.0 if brim else since + 1.0
                by_year["gap"] = max(by_year["gap"], since / 24.0)
            self.charges.append(charges)
            yield by_month, by_year, charges
