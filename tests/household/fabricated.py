"""Houses and weather made up for the tests: plain, with known answers, nothing read from a file."""

from __future__ import annotations

import numpy as np

from polestead.homestead.model import Battery, Controller, Engine, Household, Inverter
from polestead.homestead.words import Use


class MadeUpHousehold(Household):
    """A household whose uses are given as read, so that these tests do not rest on the reading of sentences."""

    read_uses: tuple[Use, ...] = ()

    @property
    def use_list(self) -> tuple[Use, ...]:
        return self.read_uses


def use(
    power_w=300.0, hours=24.0, start=0.0, end=24.0, season="all year", share=1.0, name="house",
    waits_days=None,
):  # fmt: skip
    return Use(name, f"{power_w:g} W", power_w, hours, start, end, season, share, waits_days)


def battery(**changes):
    given = {
        "kind": "flooded lead-acid", "nominal_v": 48.0, "capacity_ah": 740.0, "health": 1.0, "temperature_c": 25.0,
        "charge_limit_a": None, "lowest_charge": 0.5, "absorb_v_per_cell": 2.45, "gives": (), "equalize_every_days": None,
        "follows_air_s": 86400.0, "heater_w": 0.0, "mass_kg": None,
    } | changes  # fmt: skip
    return Battery.model_construct(**given)


def engine(**changes):
    given = {
        "fuel": "propane", "power_w": 7000.0, "charger_w": 4300.0, "call_at": 0.55, "let_go_at": 0.85, "heard_from_hour": 0.0,
        "heard_to_hour": 24.0, "shortest_run_s": 3600.0, "full_load_fuel_l_h": None, "half_load_fuel_l_h": None, "tank_l": None,
        "filled": "when low", "filled_in_month": 10, "airing_every_days": None, "airing_s": 900.0, "starts_in_deep_cold": 1.0,
    } | changes  # fmt: skip
    return Engine.model_construct(**given)


def controller(name="roof", limit_a=80.0, efficiency=0.97):
    return Controller.model_construct(
        name=name, voltage_limit_v=250.0, current_limit_a=limit_a, efficiency=efficiency
    )


def household(
    uses=None, bank=None, motor="default", controllers=None, inverter=None, last_winter=None
):
    inverter = inverter or Inverter.model_construct(power_w=6000.0, idle_w=25.0, efficiency=0.92, efficiency_at_full_load=None)  # fmt: skip
    return MadeUpHousehold.model_construct(
        uses={},
        read_uses=(use(),) if uses is None else tuple(uses),
        battery=bank or battery(),
        inverter=inverter,
        controller=(controller(),) if controllers is None else tuple(controllers),
        engine=engine() if motor == "default" else motor,
        old_array=(),
    )


def sun(years, peak_w=3500.0, seed=1, winter=0.35):
    """Array power [years, 8760] from a July start: a daylight hump, lean in winter, with runs of grey days."""
    rng = np.random.default_rng(seed)
    day = np.arange(365)
    season = 1.0 - (1.0 - winter) * (0.5 - 0.5 * np.cos(2.0 * np.pi * (day + 10) / 365.0))
    sky = np.empty((years, 365))
    state = rng.normal(size=years)
    for d in day:
        state = 0.4 * state + 0.9 * rng.normal(size=years)
        sky[:, d] = 1.0 / (1.0 + np.exp(-1.5 * state))
    hump = np.clip(np.sin(np.pi * (np.arange(24) + 0.5 - 7.0) / 10.0), 0.0, None)
    hump[:7] = hump[17:] = 0.0
    power = peak_w * season[None, :, None] * sky[:, :, None] * hump[None, None, :]
    return power.reshape(years, 8760).astype(np.float32)


def air(years, mean_c=5.0, swing_k=18.0):
    """Air temperature [years, 8760] from a July start."""
    day = np.arange(8760) / 24.0
    one = mean_c + swing_k * np.cos(2.0 * np.pi * (day - 15.0) / 365.0)
    return np.tile(one, (years, 1)).astype(np.float32)
