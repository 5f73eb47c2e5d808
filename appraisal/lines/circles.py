"""Lines that run in a circle through the years: what stands in it, and in which order each year works it out.

A sweep prepays a loan out of what tax leaves; the prepaid loan bears less interest; so the tax of the next year falls. Year
after year that is no circle. Only lines marked `turns` open one; any other circle stays a fault.
"""

from __future__ import annotations

import graphlib
from collections.abc import Collection, Mapping

Graph = Mapping[str, Collection[str]]


def ordered(graph: Graph, *, last_year: Collection[tuple[str, str]]) -> list[list[str]]:
    """Every name of a graph after those it reads: alone, or with its circle in the order of computation inside a year.

    graph: name -> names it reads. last_year: pairs (reader, read) that look at the year before only.
    Raises graphlib.CycleError for a circle that does not turn through the years.
    """
    circles = _circles(graph, last_year)
    home = {name: circle for circle in circles for name in circle}
    merged: dict[object, set[object]] = {}
    for name, reads in graph.items():
        mine = home.get(name, name)
        merged.setdefault(mine, set()).update(other for read in reads if (other := home.get(read, read)) != mine)
    return [
        _inside(place, graph, last_year) if isinstance(place, frozenset) else [str(place)]
        for place in graphlib.TopologicalSorter(merged).static_order()
    ]


def _circles(graph: Graph, last_year: Collection[tuple[str, str]]) -> set[frozenset[str]]:
    """The names from which a reader of the year before is reached, and which it reaches, for every such reader."""
    if not last_year:
        return set()
    back: dict[str, set[str]] = {name: set() for name in graph}
    for name, reads in graph.items():
        for read in reads:
            back[read].add(name)
    found = (frozenset(_reached(graph, name) & _reached(back, name)) for name, _ in sorted(last_year))
    return {circle for circle in found if len(circle) > 1}


def _reached(graph: Graph, start: str) -> set[str]:
    seen, waiting = {start}, [start]
    while waiting:
        new = set(graph[waiting.pop()]) - seen
        seen |= new
        waiting.extend(new)
    return seen


def _inside(circle: frozenset[str], graph: Graph, last_year: Collection[tuple[str, str]]) -> list[str]:
    same_year = {
        name: {read for read in graph[name] if read in circle and (name, read) not in last_year} for name in circle
    }
    return list(graphlib.TopologicalSorter({name: sorted(same_year[name]) for name in sorted(circle)}).static_order())
