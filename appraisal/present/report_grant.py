"""The grant tables as a paper, and the assumption book as one."""

from __future__ import annotations

from dataclasses import replace

from appraisal.present import money_words, words
from appraisal.present.assumption_book import counts, entries
from appraisal.present.assumption_tables import BASIS, most_moving, tables_for_paper
from appraisal.present.blocks import Block, Contents, Heading, Note, Paper, Paragraph, Points, Tabled
from appraisal.present.citing import Sources, first_rows, without
from appraisal.present.grant_tables import grant_tables
from appraisal.present.how_known import SECTIONS, UNEXPLAINED
from appraisal.present.report_parts import last_part, paper
from appraisal.present.report_pictures import pictures
from appraisal.present.tables import Table
from appraisal.present.words import BLANK
from appraisal.risk.material import Material

ASSUMPTION_ROWS = 40
PARTS = (
    ("The applicant and the plan", ("applicant", "milestones")),
    (
        "Money asked for and where the rest comes from",
        ("budget", "budget_by_category", "who_pays", "funding_match", "grant_rules", "claims_and_cash"),
    ),
    ("Energy", ("energy", "energy_history")),
    ("Greenhouse gases", ("greenhouse_gases", "greenhouse_gases_by_year", "tonnes", "emission_factors")),
    ("Nutrients and waste", ("nutrients", "land", "waste")),
    ("Jobs", ("jobs",)),
    ("Economics", ("contracts", "economics", "smallest_grant", "score_lines")),
    ("Risks", ("risk_register",)),
    ("Assumptions", ("assumptions",)),
)
REMARKS = {
    "budget": "Totals equal the sources. Contingency is in the cost of each item and stands apart in the next table.",
    "who_pays": "Each grant pays in proportion to the cost it counts; loans and own money share the rest in proportion.",
    "claims_and_cash": "Own money is what each quarter lacks; it is negative where a grant that comes late pays it back. The "
    "eligible cost paid is what a claim for the quarter may show; it is part of the capital paid and no flow of its own.",
    "emission_factors": "Every factor that the count of this plan reads; sources of gas that are nothing have none. What is "
    "worked out from the farm's own animals, feeds and energy stands in the tables before.",
    "energy_history": "The farm's own history is a year of bills as the scenario states them.",
    "tonnes": "Made is what the plant avoids over all sources. A programme may count some sources only, or count otherwise: "
    "then more may be sold or claimed than is made, which the column after it shows. Both together are what is sold, "
    "withheld, claimed elsewhere and claimable. A tonne that is sold, or claimed by somebody else, must not be claimed by the "
    "farm as well.",
    "nutrients": "From the herds and brought in, less what is lost, is in the digestate. What is brought in with feeds is a "
    "pressure on the land before it is a saving.",
    "land": "Limits are those the scenario states; the authority decides.",
    "risk_register": "Change of worth is that of the project before its loans, so interest moves only the cover. Empty cells "
    "of amounts: the risk has no figure in the model.",
    "greenhouse_gases_by_year": "Whole tonnes, rounded so that rows and columns add up and tie to the table before.",
    "greenhouse_gases": "Nothing is counted that is not evidenced; what is alike with and without the plant is left out.",
    "economics": "Loans stay as they are in both columns; without the grants own money pays their part. A grant may lower what "
    "is deducted for tax, so that more tax is paid and cover is lower with it.",
    "contracts": "Savings of the farm's own bills are no income and stand in the table of energy. Income that nobody has "
    "signed for rests on prices of the market.",
    "smallest_grant": "Each target by itself; the larger of the two reaches both. Amounts are rounded up to whole money.",
    "score_lines": "Programmes define their own lines: take these as a start, and ask. Amounts are those of the tables before.",
}

UNEXPLAINED_TITLES = tuple(SECTIONS[group] for group in UNEXPLAINED)
HOW_TO_READ = (
    "Every input of the scenario, each in one place: what is still a guess, or was given without a source, comes first; then "
    "what is weakly known before what is well known, and within each part what moves the worth most. An input that several "
    "items have alike, and that moves nothing, stands in one row with the names of the items. A range that begins with 'may be' "
    "is only what the program accepts: nobody has said how far the value may really stray.",
    "Rank 1 moves the worth most. The last column is the worth with a tenth more of the input less the worth with a tenth "
    "less, all else as planned and no further than the input may go (a share of 97 % rises to 100 %); of a series by "
    "month or year all values move together. No rank have what is zero or moves nothing, choices and counts, temperatures and "
    "lengths of time, and yardsticks as the discount rate.",
)


def grant_paper(found: Material, *, date: str) -> Paper:
    """All grant tables in the order of a request."""
    tables, sources = grant_tables(found), Sources()
    blocks: list[Block] = [
        Note(f"{BLANK} marks what only the applicant can say. Fill it in before this goes to a programme."),
        Contents(),
        Heading("In short"),
        Points(
            (
                *words.grant_office(found.appraisal).sentences,
                *money_words.grant_money(found.appraisal, found.without_grants).sentences,
            )
        ),
    ]
    for title, names in PARTS:
        blocks.append(Heading(title))
        blocks += {
            "Greenhouse gases": pictures(found, "tonnes"),
            "Nutrients and waste": pictures(found, "nutrients"),
        }.get(title, ())
        blocks += [Tabled(_for_paper(name, tables[name], sources), REMARKS.get(name, "")) for name in names]
    if sources.named:
        blocks += [Heading("Sources"), Tabled(sources.listed())]
    return paper(found, "Tables for a grant request", (*blocks, *last_part(found)), date=date)


def _for_paper(name: str, table: Table, sources: Sources) -> Table:
    """A table as it is printed: sources by number, paths left to the files, long lists cut."""
    if name == "assumptions":
        return sources.cited(without(first_rows(table, ASSUMPTION_ROWS), "path"), ("source",))
    if name == "emission_factors":
        return sources.cited(without(table, "path"), ("source",))
    return table


def assumption_paper(found: Material, *, date: str) -> Paper:
    """The assumption book: first what nobody has explained, then what moves the worth most, then all else."""
    sources, listed, currency = Sources(), entries(found), found.loaded.scenario.project.currency
    parts = [
        (title, (Heading(title), Tabled(sources.cited(table, (BASIS,)))))
        for title, table in tables_for_paper(listed, currency=currency).items()
    ]
    waiting = [blocks for title, blocks in parts if title in UNEXPLAINED_TITLES]
    rest = [blocks for title, blocks in parts if title not in UNEXPLAINED_TITLES]
    moving = (Heading("What moves the worth most"), Tabled(sources.cited(most_moving(listed, currency=currency), (BASIS,))))
    blocks = (
        *(Paragraph(each) for each in HOW_TO_READ),
        Tabled(counts(listed)),
        Contents(),
        *(block for group in (*waiting, moving, *rest) for block in group),
        Heading("Sources"),
        Tabled(sources.listed()),
        *last_part(found),
    )
    return replace(paper(found, "Assumption book", blocks, date=date), wide=True)
