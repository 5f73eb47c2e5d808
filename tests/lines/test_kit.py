"""The kit of lines: names are checked at import, numbers may not hide in lines, and the readings agree."""

from __future__ import annotations

import types
from collections.abc import Mapping, Sequence

import numpy as np
import pytest

from appraisal.errors import LineError
from appraisal.lines.catalogue import Catalogue, catalogue
from appraisal.lines.define import lines_of
from appraisal.lines.evaluate import evaluate
from appraisal.lines.explain import explain
from appraisal.lines.plan import Plan, plan
from appraisal.lines.prepared import evaluate_in_blocks
from appraisal.lines.trace import formula

HEAD = "import numpy as np\nfrom appraisal.lines.define import line\nfrom appraisal.lines.trace import total\n"
INPUTS = {
    "feed_tonnes": "feed.*.tonnes",
    "feed_kind": "feed.*.kind",
    "share": "plant.share",
    "rate": "plant.rate",
    "month": "time.month",
}


def made(source: str, inputs: Mapping[str, str] = INPUTS) -> Catalogue:
    module = types.ModuleType("sheet")
    exec(HEAD + source, module.__dict__)
    for item in vars(module).values():
        if callable(item) and hasattr(item, "__line__"):
            item.__module__ = "sheet"
    return catalogue(lines_of([module]), inputs=inputs, families={"feed": ("feed",)})


def planned(source: str, items: Sequence[str] = ("whey", "bakery"), **choices: str) -> Plan:
    pairs = {"feed": tuple(("feed", name) for name in items)}
    return plan(
        made(source),
        items=pairs,
        choices={f"feed.{k}.kind": v for k, v in choices.items()},
        monthly_inputs={"time.month"},
    )


def a_line(name: str, arguments: str, body: str, options: str = "", unit: str = "t") -> str:
    return f'@line({options})\ndef {name}({arguments}):\n    """Label [{unit}]\n\n    Meaning.\n    """\n    return {body}\n'


MONTH = np.arange(24, dtype=float)[None, :]


def test_an_unknown_argument_fails_with_its_likely_spelling() -> None:
    with pytest.raises(LineError, match=r"sheet\.gas: unknown argument shaer; did you mean share\?"):
        made(a_line("gas", "shaer", "shaer"))


def test_a_docstring_without_label_and_unit_is_refused() -> None:
    with pytest.raises(LineError, match="docstring"):
        made('@line()\ndef gas(share):\n    """Gas."""\n    return share\n')


def test_a_name_defined_twice_without_a_choice_is_refused() -> None:
    with pytest.raises(LineError, match="defined twice"):
        made(a_line("gas", "share", "share") + a_line("gas__again", "share", "share"))


def test_a_line_named_like_an_input_or_a_family_is_refused() -> None:
    with pytest.raises(LineError, match="also an input"):
        made(a_line("share", "rate", "rate"))
    with pytest.raises(LineError, match="begins with the family feed"):
        made(a_line("feed_all", "rate", "rate"))


YEARS = "yearly=True"
THROUGH_THE_YEARS = (
    a_line("paid_before", "previous_paid", "previous_paid", "yearly=True, turns=True")
    + a_line("debt", "previous_debt, in_year_paid_before, month", "previous_debt - in_year_paid_before + month", "roll='debt'")
    + a_line("cost", "debt, rate", "debt * rate", unit="t/month")
    + a_line("so_far", "cumulative_cost", "cumulative_cost")
    + a_line("of_year", "year_sum_cost, year_end_so_far", "year_sum_cost + year_end_so_far", YEARS)
    + a_line("pool", "previous_pool, of_year, share", "previous_pool * share + of_year", YEARS + ", roll='pool'")
    + a_line("paid", "pool, share", "pool * share", YEARS)
)


def test_a_circle_through_the_years_is_worked_out_year_by_year() -> None:
    """Against the same sums in a plain loop; each row of a batch is the single run."""
    found = planned(THROUGH_THE_YEARS)
    assert found.in_circle == {"paid_before", "debt", "cost", "so_far", "of_year", "pool", "paid"}
    rates = np.array([[0.01], [0.02], [0.5]])
    inputs = {"plant.rate": rates, "plant.share": np.array([[0.1]]), "time.month": MONTH}
    batch = evaluate(found, inputs)
    for draw, rate in enumerate(rates[:, 0]):
        debt = so_far = pool = paid = 0.0
        for year in range(2):
            costs = []
            for month in range(12 * year, 12 * year + 12):
                debt = debt - paid + month
                costs.append(debt * rate)
                so_far += costs[-1]
                assert batch["debt"][draw, month] == pytest.approx(debt, rel=1e-12)
                assert batch["so_far"][draw, month] == pytest.approx(so_far, rel=1e-12)
            pool = pool * 0.1 + sum(costs) + so_far
            paid = pool * 0.1
            assert batch["paid"][draw, year] == pytest.approx(paid, rel=1e-12)
        alone = evaluate(found, {**inputs, "plant.rate": rates[draw : draw + 1]})
        assert all(np.array_equal(alone[name], batch[name][draw : draw + 1]) for name in found.in_circle)


def test_a_circle_that_turns_inside_a_year_or_looks_ahead_is_refused() -> None:
    inside = THROUGH_THE_YEARS.replace("cumulative_cost", "in_year_paid")
    with pytest.raises(LineError, match="circle"):
        planned(inside)
    ahead = THROUGH_THE_YEARS.replace("cumulative_cost", "life_sum_cost")
    with pytest.raises(LineError, match="reads later ones"):
        planned(ahead)
    unmarked = THROUGH_THE_YEARS.replace(", turns=True", "")
    with pytest.raises(LineError, match="circle"):
        planned(unmarked)


def test_a_circle_is_refused_and_named() -> None:
    with pytest.raises(LineError, match="circle"):
        planned(a_line("a", "b", "b") + a_line("b", "a", "a"))


def test_a_number_inside_a_line_is_refused_by_the_trace() -> None:
    built = planned(a_line("gas", "share", "share * 0.75"))
    with pytest.raises(LineError, match=r"the number 0\.75 stands inside a line"):
        formula(built.nodes["gas"], lambda ref: "A1")


@pytest.mark.parametrize(
    ("body", "words"), [("1 if share else 0", "branch"), ("np.sin(share)", "sin"), ("np.cumsum(share)", "cumsum")]
)
def test_what_has_no_spreadsheet_form_is_refused(body: str, words: str) -> None:
    built = planned(a_line("gas", "share", body))
    with pytest.raises(LineError, match=words):
        formula(built.nodes["gas"], lambda ref: "A1")


def test_family_lines_lists_and_roles() -> None:
    source = (
        a_line("feed_gas", "feed_tonnes, share", "feed_tonnes * share", 'per="feed", role="gas"')
        + a_line("gas_by_each", "each_feed_gas", "total(each_feed_gas)")
        + a_line("gas_by_role", "all_gas", "total(all_gas)")
    )
    built = planned(source)
    values = evaluate(
        built,
        {
            "feed.whey.tonnes": np.array([[2.0], [4.0]]),
            "feed.bakery.tonnes": np.array([[1.0]]),
            "plant.share": np.array([[0.5]]),
            "time.month": MONTH,
        },
    )
    assert values["gas_by_each"].tolist() == [[1.5], [2.5]] == values["gas_by_role"].tolist()
    assert formula(built.nodes["gas_by_each"], lambda ref: ref.name) == "((0+feed.whey.gas)+feed.bakery.gas)"


def test_a_choice_picks_the_definition_per_item() -> None:
    source = a_line("feed_gas__wet", "feed_tonnes", "feed_tonnes", 'per="feed", when={"feed_kind": "wet"}') + a_line(
        "feed_gas__dry", "feed_tonnes", "0 * feed_tonnes", 'per="feed", when={"feed_kind": "dry"}'
    )
    built = planned(source, whey="wet", bakery="dry")
    assert [node.line.variant for node in built.nodes.values()] == ["wet", "dry"]


def test_a_reading_of_a_line_that_a_choice_removed_is_refused() -> None:
    source = a_line("feed_gas__wet", "feed_tonnes", "feed_tonnes", 'per="feed", when={"feed_kind": "wet"}') + a_line(
        "gas", "each_feed_gas", "total(each_feed_gas)"
    )
    with pytest.raises(LineError, match="does not exist under the choices"):
        planned(source, whey="wet", bakery="dry")


VIEWS: Mapping[str, tuple[str, list[float]]] = {
    "previous_x": ("month", [0.0, 0.0, 1.0]),
    "next_x": ("month", [1.0, 2.0, 3.0]),
    "cumulative_x": ("month", [0.0, 1.0, 3.0]),
    "life_sum_x": ("once", [276.0]),
    "year_sum_x": ("year", [66.0, 210.0]),
    "year_end_x": ("year", [11.0, 23.0]),
}


@pytest.mark.parametrize("view", VIEWS)
def test_views(view: str) -> None:
    grid, want = VIEWS[view]
    options = "yearly=True" if grid == "year" else ""
    built = planned(a_line("x", "month", "month * 1") + a_line("y", view, f"{view} * 1", options))
    got = evaluate(built, {"time.month": MONTH})["y"]
    assert built.grid("y") == grid
    assert got[0, : len(want)].tolist() == want


def test_a_yearly_line_is_read_back_by_month() -> None:
    source = (
        a_line("x", "month", "month * 1")
        + a_line("y", "year_sum_x", "year_sum_x", "yearly=True")
        + a_line("z", "in_year_y", "in_year_y")
    )
    assert evaluate(planned(source), {"time.month": MONTH})["z"][0].tolist() == [66.0] * 12 + [210.0] * 12
    with pytest.raises(LineError, match="write in_year_y"):
        planned(a_line("y", "year_sum_month", "year_sum_month", "yearly=True") + a_line("z", "y", "y"))


@pytest.mark.parametrize("back", [False, True])
def test_stepped_lines_go_forward_or_backward(back: bool) -> None:
    lag = "next_store" if back else "previous_store"
    built = planned(a_line("store", f"{lag}, month, rate", f"{lag} * rate + month", f'roll="s", backward={back}'))
    got = evaluate(built, {"time.month": MONTH, "plant.rate": np.array([[0.5], [2.0]])})["store"]
    want = np.zeros((2, 24))
    for draw, rate in enumerate((0.5, 2.0)):
        last = 0.0
        for month in range(23, -1, -1) if back else range(24):
            want[draw, month] = last = last * rate + month
    assert got.tolist() == want.tolist()


def test_blocks_give_the_same_as_one_piece() -> None:
    built = planned(a_line("store", "previous_store, month, rate", "previous_store * rate + month", 'roll="s"'))
    inputs = {"time.month": MONTH, "plant.rate": np.linspace(0.1, 0.9, 37)[:, None]}
    whole = evaluate(built, inputs)["store"]
    blocks = [part["store"] for part in evaluate_in_blocks(built, inputs, keep=["store"], block=8)]
    assert [block.shape[0] for block in blocks] == [8, 8, 8, 8, 5]
    assert np.concatenate(blocks).tolist() == whole.tolist()


def test_explanation_goes_down_to_the_inputs() -> None:
    flow = {"unit": "t/month"}
    source = a_line("gas", "share, month", "share * month", **flow) + a_line("money", "gas, rate", "gas * rate", **flow)
    built = planned(source)
    values = evaluate(built, {"time.month": MONTH, "plant.share": np.array([[0.5]]), "plant.rate": np.array([[3.0]])})
    told = explain(built, values, "money", year=2, labels={"plant.rate": ("Price", "money/t")}, depth=2)
    assert (told.value, told.label, told.unit, told.meaning) == (315.0, "Label", "t/month", "Meaning.")
    assert [(part.name, part.value) for part in told.parts] == [("gas", 105.0), ("plant.rate", 3.0)]
    assert (told.parts[1].label, told.parts[1].unit) == ("Price", "money/t")
    assert [part.name for part in told.parts[0].parts] == ["plant.share", "time.month"]
