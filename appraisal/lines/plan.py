"""From the catalogue to one scenario: which lines exist, what each reads, and in which order they are computed."""

from __future__ import annotations

import graphlib
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from appraisal.errors import LineError
from appraisal.lines import circles
from appraisal.lines.catalogue import Catalogue
from appraisal.lines.define import Grid, Line
from appraisal.lines.names import ALL, EACH, Ref, split_view

Items = Mapping[str, tuple[tuple[str, str], ...]]
Argument = Ref | tuple[Ref, ...]


@dataclass(frozen=True)
class Node:
    """One line of one scenario: a definition, the item it stands for, and what its arguments refer to."""

    name: str
    line: Line
    item: str | None
    arguments: tuple[Argument, ...]
    grid: Grid

    def refs(self) -> Iterator[Ref]:
        """Every value the node reads."""
        for argument in self.arguments:
            yield from argument if isinstance(argument, tuple) else (argument,)

    @property
    def label(self) -> str:
        """Label for people, with the item in front."""
        return f"{self.item}: {self.line.label}" if self.item else self.line.label


@dataclass(frozen=True)
class Step:
    """Nodes computed together: one node in one piece, a group stepped through the months, or a circle through the years.

    inner: of a circle, its steps in the order in which each year computes them; empty otherwise.
    """

    nodes: tuple[Node, ...]
    stepped: bool
    backward: bool
    inner: tuple[Step, ...] = ()


@dataclass(frozen=True)
class Plan:
    """All nodes of one scenario in the order of computation."""

    steps: tuple[Step, ...]
    nodes: Mapping[str, Node]
    monthly_inputs: frozenset[str]

    @cached_property
    def in_circle(self) -> frozenset[str]:
        """Lines that are worked out year by year, because each year of them rests on the year before."""
        return frozenset(node.name for step in self.steps if step.inner for node in step.nodes)

    def grid(self, name: str) -> Grid:
        """Grid of a node or input: once, month or year."""
        if name in self.nodes:
            return self.nodes[name].grid
        return "month" if name in self.monthly_inputs else "once"


def plan(
    catalogue: Catalogue,
    *,
    items: Items,
    choices: Mapping[str, str],
    monthly_inputs: Collection[str],
) -> Plan:
    """Choose the variants, repeat family lines for their items, resolve arguments and order everything.

    items: family -> (table, item) pairs; choices: dotted path -> option; monthly_inputs: full names of series.
    Raises LineError on a circle without a group, or where no variant fits the choices.
    """
    chosen = {full: (line, place) for full, line, place in _instances(catalogue, items, choices)}
    roles: dict[str, list[str]] = {}
    for full, (line, _) in chosen.items():
        if line.role:
            roles.setdefault(line.role, []).append(full)
    resolver = _Resolver(catalogue, items, frozenset(chosen), {role: tuple(names) for role, names in roles.items()})
    arguments = {
        full: tuple(resolver.argument(a, line, place) for a in line.arguments) for full, (line, place) in chosen.items()
    }
    order = _ordered({full: line for full, (line, _) in chosen.items()}, arguments)
    nodes: dict[str, Node] = {}
    monthly = frozenset(monthly_inputs)
    for full in (full for groups in order for group in groups for full in group):
        line, place = chosen[full]
        nodes[full] = Node(
            full, line, place[1] if place else None, arguments[full], _grid(line, arguments[full], nodes, monthly)
        )
    steps = tuple(_whole_step([tuple(nodes[full] for full in group) for group in groups]) for groups in order)
    return Plan(steps, nodes, monthly)


def _instances(
    catalogue: Catalogue,
    items: Items,
    choices: Mapping[str, str],
) -> Iterator[tuple[str, Line, tuple[str, str] | None]]:
    for name, variants in catalogue.lines.items():
        family = variants[0].per
        for place in items[family] if family else (None,):
            full = f"{family}.{place[1]}.{name[len(family) + 1 :]}" if family and place else name
            fitting = [v for v in variants if _fits(catalogue, v, place, choices)]
            if len(fitting) > 1:
                raise LineError(f"{full}: {len(fitting)} definitions fit the choices, wanted one")
            if fitting:
                yield full, fitting[0], place


def _fits(catalogue: Catalogue, line: Line, place: tuple[str, str] | None, choices: Mapping[str, str]) -> bool:
    for key, option in line.when.items():
        own = line.per is not None and place is not None and key.startswith(line.per + "_")
        path = f"{place[0]}.{place[1]}.{key[len(line.per or '') + 1 :]}" if own and place else catalogue.inputs[key]
        if choices[path] not in option.split("|"):
            return False
    return True


@dataclass(frozen=True)
class _Resolver:
    catalogue: Catalogue
    items: Items
    lines: frozenset[str]
    roles: Mapping[str, tuple[str, ...]]

    def argument(self, argument: str, line: Line, place: tuple[str, str] | None) -> Argument:
        """What an argument name of a line refers to; raises LineError where one item's line is read without its list."""
        if argument.startswith(ALL):
            return tuple(Ref(full) for full in self.roles.get(argument[len(ALL) :], ()))
        listed = argument.startswith(EACH)
        view, name = split_view(argument.removeprefix(EACH))
        family = self.catalogue.family_of(name)
        if listed:
            return tuple(Ref(self.full(name, family, each), view) for each in self.items[family or ""])
        if family and line.per != family and name not in self.catalogue.lines:
            raise LineError(f"{line.name}: reads {argument} of one item; write each_{argument} for all of them")
        return Ref(self.full(name, family if line.per == family else None, place), view)

    def full(self, name: str, family: str | None, place: tuple[str, str] | None) -> str:
        """The full name of a line or input, of an item where it belongs to a family; raises LineError where there is none."""
        if family and place:
            field = name[len(family) + 1 :]
            own = f"{family}.{place[1]}.{field}"
            full = own if own in self.lines else f"{place[0]}.{place[1]}.{field}"
            known = own in self.lines or f"{place[0]}_{field}" in self.catalogue.inputs
        else:
            full = name if name in self.lines else self.catalogue.inputs.get(name, "")
            known = bool(full)
        if not known:
            raise LineError(f"{name}: does not exist under the choices of this scenario")
        return full


def _ordered(lines: Mapping[str, Line], arguments: Mapping[str, tuple[Argument, ...]]) -> list[list[tuple[str, ...]]]:
    """Groups of node names in order, each a list of one, or of several where they run in a circle through the years.

    A stepped group is one entry, ordered inside by what it reads of the same month.
    """
    group = {full: _group_name(full, line) for full, line in lines.items()}
    outer: dict[str, set[str]] = {name: set() for name in group.values()}
    inner: dict[str, set[str]] = {full: set() for full in lines}
    last_year: set[tuple[str, str]] = set()
    for full, refs in arguments.items():
        for ref in _flat(refs):
            if ref.name in lines and group[ref.name] != group[full]:
                outer[group[full]].add(group[ref.name])
                if lines[full].turns and ref.view == "previous":
                    last_year.add((group[full], group[ref.name]))
            elif ref.name in lines and ref.view == "same":
                inner[full].add(ref.name)
    try:
        fine = {full: place for place, full in enumerate(graphlib.TopologicalSorter(inner).static_order())}
        coarse = circles.ordered(outer, last_year=last_year)
    except graphlib.CycleError as error:
        raise LineError(f"lines run in a circle: {' -> '.join(error.args[1])}") from error
    members: dict[str, list[str]] = {}
    for full in sorted(lines, key=fine.__getitem__):
        members.setdefault(group[full], []).append(full)
    return [[tuple(members[name]) for name in names] for names in coarse]


def _group_name(full: str, line: Line) -> str:
    if not line.roll:
        return full
    return f"({line.roll} {full.rpartition('.')[0]})"


def _flat(arguments: tuple[Argument, ...]) -> Iterator[Ref]:
    for argument in arguments:
        yield from argument if isinstance(argument, tuple) else (argument,)


def _grid(line: Line, arguments: tuple[Argument, ...], nodes: Mapping[str, Node], monthly: frozenset[str]) -> Grid:
    if line.yearly:
        return "year"
    if line.roll:
        return "month"
    for ref in _flat(arguments):
        grid = nodes[ref.name].grid if ref.name in nodes else "month" if ref.name in monthly else "once"
        if ref.view in ("in_year", "cumulative") or (ref.view != "life_sum" and grid == "month"):
            return "month"
        if grid == "year":
            raise LineError(f"{line.name}: reads the yearly line {ref.name}; write in_year_{ref.name}")
    return "month" if line.monthly or line.unit.endswith("/month") else "once"


def _whole_step(groups: list[tuple[Node, ...]]) -> Step:
    steps = tuple(_step(nodes) for nodes in groups)
    if len(steps) == 1:
        return steps[0]
    _only_earlier_years(groups)
    return Step(tuple(node for step in steps for node in step.nodes), stepped=False, backward=False, inner=steps)


def _only_earlier_years(groups: list[tuple[Node, ...]]) -> None:
    """Raise LineError where a line of a circle reads a year of the circle that is not there yet."""
    nodes = {node.name: node for group in groups for node in group}
    for node in nodes.values():
        ahead = [ref for ref in node.refs() if ref.name in nodes and ref.view in ("next", "life_sum", "years_of")]
        if ahead or node.line.backward:
            raise LineError(f"{node.name}: runs in a circle through the years and reads later ones")


def _step(nodes: tuple[Node, ...]) -> Step:
    return Step(nodes, stepped=nodes[0].line.roll is not None, backward=any(node.line.backward for node in nodes))
