"""The homestead file field by field, as it can be filled in: what stands there, what may, who says so; all from the model."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from typing import Any, Literal, get_args, get_origin

from pydantic import ValidationError
from pydantic.fields import FieldInfo

from polestead.base.quantity import offered
from polestead.base.show import Style
from polestead.homestead.fields import Forms, Section, dimension_of, extra_of, key_of, read_one
from polestead.homestead.model import Homestead
from polestead.homestead.standing import COUNTS_FIRST, is_list, named_values, section_class, writing
from polestead.homestead.told import allowed, both, choices_of

Path = tuple[str, ...]
Kind = Literal["quantity", "choice", "yes or no", "whole number", "number", "date", "several", "text"]  # fmt: skip
BASE = ("said", "planned", "assumed")  # what counts where nothing is built
OWN_GUESS = "the owner's own guess; nobody was asked yet"
MOST_WAYS = 4
_MORE_THAN_A_LINE = 46  # letters after which a text gets room for a second line


@dataclass(frozen=True, slots=True)
class Line:
    """One field of the file.

    Attributes:
        path: Of its key.
        word: What it is called.
        kind: How it is filled in.
        choices: What it may be one of, as written.
        help: What it is or does.
        allowed: What it takes, with its span.
        whom: Whom to ask, for a fact of the place.
        question: The sentence to say.
        trap: What goes wrong in the reply.
        required: It may not be left out.
        taken: What counts when it is left out.
        source: Where that comes from.
        standing: Who says so, of the value that counts; empty where nothing is written.
        base: Which of said, planned and assumed is written; empty where none is.
        written: That value, as the owner may type it.
        built: What was measured.
        asked_of: Who said it.
        on: When it was said or measured, as written.
        why: Why it is assumed.
        idle: It changes nothing as the rest of the file stands.
        named: The owner gave it its name, and may take it out.
    """

    path: Path
    word: str
    kind: Kind
    choices: tuple[str, ...]
    help: str
    allowed: str
    whom: str
    question: str
    trap: str
    required: bool
    taken: str
    source: str
    standing: str
    base: str
    written: str
    built: str
    asked_of: str
    on: str
    why: str
    idle: bool
    named: bool

    @property
    def span(self) -> str:
        """What it takes, without saying again what it is.

        Example:
            >>> mount = next(part for part in parts_of("", None).parts if part.word == "mount")
            >>> next(line.span for line in mount.lines if line.word == "hinge height")
            'over 0.3 m (0.98 ft), at most 12 m (39.4 ft)'
        """
        rest = re.sub(r"^an? [a-z ]+ with its unit(, )?", "", self.allowed).replace(
            "a text in quotes", "a text"
        )
        return rest or "with its unit"

    @property
    def long(self) -> bool:
        """It wants more than a line."""
        return self.kind == "several" or (
            self.kind == "text" and len(self.written) > _MORE_THAN_A_LINE
        )


@dataclass(frozen=True, slots=True)
class Part:
    """A section of the file, a list of them, or values under the owner's own names.

    Attributes:
        path: Of it.
        word: What it is called.
        help: What it is.
        kind: ``section``, ``list`` or ``names``.
        lines: Its fields, or what stands under the owner's names.
        parts: Sections inside it, or those of the list.
        there: It stands in the file.
        may_go: It may be taken out.
        may_begin: It may be begun, or one more of it.
        wants_name: One more is called by a name.
        example: How a value under a name is written.
        names: The names there may be, where they are not the owner's own.
    """

    path: Path
    word: str
    help: str
    kind: Literal["section", "list", "names"]
    lines: tuple[Line, ...] = ()
    parts: tuple[Part, ...] = ()
    there: bool = True
    may_go: bool = False
    may_begin: bool = False
    wants_name: bool = False
    example: str = ""
    names: tuple[str, ...] = ()

    def every_line(self) -> Iterator[Line]:
        """Its lines and those of everything inside it."""
        yield from self.lines
        for part in self.parts:
            yield from part.every_line()


def parts_of(text: str, homestead: Homestead | None) -> Part:
    """The whole file, field by field.

    Args:
        text: Its text; it must be TOML, but may be wrong.
        homestead: The last good one: it knows which fields change nothing.

    Raises:
        ValueError: The text is not TOML.
    """
    return _section(Homestead, tomllib.loads(text), homestead, (), "homestead")


def field_at(path: Path) -> FieldInfo | None:
    """The field a path names; None for a section and for what is not in the model.

    Example:
        >>> field_at(("mount", "hinge_height")) is Homestead.model_fields["mount"], field_at(("mount",))
        (False, None)
    """
    here: type[Section] = Homestead
    for place, part in enumerate(path):
        info = next((f for name, f in here.model_fields.items() if key_of(name) == part), None)
        if info is None:
            if part.isdecimal():  # which one of a list
                continue
            return None
        inner, named = section_class(info), named_values(info)
        if inner is not None:
            here = inner
        elif named is not None:
            return named if place == len(path) - 2 else None
        else:
            return info if place == len(path) - 1 else None
    return None


def section_at(path: Path) -> tuple[type[Section], bool] | None:
    """The class of the section a path names, and whether it is a list of them."""
    here: type[Section] = Homestead
    several = False
    for part in path:
        if several and part.isdecimal():
            several = False
            continue
        info = next((f for name, f in here.model_fields.items() if key_of(name) == part), None)
        inner = section_class(info) if info is not None else None
        if info is None or inner is None or several:
            return None
        here, several = inner, is_list(info)
    return here, several


def _word(key: str) -> str:
    return key.replace("_", " ")


def _doc(model: type[Section]) -> str:
    """What a section is, in its own words."""
    return re.sub(r"\s*\(conventions[^)]*\)", "", (model.__doc__ or "").strip().splitlines()[0])


def _section(
    model: type[Section], raw: Any, good: Any, path: Path, word: str, there: bool = True
) -> Part:
    held = raw if isinstance(raw, Mapping) else {}
    idle = good.without_effect() if isinstance(good, Section) else frozenset()
    lines: list[Line] = []
    parts: list[Part] = []
    for name, info in model.model_fields.items():
        key = key_of(name)
        at, given, inside = (*path, key), held.get(key), getattr(good, name, None)
        inner, named = section_class(info), named_values(info)
        if inner is not None and is_list(info):
            parts.append(_list(inner, info, given, inside, at))
        elif inner is not None:
            parts.append(_one(inner, info, given, inside, at))
        elif named is not None:
            parts.append(_names(info, named, given, at))
        else:
            lines.append(_line(info, given, at, idle=name in idle))
    return Part(path, word, _doc(model), "section", tuple(lines), tuple(parts), there)


def _one(inner: type[Section], info: FieldInfo, given: Any, good: Any, at: Path) -> Part:
    """A section that stands once; one that may be left out is begun before it has fields."""
    there = isinstance(given, Mapping)
    may_go = not info.is_required()
    if not there and may_go and info.default is None:
        return Part(at, _word(at[-1]), _doc(inner), "section", there=False, may_begin=True)
    section = _section(inner, given, good, at, _word(at[-1]), there)
    return Part(at, section.word, section.help, "section", section.lines, section.parts, there, may_go and there)  # fmt: skip


def _list(inner: type[Section], info: FieldInfo, given: Any, good: Any, at: Path) -> Part:
    held = given if isinstance(given, list) else [given] if isinstance(given, Mapping) else []
    good = good if isinstance(good, tuple) else ()
    parts = []
    for number, one in enumerate(held, start=1):
        like = good[number - 1] if number <= len(good) else None
        called = one.get("name") if isinstance(one, Mapping) else None
        word = called if isinstance(called, str) and called else f"{_word(at[-1])} {number}"
        part = _section(inner, one, like, (*at, str(number)), word)
        parts.append(Part(part.path, word, "", "section", part.lines, part.parts, True, True))
    doc = info.description or extra_of(info).get("why", "") or _doc(inner)
    name = inner.model_fields.get("name")
    wants = name is not None and name.is_required()
    return Part(at, _word(at[-1]), doc, "list", (), tuple(parts), bool(held), False, True, wants)


def _names(info: FieldInfo, named: FieldInfo, given: Any, at: Path) -> Part:
    held = given if isinstance(given, Mapping) else {}
    lines = tuple(_line(named, one, (*at, name), named=True) for name, one in held.items())
    key_kind = get_args(info.annotation)[0]
    names = get_args(key_kind) if get_origin(key_kind) is Literal else ()
    return Part(at, _word(at[-1]), info.description or "", "names", lines, (), bool(held), False, True, True, allowed(named), names)  # fmt: skip


def _line(info: FieldInfo, given: Any, path: Path, *, idle: bool = False, named: bool = False) -> Line:  # fmt: skip
    extra = extra_of(info)
    table: Mapping[str, Any] = given if isinstance(given, Mapping) else {}
    plain = given is not None and not isinstance(given, Mapping)
    standing = "planned" if plain else next((word for word in COUNTS_FIRST if word in table), "")
    base = "planned" if plain else next((word for word in BASE if word in table), "")
    kind = kind_of(info)
    taken = extra.get("shown", "") or (typed(info.default) if "source" in extra else "")
    help_words = " ".join(dict.fromkeys(words for words in (info.description or "", extra.get("why", "")) if words))  # fmt: skip
    return Line(
        path=path,
        word=_word(path[-1]),
        kind=kind,
        choices=tuple(typed(choice) for choice in choices_of(info)) if kind == "choice" else (),
        help=help_words,
        allowed=allowed(info),
        whom=extra.get("ask", ""),
        question=extra.get("question", ""),
        trap=extra.get("trap", ""),
        required=info.is_required() and not named,
        taken=taken,
        source=extra.get("source", ""),
        standing=standing,
        base=base,
        written=typed(given if plain else table.get(base)),
        built=typed(table.get("built")),
        asked_of=str(table.get("asked_of", "")),
        on=str(table.get("on", "")),
        why=str(table.get("why", "")),
        idle=idle,
        named=named,
    )


def kind_of(info: FieldInfo) -> Kind:
    """How a field is filled in."""
    kinds = (info.annotation, *get_args(info.annotation))
    if any(get_origin(kind) is tuple for kind in kinds):
        return "several"
    if dimension_of(info) is not None or any(isinstance(mark, Forms) for mark in info.metadata):
        return "quantity"
    if any(get_origin(kind) is Literal for kind in kinds):
        return "choice"
    found: tuple[tuple[type, Kind], ...] = ((bool, "yes or no"), (int, "whole number"), (float, "number"), (date, "date"))  # fmt: skip
    return next((word for kind, word in found if kind in kinds), "text")


def typed(value: Any) -> str:
    """A value of the file as the owner may type it: no quotes, a list a line each.

    Example:
        >>> typed(True), typed(["5 deg", "15 deg"]), typed(None), typed(2.5)
        ('yes', '5 deg\\n15 deg', '', '2.5')
    """
    if value is None:
        return ""
    if isinstance(value, (list, tuple)):
        return "\n".join(typed(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return writing(value)


_WHOLE = re.compile(r"[+-]?\d{1,12}")
_POINT = re.compile(r"[+-]?(\d{1,12}\.\d*|\.\d+)")


def from_typed(info: FieldInfo, text: str) -> Any:
    """What was typed, as the file is to hold it; what does not fit is held as text, for the check to tell.

    Example:
        >>> from polestead.homestead.model import Frame, Mount
        >>> from_typed(Mount.model_fields["hinge_height_m"], " 12 ft "), from_typed(Frame.model_fields["rails"], "3")
        ('12 ft', 3)
        >>> from_typed(Mount.model_fields["blocked_below"], "yes"), from_typed(Frame.model_fields["rails"], "")
        (True, None)
    """
    text = text.strip()
    if not text:
        return None
    kind = kind_of(info)
    if kind == "several":
        inner = FieldInfo.from_annotation(get_args(_tuple_in(info))[0])
        return [from_typed(inner, line) for line in text.splitlines() if line.strip()]
    if kind == "choice":
        return next((choice for choice in choices_of(info) if typed(choice) == text), text)
    if kind == "yes or no":
        return {"yes": True, "true": True, "no": False, "false": False}.get(text.lower(), text)
    if kind in ("whole number", "number"):
        return _number(text.replace("−", "-"))
    if kind == "date":
        return _day(text)
    return text


def _tuple_in(info: FieldInfo) -> Any:
    return next(kind for kind in (info.annotation, *get_args(info.annotation)) if get_origin(kind) is tuple)  # fmt: skip


def _number(text: str) -> Any:
    if _WHOLE.fullmatch(text):
        return int(text)
    return float(text) if _POINT.fullmatch(text) else text


def _day(text: str) -> Any:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return text


@dataclass(frozen=True, slots=True)
class Said:
    """What was typed into one field and beside it.

    Attributes:
        value: The value, as planned, said or assumed.
        base: Which of these; empty: as it was.
        built: What was measured.
        asked_of: Who said it.
        on: When.
        why: Why it is assumed.
    """

    value: str
    base: str = ""
    built: str = ""
    asked_of: str = ""
    on: str = ""
    why: str = ""


def value_from(info: FieldInfo, given: Any, said: Said) -> Any:
    """What the file is to hold after a field was filled in.

    A value that was assumed and is typed anew is the owner's own word; a fact of the place stays assumed, as his own
    guess, until he says who told him.

    Args:
        info: The field.
        given: What the file holds there now.
        said: What was typed.
    """
    was = _line(info, given, ("x",))
    base = said.base if said.base in BASE else was.base or "planned"
    why = said.why.strip()
    if base == "assumed" == was.base and said.value.strip() != was.written and why == was.why:
        base, why = ("assumed", OWN_GUESS) if was.whom else ("planned", "")
    value, built = from_typed(info, said.value), from_typed(info, said.built)
    others = given if isinstance(given, Mapping) else {}
    table = {word: others[word] for word in BASE if word in others and word not in (base, was.base)}
    if value is not None:
        table[base] = value
    if built is not None:
        table["built"] = built
    if not table or set(table) == {"planned"}:
        return table.get("planned")
    if "said" in table:
        table["asked_of"] = said.asked_of.strip()
    if said.on.strip() and ("said" in table or "built" in table):
        table["on"] = _day(said.on.strip())
    if "assumed" in table:
        table["why"] = why
    return table


def echo(info: FieldInfo, text: str) -> str:
    """How what is being typed is read: a quantity in both its units; empty where there is nothing to add.

    Raises:
        ValueError: It does not fit; says why.

    Example:
        >>> from polestead.homestead.model import Mount
        >>> echo(Mount.model_fields["hinge_height_m"], "12 ft 6 in")
        '3.81 m (12.5 ft)'
    """
    value = from_typed(info, text)
    if value is None:
        return ""
    try:
        read = read_one(info, tuple(value) if isinstance(value, list) else value)
    except ValidationError as wrong:
        error: Any = wrong.errors(include_url=False)[0]
        said = str(error["ctx"]["error"]) if error["type"] == "value_error" else f"allowed: {allowed(info)}"  # fmt: skip
        raise ValueError(said) from None
    dimension = dimension_of(info)
    if dimension is None or not isinstance(read, float):
        return ""
    return both(read, dimension)


def ways(info: FieldInfo, text: str, style: Style) -> tuple[str, ...]:
    """What may have been meant by what does not fit; each of them does.

    Example:
        >>> from polestead.homestead.model import Mount
        >>> ways(Mount.model_fields["hinge_height_m"], "12", "feet"), ways(Mount.model_fields["facing_deg"], "180", "feet")
        (('12 ft', '12 in', '12 m'), ('180 deg',))
        >>> ways(Mount.model_fields["hinge_height_m"], "12 ft 6", "feet")
        ('12 ft 6 in',)
    """
    text = " ".join(text.split())
    number = re.match(r"[-+−]?[\d.,/ '-]*\d", text)
    found = []
    dimension = dimension_of(info)
    lesser = re.fullmatch(r"[-+−]?[\d.,/ -]*\d ?(ft|m|lb) \d[\d.,/ -]*", text)
    if dimension is not None and lesser is not None:  # a last number is never dropped
        found += [f"{text} {LESSER[lesser[1]]}"]
    elif dimension is not None and number is not None:
        found += [f"{number[0].strip()} {unit}" for unit in _in_order(dimension, style)]
        found += [f"{number[0].replace(',', '.').strip()}{text[number.end() :]}"]
        if dimension == "share" and re.fullmatch(r"0?\.\d+", number[0]):
            found.append(f"{float(number[0]) * 100.0:g} %")
    found += get_close_matches(text, [typed(choice) for choice in choices_of(info)], n=2, cutoff=0.5)  # fmt: skip
    fits = [way for way in dict.fromkeys(found) if way != text and _fits(info, way)]
    return tuple(fits[:MOST_WAYS])


LESSER = {"ft": "in", "m": "cm", "lb": "oz"}  # what a number behind such a unit is in
_FEET_FIRST = ("ft", "in", "mph", "F", "psf", "psi", "lb", "lbf", "gal", "gal/h")


def _in_order(dimension: str, style: Style) -> list[str]:
    """The owner's own units first; the very small ones are seldom meant."""
    return sorted(offered(dimension), key=lambda unit: (unit in _FEET_FIRST) != (style == "feet"))


def _fits(info: FieldInfo, text: str) -> bool:
    try:
        echo(info, text)
    except ValueError:
        return False
    return True
