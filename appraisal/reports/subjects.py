"""The sheets of the workbook: a fixed list of names, and which module's lines stand on which monthly sheet."""

from __future__ import annotations

import inspect
import sys
from dataclasses import dataclass

from appraisal.lines.plan import Node

READ_FIRST = "Read first"
INPUTS, PROFILES, PATHS, CHOICES, CONSTANTS = (
    "Inputs",
    "Inputs by month",
    "Inputs by year",
    "Choices",
    "Fixed figures",
)
RESULTS, COVER, STATEMENTS, MONEY, LOANS, TAX, PLANT = (
    "Results",
    "Cover",
    "Statements",
    "Money by year",
    "Loans by year",
    "Tax by year",
    "Plant by year",
)
PICTURES, CHECKS, OTHER_RUNS = "Pictures", "Checks", "Other runs"
TIME = "Monthly time"
YEARLY, WORKINGS, YEARLY_WORKINGS = "Yearly lines", "Workings", "Workings by year"


@dataclass(frozen=True)
class Subject:
    """One monthly sheet: its name, its title, and the modules whose lines stand on it, in order."""

    sheet: str
    title: str
    modules: tuple[str, ...]


SUBJECTS = (
    Subject(
        TIME,
        "Months, events and the first years",
        ("timeline", "technical_yield.events", "technical_yield.engine_failure", "technical_yield.start_up"),
    ),
    Subject(
        "Monthly feeds",
        "Herds, outside feeds and what is fed",
        tuple(f"technical_yield.{name}" for name in ("herd", "bedding", "herd_water", "feed", "mix", "deliveries")),
    ),
    Subject(
        "Monthly digester",
        "The tank: how large, how long, how warm, how well it digests",
        tuple(
            f"technical_yield.{name}"
            for name in ("potential", "volume", "retention", "kinetics", "conversion", "ammonia")
        ),
    ),
    Subject(
        "Monthly gas",
        "Gas: made, cleaned, used",
        tuple(f"technical_yield.{name}" for name in ("gas", "cleaning", "upgrading", "gas_use")),
    ),
    Subject(
        "Monthly power",
        "Engines and power",
        tuple(f"technical_yield.{name}" for name in ("overhaul_hours", "part_load", "engine", "own_use", "power")),
    ),
    Subject(
        "Monthly heat",
        "Heat: needed, used, bought",
        tuple(f"technical_yield.heat_{name}" for name in ("shell", "need", "filling", "coldest_day", "use")),
    ),
    Subject(
        "Monthly digestate",
        "Digestate, nutrients and land",
        tuple(
            f"technical_yield.{name}"
            for name in ("digestate", "digestate_parts", "crop_nutrients", "land", "nutrient_gain", "feed_balance")
        ),
    ),
    Subject(
        "Monthly emissions",
        "Greenhouse gases with and without the plant",
        tuple(
            f"technical_yield.{name}"
            for name in (
                *("emissions_manure", "emissions_store_model", "emissions_landfill", "emissions_energy"),
                *("emissions", "credit_tonnes"),
            )
        ),
    ),
    Subject(
        "Monthly income",
        "Income and savings",
        tuple(
            f"cash_flow.{name}"
            for name in (
                *("dates", "power_sales", "power_saved", "gas_sales", "tipping_fees", "fertilizer", "bedding"),
                *("credits", "heat_value", "other_income"),
            )
        ),
    ),
    Subject(
        "Monthly costs",
        "Running costs and overhauls",
        tuple(
            f"cash_flow.{name}"
            for name in ("labour", "running_costs", "cleaning_costs", "digester_care", "replacement_feed", "overhauls")
        ),
    ),
    Subject(
        "Monthly capital",
        "Capital, sales tax and grants",
        tuple(f"cash_flow.{name}" for name in ("capital", "sales_tax", "grants", "sources_uses")),
    ),
    Subject(
        "Monthly loans",
        "Loans, reserves and working capital",
        tuple(
            f"cash_flow.{name}"
            for name in (
                *("loan_schedule", "loan_sum", "loan", "loan_prepaid"),
                *("reserves", "lock_up", "sweep", "working_capital"),
            )
        ),
    ),
    Subject(
        "Monthly tax",
        "Depreciation and tax",
        tuple(f"cash_flow.{name}" for name in ("tax_year", "tax_basis", "depreciation", "tax", "tax_credit")),
    ),
    Subject(
        "Monthly totals",
        "Totals, cash, profit and balance sheet",
        tuple(
            f"cash_flow.{name}"
            for name in ("totals", "statements", "gained", "contracted", "income_statement", "balance_sheet", "stopping")
        ),
    ),
)
OTHER_PLANT = Subject("Monthly plant, other", "Other lines of the plant", ())
OTHER_MONEY = Subject("Monthly money, other", "Other lines of money", ())
MONTHLY = (*SUBJECTS, OTHER_PLANT, OTHER_MONEY)
HOME = {module: subject for subject in SUBJECTS for module in subject.modules}
RANK = {module: place for place, module in enumerate(HOME)}
WORKINGS_SUBJECT = Subject(WORKINGS, "How the results are worked out, month by month", ())

FRONT = (READ_FIRST, INPUTS, PROFILES, PATHS, CHOICES, RESULTS, COVER, STATEMENTS, MONEY, LOANS, TAX, PLANT)
MIDDLE = (PICTURES, CHECKS, OTHER_RUNS)
BACK = (YEARLY, WORKINGS, YEARLY_WORKINGS, CONSTANTS)
SHEETS = (*FRONT, *MIDDLE, *(subject.sheet for subject in MONTHLY), *BACK)


def module_of(node: Node) -> str:
    """Dotted module of a line inside the package: `cash_flow.power_sales`."""
    return node.line.body.__module__.removeprefix("appraisal.")


def subject_of(node: Node) -> Subject:
    """The monthly sheet a line belongs to; a module that no sheet names stands on one of the two sheets for the rest."""
    module = module_of(node)
    if module.startswith("reports."):
        return WORKINGS_SUBJECT
    return HOME.get(module, OTHER_MONEY if module.startswith("cash_flow.") else OTHER_PLANT)


def heading(module: str) -> str:
    """What the lines of a module are about, from the first sentence of its own text."""
    text = inspect.cleandoc(sys.modules[f"appraisal.{module}"].__doc__ or module)
    return text.partition("\n")[0].rstrip(".")
