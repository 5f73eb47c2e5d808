"""What is worked out once and kept: readings of a text and appraisals, under keys that are texts and fingerprints."""

from __future__ import annotations

from dataclasses import replace

import streamlit as st

from appraisal.appraise import Appraisal, appraise
from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.load import Loaded, loads

READINGS, APPRAISALS = 64, 24  # kept at most, for all windows together


@st.cache_resource(max_entries=READINGS, show_spinner=False)
def reading(text: str) -> Loaded | tuple[Fault, ...]:
    """The checked scenario of a text, or every fault in it."""
    try:
        return loads(text, file="this farm")
    except ScenarioError as error:
        return tuple(error.faults)


def appraised(loaded: Loaded) -> Appraisal:
    """The appraisal of a scenario; texts that say the same share one."""
    return replace(_appraised(loaded.fingerprint, loaded), loaded=loaded)


@st.cache_resource(max_entries=APPRAISALS, show_spinner="Working it out")
def _appraised(fingerprint: str, _loaded: Loaded) -> Appraisal:
    return appraise(_loaded)
