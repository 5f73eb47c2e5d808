"""All lines and inputs there are, and the check at import that every argument name is one of them."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from appraisal.errors import LineError
from appraisal.lines.define import Line
from appraisal.lines.names import ALL, EACH, split_view


@dataclass(frozen=True)
class Catalogue:
    """What a model is made of.

    lines: every line by name, with its variants.
    inputs: argument name -> dotted pattern of the input (`digester_kind` -> `digester.kind`,
    `engine_rated_kw` -> `engine.*.rated_kw`), choices included.
    families: family of items -> tables its items come from (`substrate` -> herd and feed).
    """

    lines: Mapping[str, tuple[Line, ...]]
    inputs: Mapping[str, str]
    families: Mapping[str, tuple[str, ...]]

    def family_of(self, name: str) -> str | None:
        """The family a name belongs to by its first word, None for names of the whole plant."""
        return next((family for family in self.families if name.startswith(family + "_")), None)

    def roles(self) -> frozenset[str]:
        """Every role that some line has."""
        return frozenset(line.role for variants in self.lines.values() for line in variants if line.role)

    def knows(self, name: str) -> bool:
        """Whether a name without view or list is a line or an input."""
        family = self.family_of(name)
        tables = self.families[family] if family else ()
        field = name[len(family) + 1 :] if family else ""
        return name in self.lines or name in self.inputs or any(f"{table}_{field}" in self.inputs for table in tables)


def catalogue(
    lines: Iterable[Line],
    *,
    inputs: Mapping[str, str],
    families: Mapping[str, tuple[str, ...]],
) -> Catalogue:
    """Put lines and inputs together and check every name.

    Raises LineError that lists each unknown argument with its likely spelling, and each name defined twice.
    """
    grouped: dict[str, list[Line]] = {}
    for item in lines:
        grouped.setdefault(item.name, []).append(item)
    built = Catalogue({name: tuple(variants) for name, variants in grouped.items()}, inputs, families)
    faults = [fault for variants in built.lines.values() for fault in _faults(built, variants)]
    if faults:
        raise LineError("\n".join(faults))
    return built


def _faults(built: Catalogue, variants: tuple[Line, ...]) -> list[str]:
    first = variants[0]
    faults = [_unknown(built, item, argument) for item in variants for argument in item.arguments]
    if len({item.variant for item in variants}) < len(variants) or (
        len(variants) > 1 and not all(v.when for v in variants)
    ):
        faults.append(f"{first.name}: defined twice without a choice between the definitions")
    if any(
        (v.unit, v.per, v.yearly, v.role, v.roll) != (first.unit, first.per, first.yearly, first.role, first.roll)
        for v in variants
    ):
        faults.append(f"{first.name}: its variants differ in unit, family, grid, group or role")
    if first.name in built.inputs or (first.per and not first.name.startswith(first.per + "_")):
        faults.append(f"{first.name}: is also an input, or does not begin with its family {first.per}")
    if not first.per and built.family_of(first.name):
        faults.append(
            f"{first.name}: begins with the family {built.family_of(first.name)} but stands for the whole plant"
        )
    return [fault for fault in faults if fault]


def _unknown(built: Catalogue, item: Line, argument: str) -> str:
    if argument.startswith(ALL):
        known = argument[len(ALL) :] in built.roles()
    else:
        name = split_view(argument.removeprefix(EACH))[1]
        known = built.knows(name)
    if known:
        return ""
    words = [*built.lines, *built.inputs, *(ALL + role for role in built.roles())]
    likely = difflib.get_close_matches(split_view(argument.removeprefix(EACH))[1], words, 1)
    hint = f"; did you mean {likely[0]}?" if likely else ""
    return f"{item.body.__module__}.{item.body.__name__}: unknown argument {argument}{hint}"
