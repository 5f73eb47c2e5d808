"""Long sources as numbers in a paper's tables, with one list of them at its end; files of data keep the full text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from appraisal.present.tables import Table

LONGEST = 28  # characters of a source that stays where it is


@dataclass
class Sources:
    """The sources of one paper in the order they are first named; grows while its tables are made."""

    named: dict[str, int] = field(default_factory=dict)

    def cited(self, table: Table, heads: Sequence[str]) -> Table:
        """The table with every long text in the columns of these heads as [1], [2] and so on."""
        places = [place for place, head in enumerate(table.head) if head in heads]
        rows = tuple(
            tuple(self._number(cell) if place in places else cell for place, cell in enumerate(row))
            for row in table.rows
        )
        return replace(table, rows=rows)

    def _number(self, text: str) -> str:
        if len(text) <= LONGEST:
            return text
        return f"[{self.named.setdefault(text, len(self.named) + 1)}]"

    def listed(self) -> Table:
        """The list of sources."""
        return Table("Sources", ("number", "source"), tuple((f"[{number}]", text) for text, number in self.named.items()))


def without(table: Table, *heads: str) -> Table:
    """The table without the columns of these heads."""
    kept = [place for place, head in enumerate(table.head) if head not in heads]
    return replace(
        table,
        head=tuple(table.head[place] for place in kept),
        rows=tuple(tuple(row[place] for place in kept) for row in table.rows),
    )


def filled(table: Table, *blanks: str) -> Table:
    """The table without columns in which every row is empty or says one of `blanks`."""
    columns = zip(table.head, zip(*table.rows, strict=True), strict=True) if table.rows else ()
    return without(table, *(head for head, column in columns if set(column) <= {"", *blanks} and head))


def first_rows(table: Table, most: int) -> Table:
    """At most so many rows; the title says how many are left out."""
    left = len(table.rows) - most
    more = f"; {left} more stand in the assumption book" if left > 0 else ""
    return replace(table, title=table.title + more, rows=table.rows[:most])
