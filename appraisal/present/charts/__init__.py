"""Pictures of a result, one module each, all built alike.

`_rows`: the numbers drawn, in the reader's units. `_layers` (`_bars`, `_line`): marks over those rows. `_finding`: the title.
`_table`: the same numbers with their units. The public function puts them together as a `Picture`; marks, axes and hues that
several pictures share are in `picture.py`.
"""
