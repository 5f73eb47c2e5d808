"""Financial model and project appraisal for a family farm that is weighing a biogas plant."""

__version__ = "0.1.0"
