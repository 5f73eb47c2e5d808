"""What a line is: a function, its argument names, and the facts in its docstring."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from types import ModuleType
from typing import Any, Literal

from appraisal.errors import LineError

Grid = Literal["once", "month", "year"]
Body = Callable[..., Any]
HEAD = re.compile(r"^(?P<label>[^\[\]]+) \[(?P<unit>[^\]]*)\]$")
MARK = "__line__"


@dataclass(frozen=True)
class Line:
    """One definition.

    name: the quantity, without the suffix that tells rival definitions apart.
    variant: that suffix (`conversion__plug_flow` is variant plug_flow of conversion), empty when there is one definition.
    body: the function; arguments: its argument names.
    label, unit, meaning: from the docstring, whose first line is `Label [unit]`.
    sheet: module the line stands in.
    per: family of items the line is repeated for, None for the whole plant.
    when: choices that must hold for this variant, argument name of the choice -> option, or options parted by `|`.
    yearly: True for a line with one value a project year. monthly: True for a total that stays a line by month even when
    there are no items to add up; a unit that ends in /month says so by itself.
    roll: name of the group of lines that is stepped together, None for a line computed in one piece.
    backward: True when the group is stepped from the last month to the first.
    role: which total of the statements the line belongs to, None for lines that are no money.
    turns: True for a yearly line through which a circle of lines turns to the next year: what it reads of the year before may
    rest on the line itself. Such a circle is worked out year by year.
    """

    name: str
    variant: str
    body: Body
    arguments: tuple[str, ...]
    label: str
    unit: str
    meaning: str
    sheet: str
    per: str | None = None
    when: Mapping[str, str] = field(default_factory=dict)
    yearly: bool = False
    monthly: bool = False
    roll: str | None = None
    backward: bool = False
    role: str | None = None
    turns: bool = False


def line(
    *,
    per: str | None = None,
    when: Mapping[str, str] | None = None,
    yearly: bool = False,
    monthly: bool = False,
    roll: str | None = None,
    backward: bool = False,
    role: str | None = None,
    turns: bool = False,
) -> Callable[[Body], Body]:
    """Mark a function as a line; see `Line` for what each option means."""

    def mark(body: Body) -> Body:
        options = dict(
            per=per, when=dict(when or {}), yearly=yearly, monthly=monthly, roll=roll, backward=backward, role=role, turns=turns
        )
        setattr(body, MARK, options)
        return body

    return mark


def read(body: Body, options: Mapping[str, Any]) -> Line:
    """Build the record of one marked function.

    Raises LineError when the docstring does not open with `Label [unit]` or says nothing more.
    """
    head, _, rest = inspect.cleandoc(body.__doc__ or "").partition("\n")
    found = HEAD.match(head)
    if not found or not rest.strip():
        raise LineError(f"{body.__module__}.{body.__name__}: the docstring must be `Label [unit]`, then the meaning")
    name, _, variant = body.__name__.partition("__")
    return Line(
        name=name,
        variant=variant,
        body=body,
        arguments=tuple(inspect.signature(body).parameters),
        label=found["label"],
        unit=found["unit"],
        meaning=" ".join(rest.split()),
        sheet=body.__module__.rpartition(".")[2],
        **options,
    )


def lines_of(modules: Iterable[ModuleType]) -> tuple[Line, ...]:
    """All lines of some modules, in the order in which they are written."""
    return tuple(
        read(body, getattr(body, MARK))
        for module in modules
        for body in vars(module).values()
        if callable(body) and hasattr(body, MARK) and body.__module__ == module.__name__
    )
