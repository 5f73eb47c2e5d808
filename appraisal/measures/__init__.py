"""Measures: money by period in, one number per draw out, each with its status in words where it can be missing."""
