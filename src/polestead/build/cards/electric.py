"""Cards of the wires and of the first travel."""

from __future__ import annotations

import numpy as np

from polestead.build.cards.card import AsBuilt, Card, CardStep, Figure
from polestead.build.cards.known import Known, card, stance_lines, text
from polestead.mount.geometry import lowest_edge_m, top_height_m
from polestead.mount.linkage import move_time_s

LIVE = "Take every lead for live: in any light, and it cannot be switched off. An arc of direct current does not die."


def wire_card(k: Known) -> Card:
    """Strings, run, boxes."""
    g, w = k.given, k.wires
    figures = [
        text(f"{g.array.in_parallel} of {g.array.in_series}", "strings, and modules in each"),
        Figure(
            w.cold_with_margin_v,
            "V",
            "a string at the record low, with margin: everything bears this",
        ),
        Figure(k.form.limit_v, "V", "the controller's limit"),
        Figure(w.full_sun_a, "A", "on the run in full sun"),
        text(f"{g.run.size} {g.run.metal}", "run, both live wires"),
        text(w.earth_wire, "earth wire, with the run all the way"),
        Figure(g.run.breaker_a or w.breaker_a, "A", "breaker on the run, for direct current"),
    ]
    steps = (
        CardStep("Open and lock every switch; fuses out; the glass covered, the array flat and locked.", LIVE),
        CardStep("Earth wire first: frame, strongback, pole, both boxes, to the house; never the rod at the pole instead of it."),
        CardStep("Join modules to strings by the string map; click each connector and pull it; tie leads off the glass and off sharp edges.", "Part no connector under load, and mate no two makes."),
        CardStep("Make the loop at the hinge: clamped at both ends, entering the box from below, long enough for the whole travel."),
        CardStep("Set switch, arrestor and breaker in the order of the one-line; strings stay out of their terminals.", "Work on one pole at a time with insulated tools; nobody alone."),
        CardStep("Guard what can be reached; engrave and fix the labels; seal glands against mice."),
    )  # fmt: skip
    return card(
        "wire", "Wire", figures, steps, sketch="string map",
        as_built=(
            AsBuilt("breaker on the run, off its label", "run.breaker"),
            AsBuilt("its direct-current volts, off its label", "run.breaker_bears"),
            AsBuilt("what it breaks, off its label", "run.breaker_breaks"),
            AsBuilt("earth wire as pulled in", "run.earth_size"),
            AsBuilt("series fuse on the modules' label", "array.module.series_fuse"),
        ),
        missing=w.guards.asks, notes=w.notes,
    )  # fmt: skip


def tests_card(k: Known) -> Card:
    """By the form, then closed."""
    g, form = k.given, k.form
    figures = [
        Figure(g.array.in_series * g.array.module.open_circuit_voltage_v, "V", "a string, open, at 25 C in full sun"),
        Figure(g.array.module.short_circuit_current_a, "A", "a string, short, in full sun"),
        Figure(form.cold_with_margin_v, "V", "the same string at the record low, with margin"),
        Figure(form.limit_v, "V", "the controller's limit: never over it"),
        Figure(form.insulation.test_v, "V", "the insulation tester is set to"),
        Figure(form.insulation.least_ohm / 1e6, "Mohm", "insulation, no less"),
        text("5 in 100", "strings no further apart than this, in like light"),
    ]  # fmt: skip
    steps: list[CardStep] = []
    gate_after = 0
    for one in form.steps:
        if one.act == "close":
            gate_after = len(steps) - 1
        steps.append(CardStep(f"{_VERBS[one.act]}. Passes: {one.passes}.", one.caution))
    return card(
        "test", "Test", figures, tuple(steps), gate=(gate_after, "wiring"), sketch="one-line",
        as_built=(AsBuilt("open volts of a module at 25 C, where its label says another than the sheet", "array.module.open_circuit_voltage"),),
        notes=("How each is done and what each string should show at this hour's light stands on the test form; the readings are kept with it, they are the baseline.",),
    )  # fmt: skip


_VERBS = {
    "look": "Look it all over, every switch open",
    "earth wire": "Prove the earth wire, from every frame to the house",
    "polarity": "Prove polarity of each string at its bare ends",
    "open volts": "Read open volts of each string, light and cell temperature beside them",
    "cold volts": "Work out what each reading becomes at the record low",
    "short amps": "Read short-circuit current of each string through a switch",
    "insulation": "Test the insulation, arrestors and controller off",
    "close": "Close the battery's breaker first, then the array's",
    "function": "Read watts at the controller against the form; try each switch once",
}


def travel_card(k: Known) -> Card:
    """Once over the whole travel."""
    g = k.given
    geometry = g.geometry
    ends = np.array([geometry.least_tilt_deg, geometry.steepest_tilt_deg])
    figures = [
        Figure(geometry.least_tilt_deg, "deg", "flattest"),
        Figure(geometry.steepest_tilt_deg, "deg", "steepest"),
        Figure(
            float(lowest_edge_m(geometry, ends)[1]), "m", "low edge over the ground at the steepest"
        ),
    ]
    missing = []
    if k.gauge is None or g.drive is None:
        missing.append("the actuator ([drive]): its rod, speed and the gust to move in")
        figures.append(
            Figure(float(top_height_m(geometry, ends)[1]), "m", "top edge at the steepest")
        )
    else:
        flat, steep = k.gauge.stops
        figures += [Figure(flat.rod_m, "m", "rod that shows at the flattest stop"), Figure(steep.rod_m, "m", "rod that shows at the steepest stop")]  # fmt: skip
        seconds = move_time_s(g.drive, geometry.least_tilt_deg, geometry.steepest_tilt_deg)
        if seconds is None:
            missing.append("the drive's speed (drive.speed): no seconds without it")
        else:
            figures.append(
                Figure(seconds, "s", "the whole travel at the rated speed, more in the cold")
            )
        if not k.gauge.proved:
            missing.append("two measured pairs of rod and tilt (drive.measured): the gauge is unproved until then")  # fmt: skip
    if k.stand.move_under_m_s is not None:
        figures.append(Figure(k.stand.move_under_m_s, "m/s", "move only under this gust"))
    if g.lock is not None and not g.lock.holes_deg:
        missing.append("tilts at which the storm hold's pin finds a hole (lock.holes)")
    steps = (
        CardStep("Walk round it: prop out, nothing leaning on it, no snow, calm.", "Send everyone and every animal from under it; one keeps the switch, one watches, both see the whole array."),
        CardStep("Move five degrees and stop: motor, noise, ampere; look at hinge, loop and ears.", "Keep hands out of the hinge: while it moves only the rod holds it."),
        CardStep("Go on in steps to the flattest, then to the steepest; watch low edge, pole and cable loop all the way; let go at once if the current climbs."),
        CardStep("Let each limit switch stop it; then try the hand stop; set the hard stops behind them."),
        CardStep("Measure rod and tilt by level at six places or more, both ends among them; write them down at once."),
        CardStep("Lock it at each hole, pin through without force, rod unloaded; mark the holes on gauge and file."),
        CardStep("Leave it locked at storm flat.", "Leave it to no wind on the rod alone."),
    )  # fmt: skip
    return card(
        "first travel", "First travel", figures, steps, sketch="side",
        as_built=(
            AsBuilt("rod that shows, and the tilt by level then, pair by pair", "drive.measured"),
            AsBuilt("flattest tilt by level", "mount.least_tilt"),
            AsBuilt("steepest tilt by level", "mount.steepest_tilt"),
            AsBuilt("tilts at which the lock's pin goes in", "lock.holes"),
            AsBuilt("how much the lock rattles", "lock.play"),
        ),
        missing=tuple(missing), notes=tuple(f"{s.name}: {s.tilt_deg:g} deg" for s in stance_lines(k)),
    )  # fmt: skip
