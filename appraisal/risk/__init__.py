"""Many futures of one scenario: drawn, run through the whole model, and summed up. Callers of the spine, nothing more."""
