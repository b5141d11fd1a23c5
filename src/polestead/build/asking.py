"""The asking list: whom to ring, the sentence to say, the trap in the reply."""

from __future__ import annotations

from collections.abc import Iterable

from polestead.base.row import Row
from polestead.build.result import Question
from polestead.homestead.fields import extra_of, key_of
from polestead.homestead.model import Place


def asking_list(rows: Iterable[Row]) -> tuple[Question, ...]:
    """A question for every fact of the place that nobody has confirmed; an answer without its date is asked again.

    Args:
        rows: The homestead's rows.
    """
    asks = {
        key_of(name): extra_of(info)
        for name, info in Place.model_fields.items()
        if "ask" in extra_of(info)
    }
    return tuple(
        Question(row, asks[row.key]["ask"], asks[row.key]["question"], asks[row.key]["trap"])
        for row in rows
        if row.section == "place"
        and row.key in asks
        and (row.unsettled or (row.standing == "said" and row.on is None))
    )
