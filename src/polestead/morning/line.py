"""The morning line in words: at most five short sentences, then why in five."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import isnan

from polestead.base.battery import freezes_at_c
from polestead.base.quantity import in_unit
from polestead.base.show import Style, in_style, number, percent, rod_words
from polestead.base.source import OWNER, Source
from polestead.base.working import Step, Working
from polestead.morning.ahead import fuel_l_h, fuel_left_l, sky_told
from polestead.morning.basis import Basis
from polestead.morning.card import in_step_m_s, unit_of
from polestead.morning.choose import worth_a_move_wh
from polestead.morning.forecast.forecast import Forecast
from polestead.morning.result import (
    Ahead,
    Band,
    DayAhead,
    Firmest,
    Move,
    Reason,
    Sentence,
    Sureness,
    Tonight,
)
from polestead.morning.rules import SNOW_LIMIT_PA, Bounds, Held, Refusal
from polestead.morning.seen import STALE_CHARGE_H, Seen

STALE_TILT_H = 48.0
STALE_TANK_H = 168.0
FILL_TIMES, FILL_UNDER_H = 2.0, 10.0  # engine hours, of the three days ahead: ours
FREEZES_WITHIN_K = 3.0  # of the acid's freezing point: ours
OLD_FORECAST_H = 18.0
EARLY_H = 2.0  # so long before sundown it is no evening yet
LOOKS = 0.5  # deviates from which a day is called good or poor; ours
SURE_OVER, LIKELY_OVER = 0.95, 0.7
HEARD = Source("the forecast as told", status="owner")
OURS = Source("the morning line of this house", status="ours")
CARD = Source("the gust card", status="ours")
AHEAD = Source("the house run three days ahead under 24 skies", status="ours")
_REFUSED = {
    "iced": "There is ice on it or on the rod.",
    "buried": "Its low edge is buried.",
    "covered": "Snow covers it, nobody measured how much.",
    "snow": "Too much snow lies on it for the drive.",
    "dark": "In the dark nothing is moved",
}
_INSTEAD = {
    "iced": "Wait for the thaw; nobody under it.",
    "buried": "Dig the low edge free first, from the side; nobody under it.",
    "covered": "Brush it from the side, from the ground; then look again.",
    "snow": "Brush it from the side, from the ground; then look again.",
    "blows": "Wait for a lull that lasts.",
    "dark": "Look again when it is light.",
}
_WHY_NOT = {
    "iced": "there is ice on it or on the rod",
    "buried": "its low edge is buried",
    "covered": "snow covers it, nobody measured how much",
    "snow": "too much snow lies on it for the drive",
}


@dataclass(frozen=True, slots=True)
class Meant:
    """What a wind said without a unit would decide in one.

    Attributes:
        unit: In which it is read.
        held: The nearest tilt to where it lies that can be held; None where none can.
    """

    unit: str
    held: Held | None


@dataclass(frozen=True, slots=True)
class Decided:
    """What was decided, before it is put into words.

    Attributes:
        held: The tilt and its way through the night; None where none can be held, or it must not be moved and does not stand.
        moved: It is to be moved now.
        move: How.
        tonight: How it is left.
        ahead: The house.
        refusal: Why it must not be moved.
        stands: Not moved, it stands where it lies.
        quarrel: ``hail`` or ``snow`` wants steep, the wind does not allow it.
        regret_wh: What the choice costs where the sky turns out otherwise.
        beside: Another tilt and the sun the house would use there.
        goal_deg: Where it was to go.
        outlook: The two days after today.
        asked: What a wind said without a unit would decide in each.
        firmest: Where no tilt holds, the firmest that may be reached.
        gain_wh: What the move saves of need; None where it is not moved, or does not hold where it lies, or that is not known.
        forgone: Not moved: another tilt and the little it would save.
    """

    held: Held | None
    moved: bool
    move: Move | None
    tonight: Tonight | None
    ahead: Ahead
    refusal: Refusal | None
    stands: bool
    quarrel: str
    regret_wh: float
    beside: tuple[float, float] | None
    goal_deg: float
    outlook: tuple[DayAhead, ...]
    asked: tuple[Meant, ...] = ()
    firmest: Firmest | None = None
    gain_wh: float | None = None
    forgone: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Words:
    """All that is said."""

    stop: bool
    sentences: tuple[Sentence, ...]
    outlook: str
    if_wrong: str
    why: tuple[Reason, ...]
    notes: tuple[str, ...]


def morning_words(basis: Basis, seen: Seen, forecast: Forecast, style: Style, bounds: Bounds, decided: Decided) -> Words:  # fmt: skip
    """Put a decision into words.

    Args:
        basis: Of the homestead.
        seen: By the owner.
        forecast: As told.
        style: Whose units.
        bounds: The rules of this morning.
        decided: What was decided.
    """
    speaker = _Speaker(basis, seen, forecast, style, bounds, decided)
    stop = decided.refusal is not None or decided.held is None
    sentences = tuple(speaker.stop() if stop else speaker.line())[:5]
    return Words(stop, sentences, "" if stop else speaker.outlook(), speaker.if_wrong(stop), tuple(speaker.why(stop)), tuple(speaker.notes()))  # fmt: skip


class _Speaker:
    def __init__(self, basis: Basis, seen: Seen, forecast: Forecast, style: Style, bounds: Bounds, decided: Decided) -> None:  # fmt: skip
        self._basis, self._seen, self._forecast = basis, seen, forecast
        self._style, self._bounds, self._decided = style, bounds, decided
        self._unit = unit_of(style)
        self._told = bounds.ahead.told_m_s(bounds.hours.now_h, bounds.hours.again_h)

    # -- sentences ---------------------------------------------------------------------------------------------------

    def line(self) -> Iterator[Sentence]:
        """Set or leave, engine, tonight, sundown, what to run."""
        yield from self._which_unit()
        yield from self._unheard()
        yield self._set()
        yield self._engine()
        tonight = self._tonight()
        if tonight is not None:
            yield tonight
        yield self._sundown()
        run = self._run_today()
        if run is not None:
            yield run

    def stop(self) -> Iterator[Sentence]:
        """Do not move it: the reason, what instead; or where no tilt holds, the firmest, and people kept away."""
        decided = self._decided
        if decided.refusal is None:
            yield from self._none_holds()
        else:
            yield Sentence("sure", "Do not move it.")
            yield from self._which_unit()
            yield Sentence("sure", self._refusal_words())
            if decided.stands:
                yield Sentence(self._gust_sure(), f"Where it lies it stands to {self._g(self._stands_here())}; it may blow {self._g(self._bounds.whole_m_s)}.")  # fmt: skip
            elif self._seen.lies is None:
                yield Sentence(self._gust_sure(), f"Where it lies is not known; it may blow {self._g(self._bounds.whole_m_s)}: keep away, nobody under it.")  # fmt: skip
            else:
                yield Sentence(self._gust_sure(), "Where it lies it may not stand: keep away, nobody under it.")  # fmt: skip
            yield Sentence("sure", _INSTEAD[decided.refusal])
        yield self._engine()

    def _none_holds(self) -> Iterator[Sentence]:
        """No tilt holds: the firmest, whether it may be brought there, and people kept away."""
        firmest = self._decided.firmest
        act = firmest is not None and firmest.allowed
        if not act:
            yield Sentence("sure", "Do not move it.")
        yield from self._which_unit()
        upper = self._g(self._bounds.whole_m_s)
        none = f"No tilt on the card stands to {upper}, which {'is taken' if self._told is None else 'it may blow'}."  # fmt: skip
        brushed = next(self._brush_first(), None)
        yield Sentence(self._gust_sure(), none if brushed is None else f"{none} {brushed.text}")
        if firmest is not None:
            yield Sentence(self._gust_sure(), self._firmest_words(firmest))
        elif self._seen.lies is not None:
            yield Sentence(self._gust_sure(), f"It lies about as firm as it can: it stands to {self._g(self._stands_here())} there.")  # fmt: skip
        keep = "keep everybody away until it is over, nobody under it"
        yield Sentence("sure", f"Then {keep}." if act else f"Lock it as it is if that can be done from the side; {keep}.")  # fmt: skip

    def _firmest_words(self, one: Firmest) -> str:
        """Where it may still be brought, as the stop's act; else what stands against it."""
        where = f"flat ({one.tilt_deg:.0f})" if abs(one.tilt_deg - self._basis.card.flat_deg) < 0.5 else f"{one.tilt_deg:.0f}"  # fmt: skip
        here = "" if one.lies_m_s is None else f", where it lies to {self._g(one.lies_m_s)}"
        if not one.allowed:
            return f"Firmest is {where}: it stands to {self._g(one.stands_to_m_s)}{here}; but {self._why_not(one)}."  # fmt: skip
        when = " now" if one.from_wall is None else f" at {self._told_hour(one.from_wall)}, when it is light"  # fmt: skip
        by = "" if one.by_wall is None else f", by {self._told_hour(one.by_wall)} at the latest"
        look = "look first, and " if one.look_first else ""
        pin = " Pin in." if one.locked and self._basis.card.has_lock else ""
        gauge = "" if self._basis.card.proved or not self._basis.card.move_m_s else " The gauge is unproved: go by the tilt itself."  # fmt: skip
        return f"Bring it to {where}{when}{by}: {look}only under {self._g(one.under_m_s)}. It is the firmest, it stands to {self._g(one.stands_to_m_s)}{here}.{pin}{gauge}"  # fmt: skip

    def _why_not(self, one: Firmest) -> str:
        if one.why_not == "blows" and self._seen.blows_m_s is not None:
            return f"it blows {self._g(self._seen.blows_m_s)}, and the way is moved only under {self._g(one.under_m_s)}"  # fmt: skip
        if one.why_not == "dark" and one.from_wall is not None:
            return f"in the dark nothing is moved: it is light at {self._told_hour(one.from_wall)}"
        return _WHY_NOT.get(one.why_not, "it may not be moved")

    def _which_unit(self) -> Iterator[Sentence]:
        """Asks the unit of a wind that was said without one, with what each would decide where they decide differently."""
        said = self._forecast.unitless
        if not said:
            return
        by_words: dict[str, list[str]] = {}
        for one in self._decided.asked:
            by_words.setdefault(self._meant_words(one), []).append(one.unit)
        units = "mph, kt, km/h or m/s"
        asks = f"{said[0].upper()}{said[1:]}: of which unit, {units}? Say it again."
        if len(by_words) < 2:
            yield Sentence("guess", asks)
            return
        each = "; ".join(f"in {_or(found)} {words}" for words, found in by_words.items())
        yield Sentence("guess", f"{asks} {each[0].upper()}{each[1:]}.")

    def _meant_words(self, one: Meant) -> str:
        lies = None if self._seen.lies is None else self._seen.lies.value
        if one.held is None:
            return "no tilt holds"
        held = one.held
        near = lies is not None and abs(held.tilt_deg - lies) < 1.0
        if held.by_h is not None:
            return f"it must be at {held.night_deg:.0f} by {self._clock(held.by_h)}"
        return (
            f"it may stay at {held.tilt_deg:.0f}" if near else f"it must be at {held.tilt_deg:.0f}"
        )

    def _brush_first(self) -> Iterator[Sentence]:
        """Where only the snow on it lets no tilt stand: which one stands when it is brushed off; in the dark it waits for dawn."""
        bounds, card = self._bounds, self._basis.card
        hours = bounds.hours
        nothing_on_it = self._seen.glass == "bare" and not self._seen.snow_m
        if bounds.snow_from_h > hours.now_h or nothing_on_it or self._seen.glass in ("iced", "buried"):  # fmt: skip
            return
        bare = {tilt: in_step_m_s(card.stands_to_m_s(tilt), self._style) for tilt in card.tried(card.flat_deg)}  # fmt: skip
        firmest = max(bare, key=lambda tilt: bare[tilt])
        if bare[firmest] < bounds.whole_m_s:
            return
        dark = "In the dark nothing is moved: at dawn b" if hours.dark else "B"
        yield Sentence(self._gust_sure(), f"{dark}rush it from the side, from the ground, then look again: bare, {firmest:.0f} stands to {self._g(bare[firmest])}.")  # fmt: skip

    def _unheard(self) -> Iterator[Sentence]:
        if self._told is not None:
            return
        bound = self._bounds.whole_m_s
        ahead = self._bounds.ahead
        thunder = ", for thunder may come unforeseen" if ahead.thunder and not self._seen.away.home else ""  # fmt: skip
        head = "No forecast." if self._forecast.kind == "none" else "No gust told."
        if self._forecast.storm:
            yield Sentence("guess", f"{head} I take no less than the ten-year gust for what was heard and not understood, {self._g(bound)}.")  # fmt: skip
        elif thunder:
            yield Sentence("guess", f"{head} I take the ten-year gust, {self._g(bound)}{thunder}.")
        elif self._one_week() >= bound:
            yield Sentence("guess", f"{head} I take the gust that one such week in ten sees, {self._g(bound)}.")  # fmt: skip
        else:
            yield Sentence("guess", f"{head} I take the gust that {self._chance()} of such spans see, {self._g(bound)}.")  # fmt: skip

    def _one_week(self) -> float:
        from polestead.morning.card import up_m_s
        from polestead.morning.forecast.gust_ahead import week_gust_m_s

        return up_m_s(week_gust_m_s(self._basis.climate, self._seen.at.month), self._style)

    def _chance(self) -> str:
        return f"{100.0 * self._basis.facts.gust_chance:g} %"

    def _set(self) -> Sentence:
        """Where it goes; a guess where neither tilt nor charge is known and the climate stands for both."""
        decided = self._decided
        assert decided.held is not None  # noqa: S101  told to the type checker
        sure = self._gust_sure() if self._seen.lies or self._seen.charge else "guess"
        if not decided.moved or decided.move is None:
            return Sentence(sure, f"Leave it at {decided.held.tilt_deg:.0f}.")
        move = decided.move
        under = f"move only under {self._g(move.under_m_s)}"
        if self._windy_now(move):
            under = f"look first, {under}"
        how = self._how(move)
        lock = "" if not self._basis.card.has_lock else (" Pin in." if move.locked else "")
        light = "" if move.light_wall is None else f"at {self._told_hour(move.light_wall)} when it is light, "  # fmt: skip
        return Sentence(sure, f"Set {move.to_deg:.0f}, {light}{under}{how}.{lock}{self._earned()}")

    def _earned(self) -> str:
        """Why it is moved at all, where that is known."""
        gain, move = self._decided.gain_wh, self._decided.move
        if move is None or move.from_deg is None:
            return ""
        if gain is None:
            return f" At {move.from_deg:.0f} it may not stand."
        if gain >= worth_a_move_wh(self._basis):
            return f" Worth {self._kwh(gain)}."
        return " The sun is even, it is firmer."

    def _windy_now(self, move: Move) -> bool:
        now = self._bounds.hours.move_h
        return self._seen.blows_m_s is None and self._bounds.upper_m_s(now, now + 1.0) >= move.under_m_s  # fmt: skip

    def _how(self, move: Move) -> str:
        """Key, seconds and mark, as far as they may be told (conventions §21)."""
        if move.mark_m is None:
            return ""
        mark = f"to mark {rod_words(move.mark_m, self._style, move.proved)}"
        if not move.key:
            return f": {mark}"
        if move.from_s is None or move.to_s is None:
            return f": {move.key} key {mark}"
        return f": {move.key} key {move.from_s:.0f} to {move.to_s:.0f} s, {mark}"

    def _engine(self) -> Sentence:
        engine = self._decided.ahead.engine
        if not engine.present:
            return Sentence("sure", "No engine on the place.")
        chance = engine.chance
        stale = self._seen.charge is None or self._seen.charge.age_h > STALE_CHARGE_H
        fill = self._fill()
        if chance < 0.5 or engine.from_h is None:
            return Sentence(_sure_of(1.0 - chance, stale), f"No engine.{fill}")
        span = engine_span(engine.hours)
        when = "now" if engine.from_h == float(self._seen.at.hour) else f"from {self._clock(engine.from_h)}{' tomorrow' if self._tomorrow(engine.from_h) else ''}"  # fmt: skip
        read = " Read the charge first." if stale else ""
        return Sentence(_sure_of(chance, stale), f"Engine {span} h, {when}.{read}{fill}")

    def _tank_h(self) -> float | None:
        """Engine hours the tank still gives; None where nobody read it."""
        litres = fuel_left_l(self._basis, self._seen)
        burns = fuel_l_h(self._basis)
        return None if isnan(litres) or burns <= 0.0 else litres / burns

    def _fill(self) -> str:
        """Asks to fill where the tank may not last the days ahead twice over."""
        left = self._tank_h()
        if left is None or left >= max(FILL_TIMES * self._decided.ahead.engine.ahead_h.high, FILL_UNDER_H):  # fmt: skip
            return ""
        return f" The tank gives about {left:.0f} h more: fill it."

    def _cold_bank(self) -> str:
        """What a battery so cold must not be asked."""
        cold, bank = self._seen.bank_c, self._basis.plan.bank
        if cold is None:
            return ""
        shown = in_style(cold.value, "C", self._style)
        if not bank.lead:
            least = in_style(0.0, "C", self._style)
            return f" Battery at {shown}: it takes no charge under {least}; warm it first." if bank.cold_limits and cold.value < 0.0 else ""  # fmt: skip
        charge = self._seen.charge.value if self._seen.charge is not None else self._decided.ahead.sundown.low  # fmt: skip
        if cold.value >= freezes_at_c(charge) + FREEZES_WITHIN_K:
            return ""
        return f" Battery at {shown}: at this charge its acid may freeze and burst it; charge it, or warm it."

    def _tonight(self) -> Sentence | None:
        night = self._decided.tonight
        if night is None:
            return None
        gust = f"gust {self._n(night.gust_m_s)} to {self._g(night.upper_m_s)}" if night.gust_m_s is not None else f"gust up to {self._g(night.upper_m_s)} taken"  # fmt: skip
        away = self._seen.away
        when = "tonight" if away.days == 0.0 else f"until you are back in {away.words}"
        if night.by_h is None:
            quarrel = f" {self._decided.quarrel.capitalize()} wants it steep, the wind does not let it." if self._decided.quarrel else ""  # fmt: skip
            return Sentence(self._gust_sure(), f"{'Stays so' if not quarrel else 'Stays'} {when}: {gust}.{quarrel}")  # fmt: skip
        where = "Flat" if abs(night.tilt_deg - self._basis.card.flat_deg) < 0.5 else f"At {night.tilt_deg:.0f}"  # fmt: skip
        lock = " and locked" if night.locked else ""
        why = {"gust": gust, "snow": f"snow, {gust}", "hail": f"hail, {gust}"}.get(night.why, gust)
        quarrel = f" {self._decided.quarrel.capitalize()} wants it steep, the wind does not let it." if self._decided.quarrel else ""  # fmt: skip
        hours = self._bounds.hours
        if away.days == 0.0 and night.by_h < hours.dusk_h - EARLY_H:
            when = "from then on"
        frozen = ", before snow or ice" if self._bounds.falls_h < min(night.by_h + 1.0, hours.dusk_h) else ""  # fmt: skip
        return Sentence(self._gust_sure(), f"{where}{lock} by {self._clock(night.by_h)}{frozen}: {why} {when}.{quarrel}")  # fmt: skip

    def _sundown(self) -> Sentence:
        band = self._decided.ahead.sundown
        stale = self._seen.charge is None or self._seen.charge.age_h > STALE_CHARGE_H
        wide = band.high - band.low > 0.25
        sure: Sureness = "guess" if stale or wide or self._forecast.kind == "none" else "likely"
        low, high = round(100.0 * band.low), round(100.0 * band.high)
        return Sentence(
            sure, f"Sundown {f'{low} to {high}' if low != high else low} %.{self._cold_bank()}"
        )

    def _run_today(self) -> Sentence | None:
        ahead = self._decided.ahead
        if ahead.spare_from_h is None or ahead.turned_away_wh.mid < 500.0:
            return None
        names = self._basis.facts.waits
        what = names[0].replace("_", " ").capitalize() if len(names) == 1 else "Run what can wait"
        return Sentence("likely", f"{what} today, after {self._clock(ahead.spare_from_h)}: {self._kwh(ahead.turned_away_wh.mid)} to spare.")  # fmt: skip

    def _refusal_words(self) -> str:
        refusal = self._decided.refusal
        if refusal == "blows" and self._seen.blows_m_s is not None:
            lies = None if self._seen.lies is None else self._seen.lies.value
            under = self._bounds.under_m_s(lies, self._decided.goal_deg)
            return f"It blows {self._g(self._seen.blows_m_s)}; move only under {self._g(under)}."
        if refusal == "dark":
            return f"{_REFUSED['dark']}: it is light at {self._told_hour(self._seen.shown(self._bounds.hours.light_h))}."
        return _REFUSED.get(refusal or "", "")

    # -- the rest ----------------------------------------------------------------------------------------------------

    def outlook(self) -> str:
        """The next days as they look now."""
        if not self._decided.outlook:
            return ""
        return f"Ahead, as it looks now: {'; '.join(self._day_ahead(one) for one in self._decided.outlook)}."

    def _day_ahead(self, one: DayAhead) -> str:
        gust = f"gust up to {self._g(one.upper_m_s)}{'' if one.told else ' taken, none is told'}"
        if one.tilt_deg is None or one.night_deg is None:
            return f"{one.day:%A} no tilt stands, {gust}"
        flat = self._basis.card.flat_deg

        def where(tilt: float) -> str:
            return f"flat ({tilt:.0f})" if abs(tilt - flat) < 0.5 else f"{tilt:.0f}"

        night = ""
        if one.by_wall is not None:
            night = f", then {where(one.night_deg)} by {self._told_hour(one.by_wall)}"
        return f"{one.day:%A} {where(one.tilt_deg)}{night}, {gust}"

    def if_wrong(self, stop: bool) -> str:
        """What it costs if the sky or the gust is another."""
        lies = None if self._seen.lies is None else self._seen.lies.value
        held = self._decided.held
        where = lies if stop or held is None else held.tilt_deg
        if where is None:
            gust = "Where it stands now is not known: if it blows harder than the card says, keep away from it."  # fmt: skip
        else:
            gust = f"In more than {self._g(self._bounds.stands_m_s(where))} something gives at {where:.0f}: keep away from it."  # fmt: skip
        if stop:
            return gust
        wh = max(self._decided.regret_wh, 0.0)
        facts = self._basis.facts
        money = wh * facts.burns_l_wh * facts.fuel_per_l
        cost = self._kwh(wh) if wh >= 50.0 else "next to nothing"
        if facts.fuel and money >= 0.005 and wh >= 50.0:
            cost += f", or {money:.2f} {facts.currency} of {facts.fuel}"
        return f"Another sky: {cost}. {gust}"

    def notes(self) -> Iterator[str]:
        """What is old, what was not understood, what was made of the forecast."""
        seen, forecast = self._seen, self._forecast
        yield from seen.told
        yield from self._clock_notes()
        if forecast.echo:
            yield f"Heard: {forecast.echo}" if forecast.kind == "heard" else forecast.echo
        for words in forecast.not_understood:
            yield f"Not understood: {words}."
        if forecast.least_gust_m_s > 0.0:
            yield f"The largest gust those words can mean, {self._g(forecast.least_gust_m_s)}, is taken as the least for the whole day and night."
        if forecast.storm:
            yield "Those words are of a storm, or of wind without a figure: no less than the ten-year gust is taken for the whole day and night."
        if self._bounds.ahead.misheard and self._told is not None:
            yield "That was of wind, or of hours gone by: no less than the gust that one such week in ten sees is taken, whatever else was heard."
        yield from forecast.notes
        if forecast.spans and forecast.age_h > OLD_FORECAST_H:
            yield f"The forecast is {forecast.age_h:.0f} h old; its range is widened."
        if seen.charge is None:
            yield "No charge read: I take what the house usually has at dawn in this month."
        elif seen.charge.age_h > STALE_CHARGE_H:
            yield f"~ The charge is from {self._ago(seen.charge.age_h)}; its range is widened."
        yield from self._log_notes()
        if seen.lies is None:
            yield "Where it lies is not known: the whole way counts, and no seconds are told."
        elif seen.lies.age_h > STALE_TILT_H:
            yield f"~ Where it lies was last written down {self._ago(seen.lies.age_h)}: look before you press."
        if seen.taught.days == 0:
            what = (
                "The log teaches nothing of this month yet"
                if seen.told
                else "No daybook teaches this yet"
            )
            yield f"{what}: sun and gusts are taken as told."
        if self._basis.card.move_m_s and not self._basis.card.proved:
            yield "The gauge is unproved: no seconds; measure two pairs of rod and tilt far apart."

    def _log_notes(self) -> Iterator[str]:
        """What the last days and readings in the log did to the line."""
        seen = self._seen
        if sky_told(seen, self._forecast) is None and seen.last_sun is not None:
            sun = seen.last_sun
            when = "yesterday" if sun.days_ago == 1 else f"{seen.wall - timedelta(days=sun.days_ago):%A}"  # fmt: skip
            kind = "a good day of its season" if sun.stands > LOOKS else ("a poor day of its season" if sun.stands < -LOOKS else "a usual day of its season")  # fmt: skip
            least = " or more, for the battery was full or may have been" if sun.at_least else ""
            yield f"No sky told: {when} made {self._kwh(sun.made_wh)}{least}, {kind}; that is remembered a little, the rest is the season's, and the range is wide."
        if self._told is None and seen.met_m_s > 0.0:
            yield f"Strongest gust met in the last two days: {self._g(seen.met_m_s)}; no less than that is taken."
        left = self._tank_h()
        if seen.tank is not None and left is not None:
            old = f"~ The tank was read {self._ago(seen.tank.age_h)}" if seen.tank.age_h > STALE_TANK_H else "Tank"  # fmt: skip
            ran = f", {number(seen.tank.engine_h, 1)} h written since taken off" if seen.tank.engine_h > 0.0 else ""  # fmt: skip
            yield f"{old}: about {left:.0f} engine-hours are left{ran}."

    def _clock_notes(self) -> Iterator[str]:
        if self._seen.clock.told:
            yield self._seen.clock.told
        now, then = (self._seen.clock.ahead_h(at) for at in (self._seen.at, self._seen.at + timedelta(days=1)))  # fmt: skip
        if now != then:
            yield f"The clocks go {'on' if then > now else 'back'} by tomorrow at this hour: hours are told as your clock will show them then."

    def _ago(self, age_h: float) -> str:
        then = self._seen.wall - timedelta(hours=age_h)
        return f"{then:%A}" if age_h < 24.0 * 6 else f"{then:%d %b}"

    def why(self, stop: bool) -> Iterator[Reason]:
        """Sun, gust, way, battery, night; each with its working."""
        yield self._why_sun()
        yield self._why_gust(stop)
        yield self._why_way()
        yield self._why_battery()
        yield self._why_night(stop)

    def _why_sun(self) -> Reason:
        ahead, decided = self._decided.ahead, self._decided
        band = ahead.sun_wh
        text = f"Sun on the pole today {self._band_kwh(band.low, band.high)}; the house can use {self._kwh(ahead.used_wh.mid)} of all its sun"  # fmt: skip
        if decided.beside is not None and decided.held is not None:
            tilt, used = decided.beside
            text += f" at {decided.held.tilt_deg:.0f}, {self._kwh(used)} at {tilt:.0f}"
        if decided.forgone is not None:
            tilt, gain = decided.forgone
            saves = (
                f"would save {self._kwh(gain)}" if gain >= 50.0 else "would save next to nothing"
            )
            text += f"; {tilt:.0f} {saves} in three days, and a move must earn {self._kwh(worth_a_move_wh(self._basis))}"  # fmt: skip
        taught = self._seen.taught
        steps = (
            Step("sun seen over expected, this month", "f", f"of {taught.days} days", taught.sun_factor, "", OURS),
            Step("new array, low", "E_10", "10 % point of 24 skies", band.low, "Wh", AHEAD),
            Step("new array, high", "E_90", "90 % point of 24 skies", band.high, "Wh", AHEAD),
            Step("sun the house can use, median", "E_u", "", ahead.used_wh.mid, "Wh", AHEAD),
            Step("what another sky costs, nine times in ten no more", "R", "need here - least need of the tilts tried", decided.regret_wh, "Wh", AHEAD),
        )  # fmt: skip
        return Reason(text + ".", Working("sun today", steps))

    def _why_gust(self, stop: bool) -> Reason:
        bounds, card = self._bounds, self._basis.card
        held = self._decided.held
        lies = None if self._seen.lies is None else self._seen.lies.value
        tilt = lies if stop or held is None else held.tilt_deg
        upper = bounds.whole_m_s if stop or held is None else held.upper_m_s
        to_h = bounds.hours.again_h if stop or held is None or held.by_h is None else held.by_h
        gust = bounds.ahead.told_m_s(bounds.hours.now_h, to_h)
        told = "nothing is told" if gust is None else f"{self._n(gust)} is told"
        until = "" if to_h == bounds.hours.again_h else f" until {self._clock(to_h)}"
        chance = bounds.ahead.chance_over(upper, bounds.hours.now_h, to_h)
        steps = [
            Step("gust told", "V_f", "largest of the hours, times the log's bias" if gust else "none", gust or 0.0, "m/s", HEARD),
            Step("chance you bear", "p", "morning.gust_chance", bounds.ahead.bound, "", OWNER),
            Step("upper gust of these hours, rounded up", "V_u", "passed with that chance only", upper, "m/s", OURS),
            Step("chance to pass it by forecast or climate", "P", "", chance, "", OURS),
        ]  # fmt: skip
        if tilt is None:
            return Reason(f"It may blow {self._g(upper)} ({told}); where it lies is not known.", Working("gust", tuple(steps)))  # fmt: skip
        stands = bounds.stands_m_s(tilt, to_h)
        snow = " under snow" if bounds.under_snow(to_h) else ""
        steps.append(Step(f"stands to at {tilt:.0f} deg", "V_s", f"weakest within {card.within_deg(tilt):.0f} deg, {'storm hold in' if card.locks_at(tilt) else 'on the rod'}{',' * bool(snow)}{snow}, rounded down", stands, "m/s", CARD))  # fmt: skip
        return Reason(f"At {tilt:.0f} it stands to {self._g(stands)}{snow}; {told}, it may blow {self._g(upper)}{until}.", Working("gust", tuple(steps)))  # fmt: skip

    def _why_way(self) -> Reason:
        lies = None if self._seen.lies is None else self._seen.lies.value
        to = self._decided.goal_deg
        if self._decided.tonight is not None and not self._decided.moved:
            to = self._decided.tonight.tilt_deg
        under = self._bounds.under_m_s(lies, to)
        start = "from anywhere" if lies is None else f"from {lies:.0f}"
        if lies is not None and abs(lies - to) < 1.0:
            lies, start, to = None, "from end to end", self._basis.card.flat_deg
            under = self._bounds.under_m_s(None, to)
        where = start if start == "from end to end" else f"{start} to {to:.0f}"
        steps = (
            Step("least moving gust of the way, rounded down", "V_m", where, under, "m/s", CARD),
            Step("snow the drive is asked to move", "p", "5 psf", SNOW_LIMIT_PA, "Pa", OURS),
        )  # fmt: skip
        return Reason(f"Move only under {self._g(under)}, the least of the whole way {where}.", Working("way", steps))  # fmt: skip

    def _why_battery(self) -> Reason:
        ahead, motor = self._decided.ahead, self._basis.plan.motor
        charge = self._seen.charge
        now = "not read" if charge is None else percent(charge.value)
        call = f"; the engine is called at {100.0 * motor.call_at:.0f}" if motor.present else ""
        band = ahead.sundown
        steps = (
            Step("charge read", "s", "" if charge is None else f"{charge.age_h:.0f} h ago", charge.value if charge else 0.0, "", OWNER),
            *self._read_steps(),
            Step("at sundown, low", "s_10", "10 % point of 24 skies", band.low, "", AHEAD),
            Step("at sundown, middle", "s_50", "", band.mid, "", AHEAD),
            Step("at sundown, high", "s_90", "90 % point", band.high, "", AHEAD),
            Step("chance that the engine is called within a day", "P_e", "", ahead.engine.chance, "", AHEAD),
        )  # fmt: skip
        return Reason(f"Charge {now}; sundown {percent(band.mid)} ({100.0 * band.low:.0f} to {100.0 * band.high:.0f}){call}.", Working("battery", steps))  # fmt: skip

    def _read_steps(self) -> Iterator[Step]:
        left, bank = self._tank_h(), self._seen.bank_c
        if left is not None and self._seen.tank is not None:
            yield Step(
                "fuel left",
                "F",
                f"level read {self._seen.tank.age_h:.0f} h ago and what was filled since, less {self._seen.tank.engine_h:g} h",
                fuel_left_l(self._basis, self._seen),
                "l",
                OWNER,
            )
            yield Step(
                "engine-hours in it",
                "h",
                f"over {fuel_l_h(self._basis):.2f} l an hour, thirstier end",
                left,
                "h",
                OURS,
            )
        if bank is not None:
            yield Step(
                "battery's temperature", "T_b", f"{bank.age_h:.0f} h ago", bank.value, "C", OWNER
            )

    def _why_night(self, stop: bool) -> Reason:
        night, bounds = self._decided.tonight, self._bounds
        if stop or night is None:
            return Reason("Until it may be moved it stays as it is: look at it again before dark.", Working("night", (Step("upper gust until the morning after", "V_u", "", bounds.whole_m_s, "m/s", OURS),)))  # fmt: skip
        steps = (
            Step("owner's clock less standard time", "c", self._clock_words(), self._seen.clock.ahead_h(self._seen.at), "h", OURS),
            Step("upper gust of the night, rounded up", "V_u", "", night.upper_m_s, "m/s", OURS),
            Step(f"stands to at {night.tilt_deg:.0f} deg, rounded down", "V_s", "storm hold in" if night.locked else "on the rod", night.stands_to_m_s, "m/s", CARD),
        )  # fmt: skip
        room = night.stands_to_m_s - night.upper_m_s
        text = f"For the night {night.tilt_deg:.0f} stands to {self._g(night.stands_to_m_s)}{' under snow' * bounds.under_snow()}, {self._n(max(room, 0.0), down=True)} over what it may blow."  # fmt: skip
        if night.by_h is not None:
            text += f" By {self._clock(night.by_h)}, while gusts still keep under {self._g(bounds.under_m_s(self._decided.held.tilt_deg if self._decided.held else None, night.tilt_deg))}."  # fmt: skip
        return Reason(text, Working("night", steps))

    # -- figures -----------------------------------------------------------------------------------------------------

    def _gust_sure(self) -> Sureness:
        return "guess" if self._told is None or self._bounds.ahead.misheard else "likely"

    def _stands_here(self) -> float:
        return 0.0 if self._seen.lies is None else self._bounds.stands_m_s(self._seen.lies.value)

    def _n(self, speed_m_s: float, down: bool = False) -> str:
        value = in_unit(speed_m_s, self._unit)
        return f"{value - 0.5 if down else value:.0f}".replace("-0", "0")

    def _g(self, speed_m_s: float) -> str:
        return f"{self._n(speed_m_s)} {self._unit}"

    def _kwh(self, wh: float) -> str:
        return f"{number(wh / 1000.0, 1)} kWh"

    def _band_kwh(self, low: float, high: float) -> str:
        return f"{number(low / 1000.0, 0 if high >= 3000.0 else 1)} to {number(high / 1000.0, 0 if high >= 3000.0 else 1)} kWh"  # fmt: skip

    def _clock(self, hour: float) -> str:
        """An hour of the day on the owner's clock."""
        return self._told_hour(self._seen.shown(hour))

    def _told_hour(self, shows: datetime) -> str:
        if self._style == "metric":
            return f"{shows.hour}:{shows:%M}"
        if (shows.hour, shows.minute) == (12, 0):
            return "noon"
        past = f":{shows:%M}" if shows.minute else ""
        return f"{(shows.hour - 1) % 12 + 1}{past} {'am' if shows.hour < 12 else 'pm'}"

    def _clock_words(self) -> str:
        clock = self._seen.clock
        if clock.standard_h is None or clock.told:
            return "standard time of the place"
        ahead = clock.ahead_h(self._seen.at)
        return "this machine's clock, summer time" if ahead > 0.0 else "this machine's clock"

    def _tomorrow(self, hour: float) -> bool:
        return self._seen.shown(hour).date() > self._seen.wall.date()


def engine_span(hours: Band) -> str:
    """Engine hours of all skies: from to, or up to where some skies do not call it.

    Example:
        >>> engine_span(Band(1.0, 2.0, 4.2)), engine_span(Band(0.0, 2.0, 4.2)), engine_span(Band(3.9, 4.0, 4.2))
        ('1 to 4', 'up to 4', 'about 4')
    """
    low, high = round(hours.low), max(round(hours.high), 1)
    if low == high:
        return f"about {high}"
    return f"{low} to {high}" if low >= 1 else f"up to {high}"


def _or(words: list[str]) -> str:
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _sure_of(chance: float, stale: bool) -> Sureness:
    if stale or chance < LIKELY_OVER:
        return "guess"
    return "sure" if chance >= SURE_OVER else "likely"
