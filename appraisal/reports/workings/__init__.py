"""How the results of the workbook are worked out: lines of their own, traced to formulas like the lines of the model."""
