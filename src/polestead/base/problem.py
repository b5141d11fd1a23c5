"""What is wrong with an input, told so that the owner can mend it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in a file.

    Attributes:
        section: Section of the file, empty for the whole file.
        key: Key in it, empty for the whole section.
        given: What stands there.
        allowed: What may stand there.
        do: What to do.
    """

    section: str
    key: str
    given: str
    allowed: str
    do: str

    def __str__(self) -> str:
        place = f"[{self.section}] {self.key}".strip() if self.section else self.key or "the file"
        return f"{place}: given {self.given}; allowed: {self.allowed}. {self.do}"


class Wrong(Exception):  # noqa: N818  it carries several problems, told together
    """Raised once with all problems of an input."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))
