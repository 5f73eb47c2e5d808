"""The map of all lines: where each is defined, its unit, and what uses it. Readers cannot click from a name to a line."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.lines.catalogue import Catalogue
from appraisal.lines.names import ALL, EACH, split_view

HEAD = "| line | module | unit | used by |\n|---|---|---|---|"


def used_by(catalogue: Catalogue) -> dict[str, list[str]]:
    """For every line the lines that read it, by name, through any view or list."""
    found: dict[str, list[str]] = {name: [] for name in catalogue.lines}
    for name, variants in catalogue.lines.items():
        for read in sorted(
            {target for item in variants for argument in item.arguments for target in _targets(catalogue, argument)}
        ):
            found[read].append(name)
    return found


def _targets(catalogue: Catalogue, argument: str) -> Iterator[str]:
    if argument.startswith(ALL):
        role = argument[len(ALL) :]
        yield from (name for name, variants in catalogue.lines.items() if variants[0].role == role)
    else:
        name = split_view(argument.removeprefix(EACH))[1]
        if name in catalogue.lines:
            yield name


def line_map(catalogue: Catalogue) -> str:
    """A Markdown table of all lines in the order in which they are written."""
    users = used_by(catalogue)
    rows = []
    for name, variants in catalogue.lines.items():
        choice = f" ({', '.join(v.variant for v in variants)})" if variants[0].variant else ""
        module = variants[0].body.__module__.removeprefix("appraisal.")
        rows.append(f"| `{name}`{choice} | {module} | {variants[0].unit} | {', '.join(users[name]) or '(a result)'} |")
    return "\n".join((HEAD, *rows))
