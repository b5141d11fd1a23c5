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
    waiting: object = None
    charges: list = field(default_factory=list)

    def __post_init__(self):
        self.tanks = Tanks(self.bank)
        self.names = ("hours", "used", "full", "slow", "held", "dawn", "dawns", "dark", "starts", "given")  # fmt: skip
        self.year_names = (
            "uses", "dark_wh", "lowest", "margin", "gap", "dark_spell", "failed", "fills", "dry", "out_ah", "worn_ah", "under_half",
            "gas_ah", "ah_kelvin", "ah_amps", "waited", "sunless", "heat",
        )  # fmt: skip

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
            held = b.equal_v if self.equalizing else 2.25
            top = (b.absorb_v if s < 0.98 else held) + 0.005 * (25.0 - self.t)
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
        told.drawn = inverted / self.inside.efficiency + self.inside.curve_per_w * inverted**2
        told.drawn += self.inside.idle_w + self.bank.own_draw_w + self.heat
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

    def whole_hours(self, a, b):
        hours = set()
        clock = math.ceil(a)
        length = (b - a) if a <= b else 24 - a + b
        while clock + 1 <= a + length + 1e-12:
            hours.add(clock % 24)
            clock += 1
        return hours

    # -- things about the house ----------------------------------------------------------------------------------------
    def warm(self, air, charging):
        b, self.heat = self.bank, 0.0
        around = air if math.isnan(b.room_c) else b.room_c
        if math.isnan(b.room_c) or b.heater_w > 0.0:
            self.t = around + (self.t - around) * math.exp(-1.0 / b.lag_h)
        if b.heater_w > 0.0 and charging and self.t < 3.0:
            needed = (5.5 - self.t) * b.warm_wh_k
            self.heat = needed if needed < b.heater_w else b.heater_w
            self.t += self.heat / b.warm_wh_k

    def wait(self, day, hour, spare, charge):
        """What waiting uses draw, and how much of it without sun."""
        drawn = sunless = 0.0
        for k, job in enumerate(self.jobs):
            if hour == 0 and job["wanted"][day]:
                self.put_off[k] = self.put_off[k] + 1 if self.owed[k] else 0
                self.owed[k] += job["wh"]
            if not self.owed[k] or hour not in job["hours"]:
                continue
            now = min(self.owed[k], job["w"])
            after_this = 23 - job["order"].index(hour)
            if charge >= 0.85 and now <= spare:
                spare -= now
            elif self.put_off[k] < job["patience"] or self.owed[k] <= after_this * job["w"]:
                continue
            else:
                sunless += now
            drawn += now
            rest = self.owed[k] - now
            self.owed[k] = rest if rest >= 1e-6 else 0.0
        return drawn, sunless

    def jobs_of(self, waiting):
        if waiting is None:
            return []
        jobs = []
        for k in range(len(waiting.power_w)):
            hours = self.whole_hours(waiting.from_hour[k], waiting.to_hour[k])
            end = int(waiting.to_hour[k]) % 24
            order = [
                (end + n) % 24 for n in range(24)
            ]  # the hours of a day, the last one before the end last
            jobs.append(
                {"w": float(waiting.power_w[k]), "wh": float(waiting.day_wh[k]), "hours": hours, "order": order,
                 "patience": waiting.patience_days[k], "wanted": [bool(x) for x in waiting.wanted[k]]}
            )  # fmt: skip
        return jobs

    def boils(self, air):
        m = self.motor
        if math.isinf(m.boils_l_h[0]):
            return math.inf
        at = (
            (-40.0, 0),
            (-34.444, 1),
            (-23.333, 2),
            (-17.778, 3),
            (-12.222, 4),
            (-6.667, 5),
            (0.0, 6),
        )
        rate = along([(t, m.boils_l_h[n]) for t, n in at], air)
        wet = (
            (0.05, 0.4),
            (0.1, 0.5),
            (0.2, 0.67),
            (0.3, 0.75),
            (0.4, 0.89),
            (0.5, 1.0),
            (0.6, 1.11),
        )
        return rate * along(wet, 0.8 * self.level / m.tank_l)

    def engine_can(self, air):
        m = self.motor
        power = m.power_w - m.power_w * 0.01 * max(0.0, air - 25.0) / 5.5556
        if math.isinf(m.tank_l):
            return power
        needed = m.burns_l_h + m.burns_l_wh * power
        if needed > self.level:
            return 0.0
        boils = self.boils(air)
        return power if needed <= boils else max(0.0, (boils - m.burns_l_h) / m.burns_l_wh)

    def starts(self, air):
        m = self.motor
        if m.start_in_cold >= 1.0:
            return True
        self.luck = 48271 * self.luck % (2**31 - 1)
        warmth = min(1.0, max(0.0, (air + 20.0) / 20.0))
        good = self.luck < (m.start_in_cold + (1.0 - m.start_in_cold) * warmth) * 2147483647.0
        if not good:
            self.stuck = m.mended_h
        return good

    # -- the years --------------------------------------------------------------------------------------------------
    def run(self, limits, efficiencies, sun, uses, air, month, hour_of_day, luck=1):
        b, motor = self.bank, self.motor
        heard_hours = self.whole_hours(motor.heard_from_hour, motor.heard_to_hour)
        years, hours = len(air), len(uses)
        self.t = sum(air[0][:24]) / len(air[0][:24]) if math.isnan(b.room_c) else b.room_c
        self.jobs, self.luck, self.level, self.stuck = (
            self.jobs_of(self.waiting),
            luck,
            motor.tank_l,
            0.0,
        )
        self.owed, self.put_off = [0.0] * len(self.jobs), [0.0] * len(self.jobs)
        volts = b.cells * (2.0 if b.lead else 3.2)
        running, airing, ran, stood, since, spell = False, False, 0.0, 0.0, 0.0, 0
        since_equal, equal_left = 0.0, 0.0
        low = min(motor.let_go_at, motor.call_always_at + 0.05)
        for turn in [0, *range(years)]:
            by_month = {name: [0.0] * 12 for name in self.names}
            by_year = dict.fromkeys(self.year_names, 0.0) | {"lowest": 1.0, "margin": math.inf}
            charges = []
            for h in range(hours):
                m, outdoors, clock = month[h], air[turn][h], hour_of_day[h]
                powers = [eff * s[turn][h] for eff, s in zip(efficiencies, sun, strict=True)]
                offered = sum(powers)
                capped = sum(min(p, limit * volts) for p, limit in zip(powers, limits, strict=True))
                self.warm(outdoors, running or capped > self.inside.idle_w)
                charge = self.tanks.q / b.full_ah
                charges.append(charge)
                if clock == 6:
                    by_month["dawn"][m] += charge
                    by_month["dawns"][m] += 1
                if clock == 0 or h + turn == 0:
                    keep = 1.0 - b.self_per_h * 2.0 ** ((self.t - 20.0) / 10.0)
                self.tanks.q1 *= keep
                self.tanks.q *= keep
                if b.equal_every_h > 0.0:
                    since_equal += 1.0
                    if equal_left <= 0.0 and since_equal >= b.equal_every_h:
                        equal_left = b.equal_h
                self.equalizing = equal_left > 0.0

                asked = uses[h]
                if self.jobs:
                    spare = self.inside.efficiency * (
                        capped - self.inside.idle_w - b.own_draw_w - self.heat
                    )
                    more, sunless = self.wait(
                        h // 24, clock, min(self.inside.power_w, spare) - asked, charge
                    )
                    asked += more
                    by_year["waited"] += more
                    by_year["sunless"] += sunless

                engine, able, started, heard = 0.0, False, False, clock in heard_hours
                if motor.present:
                    if h and month[h - 1] != m == motor.fill_month:
                        self.level = motor.tank_l
                        by_year["fills"] += 1
                    engine = self.engine_can(outdoors)
                    self.stuck -= 1.0
                    able = self.stuck <= 0.0 and engine > 0.0
                    running = running and able
                    if not running:
                        called = charge <= motor.call_always_at or (
                            heard and charge <= motor.call_at
                        )
                        airing = heard and not called and 0.0 < motor.airing_every_h <= stood
                        by_year["dry"] += called and engine <= 0.0
                        if able and (called or airing):
                            started = able = self.starts(outdoors)
                            by_year["failed"] += not started
                        running = started
                share = float(running)
                told = self.hour(capped, asked, share, engine)
                if able and not running and told.short > 1e-3:
                    helped = self.hour(capped, asked, 1.0, engine)
                    if helped.short < told.short:
                        if self.starts(outdoors):
                            told, running, started, airing, share = helped, True, True, False, 1.0
                        else:
                            by_year["failed"] += 1
                stood += 1.0
                if running:
                    stood = 0.0
                    ran = 0.0 if started else ran
                    least = motor.airing_h if airing else motor.shortest_run_h
                    must = min(1.0, max(0.0, least - ran))
                    target = motor.let_go_at if heard else low
                    now = self.tanks.q / b.full_ah
                    rise = (told.stored - told.amps_out) / b.full_ah
                    stop = airing or now >= target or now + rise >= target
                    if stop:
                        share = (
                            must if airing or now >= target else max(must, (target - now) / rise)
                        )
                        if share < 1.0:
                            part = told.in_turn(self.hour(capped, asked, 0.0, engine), share)
                            if part.short <= told.short + 1e-3:
                                told = part
                            else:
                                share, stop = 1.0, False
                    tired = told.limited and told.charger < share * motor.charger_w / 3.0
                    ran += share
                    if stop or tired:
                        running = ran < least - 1e-9
                    by_month["hours"][m] += share
                    by_month["starts"][m] += started and share > 0.0
                    given = share * min(asked, engine) + told.charger / motor.charger_efficiency
                    by_month["given"][m] += given
                    if not math.isinf(motor.tank_l):
                        self.level -= share * motor.burns_l_h + given * motor.burns_l_wh
                        if self.level / motor.tank_l < motor.fill_at:
                            self.level = motor.tank_l
                            by_year["fills"] += 1
                self.tanks.draw(told.amps_out - told.stored, b.at_once * b.full_ah)
                volts = told.volts
                if self.equalizing and volts / b.cells >= 0.99 * (
                    b.equal_v + 0.005 * (25.0 - self.t)
                ):
                    equal_left -= 1.0
                    since_equal = 0.0 if equal_left <= 0.0 else since_equal
                after = self.tanks.q / b.full_ah
                by_month["used"][m] += capped - told.spare
                brim = told.limited and (
                    (after > 0.9 and told.stored < 0.02 * b.rated_ah) if b.lead else after > 0.97
                )
                where = ("full" if brim else "slow") if told.spare > 1e-3 else "held"
                by_month[where][m] += offered - (capped - told.spare)
                by_year["uses"] += asked
                by_year["heat"] += self.heat
                dark = told.short > 1e-3
                by_year["dark_wh"] += told.short if dark else 0.0
                by_month["dark"][m] += dark
                spell = spell + 1 if dark else 0
                by_year["dark_spell"] = max(by_year["dark_spell"], spell)
                by_year["lowest"] = min(by_year["lowest"], after)
                if b.lead:
                    freezes = along(ACID, 1.1 + 0.165 * after)
                    by_year["margin"] = min(by_year["margin"], self.t - freezes)
                    by_year["gas_ah"] += told.amps_in - told.stored
                by_year["under_half"] += after < 0.5 - math.exp(-9.0)
                since = 0.0 if brim else since + 1.0
                by_year["gap"] = max(by_year["gap"], since / 24.0)
                by_year["out_ah"] += told.amps_out
                by_year["worn_ah"] += told.amps_out * (1.0 + 2.0 * since / 24.0 / 30.0)
                by_year["ah_kelvin"] += told.amps_out * self.t
                by_year["ah_amps"] += told.amps_out**2
            self.charges.append(charges)
            yield by_month, by_year, charges
