"""What no figure uses: who asks for the grant, whom to call, what is done by when, what could go wrong."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.quantity import Section, choice, count, text


class Applicant(Section):
    """Who asks for the grant; no figure uses it. What is left empty stands in the papers as a blank to fill in by hand."""

    name: str = text(default="", label="Applicant", help="Person, farm or company as registered.")
    legal_form: str = text(default="", label="Legal form", help="Sole owner, partnership, company, cooperative.")
    address: str = text(default="", label="Address", help="Of the applicant.")
    site_address: str = text(default="", label="Place of the plant", help="Address or land register number.")
    register_number: str = text(
        default="", label="Registration number", help="Of the farm or company, as the programme asks for it.")
    contact: str = text(default="", label="Contact", help="Who answers questions, and how to reach them.")
    programme: str = text(default="", label="Programme", help="Name and round of the programme that is asked for money.")
    need: str = text(default="", label="Why the money is needed", help="In the applicant's own words.")


class Emergency(Section):
    """Whom to call when something happens at the plant; shown beside the cautions, and as a blank where left empty."""

    number: str = text(default="", label="Emergency number", help="As it is dialled where the plant stands.")
    gas_supplier: str = text(default="", label="Gas supplier", help="Name and number, day and night.")
    engineer: str = text(default="", label="Engineer on call", help="Name and number, day and night.")


class Milestone(Section):
    """One step with its month, beside those the plan itself gives."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    month: int = count("month", 0, 480, label="Month", help="0 is the first month of spending.")
    done_when: str = text(default="", label="Done when", help="The paper that proves it: a permit, an order, a record.")
    who: str = text(default="", label="Who does it", help="Person or firm.")


class Concern(Section):
    """What could go wrong and what is done about it; one named like a bad case of `stress` stands beside that case."""

    label: str = text(default="", label="What could go wrong", help="Empty where the name is that of a bad case.")
    chance: Literal["not_said", "low", "medium", "high"] = choice(
        "not_said", "low", "medium", "high", default="not_said", label="How likely", help="The applicant's own judgement.")
    what_helps: str = text(default="", label="What is done about it", help="Before it happens and after.")
    who: str = text(default="", label="Who watches it", help="Person or firm.")
