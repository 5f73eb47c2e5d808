"""The kit of lines: one definition of a quantity, read by the engine, by the explanation and by the workbook.

A line is one plain function named after the quantity. Its argument names are the inputs and lines that it uses, its
docstring gives label, unit and meaning. `define` says what a line is, `plan` orders the lines of one scenario,
`evaluate` computes them over draws x months, `trace` turns the same functions into spreadsheet formulas and
`explain` says how a figure was made.
"""
