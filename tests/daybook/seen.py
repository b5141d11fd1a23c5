"""Entries of any kind, for laws."""

from __future__ import annotations

from datetime import date, datetime, time

from hypothesis import strategies as st

from polestead.daybook.entry import Entry, Moment

NOW = datetime(2026, 1, 20, 7, 10)
MONDAY = date(2026, 1, 19)
TEXTS = st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=40
)  # no lone surrogate is a text
MOMENTS = st.builds(
    Moment,
    st.dates(date(1970, 1, 1), date(2026, 1, 18)),
    st.none() | st.times().map(lambda at: at.replace(second=0, microsecond=0)),
    st.none() | st.integers(-14 * 60, 14 * 60),
)
SNOWS = st.sampled_from([{}, {"snow": "bare"}, {"snow": "covered"}, {"snow_share": 0.3}])


def maybe(least: float, most: float) -> st.SearchStrategy[float | None]:
    return st.none() | st.floats(least, most)


@st.composite
def entries(draw: st.DrawFn) -> Entry:
    """Any entry that may be written."""
    given = {
        "tilt_deg": draw(maybe(0.0, 90.0)), "rod_m": draw(maybe(0.0, 3.0)), "charge": draw(maybe(0.0, 1.0)), "rest_v": draw(maybe(1.0, 1500.0)),
        "new_wh": draw(maybe(0.0, 1e7)), "all_wh": draw(maybe(0.0, 1e7)), "engine_hours": draw(maybe(0.0, 24.0)),
        "engine_meter_hours": draw(maybe(0.0, 1e6)), "filled_l": draw(maybe(0.0, 5e4)), "tank_l": draw(maybe(0.0, 5e4)),
        "tank_share": draw(maybe(0.0, 1.0)), "gust_m_s": draw(maybe(0.0, 115.0)), **draw(SNOWS),
    }  # fmt: skip
    done = tuple(draw(st.lists(st.sampled_from(["grease", "torque", "engine oil"]), unique=True, max_size=2)))  # fmt: skip
    words = {name: draw(TEXTS) for name in ("gust_seen", "ticks", "note", "written", "whence")}
    note = words.pop("note") or "a note"
    return Entry(draw(MOMENTS), **given, done=done, note=note if note.strip() else "a note", **words)  # fmt: skip


def at(day: int, hour: int | None = None, minute: int = 0, offset_min: int | None = None) -> Moment:
    """A moment of January 2026."""
    return Moment(date(2026, 1, day), None if hour is None else time(hour, minute), offset_min)
