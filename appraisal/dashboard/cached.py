"""What is worked out once and kept: readings of a text and appraisals, under keys that are texts and fingerprints."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import streamlit as st

from appraisal.appraise import Appraisal, appraise
from appraisal.errors import Fault, ScenarioError
from appraisal.risk.alternatives import Alternative, made, ways
from appraisal.risk.levers import Lever, levers_of, with_levers
from appraisal.scenario.load import Loaded, loads

READINGS, APPRAISALS = 64, 24  # kept at most, for all windows together


@st.cache_resource(max_entries=READINGS, show_spinner=False)
def reading(text: str) -> Loaded | tuple[Fault, ...]:
    """The checked scenario of a text, or every fault in it."""
    try:
        return loads(text, file="this farm")
    except ScenarioError as error:
        return tuple(error.faults)


def ways_there(loaded: Loaded) -> dict[str, str]:
    """The ready-made other ways of a scenario: label by name."""
    return {way.name: way.label for way in ways(loaded)}


def other_way(loaded: Loaded, name: str) -> Alternative:
    """One ready-made way, made when it is asked for; where it cannot be, it says what is missing."""
    return _other_way(loaded.fingerprint, name, loaded)


@st.cache_resource(max_entries=READINGS, show_spinner="Working it out")
def _other_way(fingerprint: str, name: str, _loaded: Loaded) -> Alternative:
    return next(made(_loaded, way) for way in ways(_loaded) if way.name == name)


def levers_there(loaded: Loaded) -> tuple[Lever, ...]:
    """The levers that a scenario has."""
    return _levers_there(loaded.fingerprint, loaded)


@st.cache_resource(max_entries=READINGS, show_spinner=False)
def _levers_there(fingerprint: str, _loaded: Loaded) -> tuple[Lever, ...]:
    return levers_of(_loaded)


def with_levers_moved(loaded: Loaded, moves: Mapping[str, float], lost: str | None) -> Loaded:
    """The scenario with levers moved; raises RiskError where it cannot be."""
    return _with_levers_moved(loaded.fingerprint, tuple(sorted(moves.items())), lost, loaded)


@st.cache_resource(max_entries=READINGS, show_spinner=False)
def _with_levers_moved(
    fingerprint: str, moves: tuple[tuple[str, float], ...], lost: str | None, _loaded: Loaded
) -> Loaded:
    return with_levers(_loaded, dict(moves), lost=lost)


def appraised(loaded: Loaded) -> Appraisal:
    """The appraisal of a scenario; texts that say the same share one."""
    return replace(_appraised(loaded.fingerprint, loaded), loaded=loaded)


@st.cache_resource(max_entries=APPRAISALS, show_spinner="Working it out")
def _appraised(fingerprint: str, _loaded: Loaded) -> Appraisal:
    return appraise(_loaded)
