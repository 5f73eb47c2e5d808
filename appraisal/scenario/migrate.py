"""Bring the content of an older scenario file to the present form, one pure step from each version to the next."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from appraisal.errors import AppraisalError
from appraisal.scenario.model import SCHEMA_VERSION

Content = dict[str, Any]
Step = Callable[[Content], Content]

STEPS: Mapping[int, Step] = MappingProxyType({})


class NoStepError(AppraisalError):
    """No step leads on from this version of the file format."""


def migrate(
    content: Content, version: int, *, steps: Mapping[int, Step] = STEPS, present: int = SCHEMA_VERSION,
) -> Content:
    """Apply the steps from `version` to the present one, each to the result of the one before.

    Parameters
    ----------
    content : what the file holds; a step hands back a new dict and leaves its argument as it was.
    version : the file's `schema_version`.
    steps : the step that leads on from each version.
    present : the version wanted.

    Raises
    ------
    NoStepError
        The version is newer than `present`, or older than the oldest step.
    """
    if version > present:
        raise NoStepError(f"written by a newer release: its form is {version}, this release reads up to {present}")
    for number in range(version, present):
        if number not in steps:
            raise NoStepError(f"form {number} is too old to be brought to form {present}")
        content = {**steps[number](content), "schema_version": number + 1}
    return content
