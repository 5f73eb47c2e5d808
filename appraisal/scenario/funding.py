"""What is built, and who pays for it: capital, grants, loans, reserves, days until bills are paid."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, choice, count, number, path, text


class Capital(Section):
    """One item that must be paid for before or while it is built."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    category: Literal["digester", "engine", "feed", "digestate", "buildings", "grid", "planning", "other"] = choice(
        "digester", "engine", "feed", "digestate", "buildings", "grid", "planning", "other", default="other",
        label="Category", help="Budgets are shown by category.")
    like: str = text(default="", label="Cost as in the library",
        help="A row of `appraisal reference capital_costs`; left without a cost, the item takes the row's, brought to today's "
        "money. A screening figure: ask for quotes.")
    size: float = number("1", 0.001, 1e7, default=1.0, label="Size in the row's unit",
        help="kW, m3, cows or pieces, as the row counts them.")
    amount: float = number("money", 0, 1e9, label="Cost", help="Price date's money, without contingency.")
    estimate: Literal["quote", "budget", "screening", "not_said"] = choice(
        "quote", "budget", "screening", "not_said", default="not_said", label="Kind of estimate",
        help="quote: a supplier is bound; budget: from drawings and lists; screening: from the size of the plant.")
    supplier: str = text(default="", label="Supplier", help="Who quoted it.")
    quote_ends: str = text(default="", label="Last month of the quote", help="As 2027-06; empty when it does not end.")
    contingency_share: float = number(
        "share", 0, 1, default=0.1, source="screening table of capital costs, row contingency_quotes",
        basis=PRACTICE, label="Contingency", help="10 % on quotes, 30 % on a first idea.")
    first_month: int = count("month", 0, 480, default=0, label="Month of the first payment",
        help="0 is the first month.")
    months: int = count("month", 1, 120, default=12, label="Months of payment", help="Paid evenly.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.0, label="Yearly rise until it is paid",
        help="Only for what is bought later; a fixed quote rises by nothing.")
    sales_tax_rate: float = number(
        "share", 0, 0.5, default=0.0, label="Sales tax on it",
        help="Value-added or sales tax over the cost; counted when the tax section says so.")
    eligible_share: float = number("share", 0, 1, default=1.0, label="Share a grant may count",
        help="The programme decides.")
    depreciation_method: Literal["straight_line", "declining_balance", "table", "immediate"] = choice(
        "straight_line", "declining_balance", "table", "immediate", default="straight_line",
        label="Depreciation for tax",
        help="straight_line: equal parts by month; declining_balance: a rate on what is left; table: a percentage for each "
        "year; immediate: all in the first year. The books always use the straight line.")
    depreciation_years: float = number("year", 1, 60, default=15.0, basis=PRACTICE, label="Years of depreciation",
                                       help="Straight line from the start of operation; ask your accountant.")
    depreciation_like: str = text(default="", label="Reference row of the depreciation table",
        help="A row of `appraisal reference depreciation`; ask your accountant.")
    depreciation_share_by_year: list[float] = path(
        "share", 0, 1, default=0.0, lookup=Lookup("depreciation", "year_percentages", "depreciation_like", 0.01),
        label="Depreciation by year of use",
        help="For the method `table`: 0.2, 0.32, 0.192 and so on; the basis is never deducted more than once.")
    depreciation_rate: float = number(
        "share/year", 0, 1, default=0.0, label="Declining rate", help="For the method `declining_balance`.")
    depreciation_first_year: Literal["half", "whole", "by_months"] = choice(
        "half", "whole", "by_months", default="half", label="Declining rate in the first year",
        help="half: half a year's rate whatever the month; by_months: by the months of use.")
    depreciation_switches: Literal["no", "yes"] = choice(
        "no", "yes", default="no", label="Change to the straight line",
        help="yes: what is left over the years left, as soon as that is more than the declining rate.")
    credit_share: float = number(
        "share", 0, 1, default=1.0, label="Part the investment credit counts", help="Used when the tax section has a credit.")
    end_value: float = number("money", 0, 1e9, default=0.0, label="Worth at the end of the project",
        help="In month 0's money; raised by general inflation. A plant that closes earlier brings its resale share instead.")
    removal_cost: float = number("money", 0, 1e9, default=0.0, label="Cost of removing it at the end",
        help="In month 0's money; raised by general inflation. Paid at the closing where the plant closes earlier.")
    worn_after_years: float = number(
        "year", 0, 40, default=0.0, label="Years until worn parts are replaced",
        help="Pumps, stirrers, roof membrane: counted from the first feeding, and again after each time; 0: never, or paid with "
        "the running costs.")
    replacement_cost: float = number(
        "money", 0, 1e9, default=0.0, label="Cost of replacing worn parts",
        help="Each time, in month 0's money; raised by general inflation.")
    resale_share: float = number(
        "share", 0, 1, default=0.0, label="What a sale would bring before the end, over the value in the books",
        help="For the question what is still owed if the plant stops, and for an early closing; zero is the cautious figure.")


class Grant(Section):
    """Public or other money that need not be paid back."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    public: Literal["yes", "no"] = choice(
        "yes", "no", default="yes", label="Public money", help="Programmes often limit public money in all.")
    status: Literal["not_said", "idea", "asked_for", "promised", "signed"] = choice(
        "not_said", "idea", "asked_for", "promised", "signed", default="not_said", label="How far it is",
        help="Shown in the funding match; it moves no figure.")
    evidence: str = text(default="", label="Evidence", help="Letter, decision or contract, with its date.")
    in_kind: Literal["no", "yes"] = choice(
        "no", "yes", default="no", label="Given in kind", help="Help and work instead of money; its cost is in the capital.")
    share_of_eligible: float = number("share", 0, 1, label="Share of eligible cost",
        help="Of the eligible part of all capital paid.")
    at_most: float = number("money", 0, 1e9, default=1e9, label="Largest amount",
        help="The ceiling the programme states.")
    eligible_from_month: int = count("month", 0, 480, default=0, label="First month whose payments count",
        help="What is paid before it is lost to the grant.")
    paid: Literal["at_once", "by_claims"] = choice(
        "at_once", "by_claims", default="at_once", label="How it is paid",
        help="at_once: all in the month below; by_claims: as it is spent, less what is held back until the month below.")
    arrives_in_month: int = count(
        "month", 0, 480, default=18, label="Month of payment", help="Grants often come after completion.")
    first_claim_month: int = count("month", 0, 480, default=6, label="Month in which the first claim is paid",
        help="It pays the share of what was spent before that month.")
    claim_every_months: int = count("month", 1, 60, default=6, label="Months between claims", help="Until the last payment.")
    retention_share: float = number(
        "share", 0, 1, default=0.1, basis=PRACTICE, label="Part of a claim that is held back",
        help="Paid with the last payment.")
    match_share: float = number(
        "share", 0, 1, default=0.0, label="Match wanted, over the eligible cost",
        help="Part of the eligible cost that must come from other than public money.")
    obligation_years: float = number(
        "year", 0, 30, default=5.0, basis=PRACTICE, label="Years the plant must run",
        help="From the first feeding; when it stops before, the part of the years that lack is paid back.")


class Loan(Section):
    """A bank loan: how much, how it is paid back, and what happens before the first repayment."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    status: Literal["not_said", "idea", "asked_for", "promised", "signed"] = choice(
        "not_said", "idea", "asked_for", "promised", "signed", default="not_said", label="How far it is",
        help="Shown in the funding match; it moves no figure.")
    evidence: str = text(default="", label="Evidence", help="Letter, decision or contract, with its date.")
    size: Literal["amount", "share_of_cost", "fills_the_gap", "to_cover"] = choice(
        "amount", "share_of_cost", "fills_the_gap", "to_cover", default="amount", label="How much",
        help="amount: as below; share_of_cost: share of the capital; fills_the_gap: what grants, other loans and the family's "
        "own money leave open; to_cover: what the cash before tax carries at the cover wanted, with a sculpted repayment.")
    amount: float = number("money", 0, 1e9, default=0.0, label="Amount", help="Drawn as the capital is paid.")
    share_of_cost: float = number("share", 0, 1, default=0.0, label="Share of the capital", help="With contingency.")
    target_cover: float = number(
        "times", 1, 5, default=1.3, basis=PRACTICE, label="Cover the loan is sized on",
        help="Cash before tax over debt service of this loan.")
    rate: float = number("share/year", 0, 0.4, label="Interest rate",
        help="Nominal: a twelfth a month on what is owed, simple between two payments.")
    years: int = count("year", 1, 40, label="Term",
        help="From month 0 to the last payment, interest-only time included.")
    rate_fixed_years: int = count("year", 1, 60, default=60, label="Years the rate is fixed", help="From month 0.")
    rate_after: float = number("share/year", 0, 0.4, default=0.0, label="Rate assumed after that",
        help="Needed when the rate is fixed for less than the term.")
    repayment: Literal["level", "equal_principal", "sculpted"] = choice(
        "level", "equal_principal", "sculpted", default="level", label="How it is paid back",
        help="level: equal payments of interest and principal; equal_principal: equal principal, falling interest; sculpted: "
        "payments in proportion to the cash before tax.")
    payment_every_months: int = count("month", 1, 12, default=1, label="Months between payments", help="1, 3, 6 or 12.")
    interest_only_months: int = count(
        "month", 0, 120, default=12, label="Months of interest only", help="From month 0.")
    interest_before_repayment: Literal["paid", "capitalised"] = choice(
        "paid", "capitalised", default="paid", label="Interest in that time",
        help="capitalised: added to what is owed at each payment date.")
    fee_share: float = number("share", 0, 0.1, default=0.0, label="Fee", help="Of the amount, paid in month 0.")


class Funding(Section):
    """Own money, the bridge until grants arrive, reserves, and days until bills are paid."""

    own_money: float = number("money", 0, 1e9, default=0.0, label="Own money put in",
        help="Needed when a loan fills the gap; otherwise own money is what is left open.")
    own_money_evidence: str = text(
        default="", label="Evidence of the own money", help="Bank statement or the like, with its date.")
    public_share_at_most: float = number(
        "share", 0, 1, default=1.0, label="Most public money, over the eligible cost",
        help="The cap on all public grants together; the programmes decide.")
    bridge: Literal["none", "until_grants"] = choice(
        "none", "until_grants", default="none", label="Bridge loan",
        help="until_grants: a second lender pays the grants in advance, as the capital is paid, and is paid back by them.")
    bridge_share: float = number("share", 0, 1, default=1.0, label="Part of the grants that is bridged", help="Often 80 %.")
    bridge_rate: float = number("share/year", 0, 0.4, default=0.08, basis=PRACTICE, label="Rate of the bridge loan",
        help="Interest is paid every month.")
    grants_shown: Literal["off_the_plant", "as_owed_income"] = choice(
        "off_the_plant", "as_owed_income", default="off_the_plant", label="Grants in the balance sheet",
        help="Either way the profit is the same (IAS 20): taken off the plant, or shown as income still to be earned.")
    debt_reserve: Literal["none", "from_start", "from_cash"] = choice(
        "none", "from_start", "from_cash", default="none", label="Reserve for debt service",
        help="from_start: funded before the plant runs, as part of the uses; from_cash: filled from what debt service leaves.")
    debt_reserve_months: float = number(
        "month", 0, 24, default=6.0, basis=PRACTICE, label="Months of debt service in reserve",
        help="Of the debt service of the year to come.")
    overhaul_reserve: Literal["none", "three_years_ahead"] = choice(
        "none", "three_years_ahead", default="none", label="Reserve for overhauls",
        help="three_years_ahead: all of next year's overhauls, two thirds and one third of those of the two years after.")
    sweep_share: float = number(
        "share", 0, 1, default=0.0, label="Cash sweep",
        help="Part of what debt service and reserves leave that a lender takes to prepay the loans.")
    sweep: Literal["shown", "prepays"] = choice(
        "shown", "prepays", default="shown", label="What the sweep does",
        help="shown: the test is told and moves no cash; prepays: at the end of a project year of full operation that is not "
        "locked up, the share prepays every loan in proportion to what is owed. It comes off the last payments: payments stay "
        "as scheduled, and the loans end sooner.")
    sweep_keeps_amount: float = number(
        "money", 0, 1e9, default=0.0, label="Cash kept on the account before a sweep",
        help="What debt service and reserves leave fills this up first; used when the sweep prepays.")
    lock_up: Literal["shown", "held"] = choice(
        "shown", "held", default="shown", label="What lock-up does",
        help="shown: the test is told and moves no cash; held: what debt service leaves of a year under the level is held back "
        "until a year meets it or the loans are repaid, and covers debt service that falls short.")
    lock_up_cover: float = number(
        "times", 1, 3, default=1.1, basis=PRACTICE, label="Lock-up level",
        help="Below this cover a lender would let nothing be taken out.")
    default_cover: float = number(
        "times", 0, 3, default=1.0, basis=PRACTICE, label="Default level",
        help="Below this cover a lender could call the loan.")
    stop_penalty_cost: float = number(
        "money", 0, 1e9, default=0.0, label="Penalties when the plant stops",
        help="From power and feed contracts; for the question what is still owed if the plant stops.")
    customer_days: float = number("day", 0, 180, default=0.0, label="Days until customers pay",
        help="Counted on cash income.")
    supplier_days: float = number("day", 0, 180, default=0.0, label="Days until the plant pays its bills",
        help="Counted on running costs.")
