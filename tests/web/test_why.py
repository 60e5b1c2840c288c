"""Why this number, for every computation: each example record of the package is answered and each figure explained."""

from importlib import import_module
from typing import get_args, get_type_hints

import pytest

from bluewright.cli.schemas import PUBLISHED
from bluewright.science.base.sourced import Prior, Sourced
from bluewright.web.ui.basis import BASIS
from bluewright.web.ui.stages import STAGES, stage_of
from bluewright.web.ui.why import Link, WhyPage, why_page
from bluewright.web.ui.why_figures import figures
from bluewright.web.ui.why_reach import SCIENCE, reached
from bluewright.words.sources import NO_SOURCE, bibliography
from tests.cli.commands import RECORD_COMMANDS, example_answer

NAMES = pytest.mark.parametrize("name", RECORD_COMMANDS)


def why(name: str, figure: str) -> WhyPage:
    return why_page(
        example_answer(name), figure=figure, address=lambda path: f"?why={path}", back=Link(to="/", name="back")
    )


def test_every_answer_that_is_published_has_its_stage() -> None:
    """But the colours in a photo and gardens pooled: no page asks why of them."""
    published = {kind.__name__ for name, kind in PUBLISHED.items() if name.endswith("-answer")}
    assert published - {"PhotoAnswer", "PoolAnswer"} == set(STAGES)
    assert {type(answer).__name__ for answer in map(example_answer, RECORD_COMMANDS)} == set(STAGES)


@NAMES
def test_every_figure_says_its_value_in_words(name: str) -> None:
    for figure in figures(example_answer(name)):
        found = why(name, figure).figure
        assert found.said or found.parts, figure
        told = " ".join([found.name, found.said, *(f"{part.name} {part.said}" for part in found.parts)])
        assert "_" not in told.replace("bluewright_", ""), figure
        assert not any(raw in told for raw in ("Band(", "None", "nan", "datetime", "array(")), figure


@NAMES
def test_every_computation_has_inputs_a_formula_constants_and_draws(name: str) -> None:
    page = why(name, figures(example_answer(name))[0])
    assert page.given
    assert "<pre" in page.formula
    assert page.constants
    assert page.draws == 0 if stage_of(example_answer(name)).exact else page.draws >= 300
    assert all(row.meaning for row in (*page.given, *page.left_out))
    assert [other.to for other in page.others] == [f"?why={path}" for path in figures(example_answer(name))[1:]]


@NAMES
def test_every_source_and_every_constant_s_source_is_in_the_bibliography(name: str) -> None:
    page = why(name, figures(example_answer(name))[0])
    known = {*bibliography(), NO_SOURCE}
    assert {source.key for source in page.sources} <= known
    assert all(bool(source.anchor) == (source.key != NO_SOURCE) for source in page.sources)
    assert {row.source for group in page.constants for row in group.rows} <= known
    assert page.many == sum(len(group.rows) for group in page.constants) == sum(n for _, n in page.grades)


@NAMES
def test_no_constant_that_the_computation_names_is_left_out(name: str) -> None:
    """Those that stand in the entry module itself, or are imported into it, by their names."""
    module, _, function = stage_of(example_answer(name)).entry.partition(":")
    entry = import_module(f"bluewright.science.{module}")
    mentioned = getattr(entry, function).__code__.co_names if function else vars(entry)
    named = {name for name in mentioned if isinstance(getattr(entry, name, None), Sourced | Prior)}
    page = why(name, figures(example_answer(name))[0])
    assert named <= {row.code for group in page.constants for row in group.rows}


@pytest.mark.parametrize(
    ("name", "priors"),
    [("steep call", "steep"), ("strain balance", "strain"), ("alkali dose", "alkali"), ("air time", "air"),
     ("jar yield", "pigment")],
)  # fmt: skip
def test_every_prior_of_a_stage_is_told(name: str, priors: str) -> None:
    """But the share kept from washing to the jar, which season and memory ask for, before there is a jar."""
    module = import_module(f"bluewright.science.{priors}.priors")
    named = {name for name, value in vars(module).items() if isinstance(value, Sourced | Prior)} - {"KEPT"}
    page = why(name, figures(example_answer(name))[0])
    assert named <= {row.code for group in page.constants for row in group.rows}


def test_what_other_computations_take_as_known_is_not_told() -> None:
    """A strain call and what was learned share modules with the plan of a season, but dye nothing and sow nothing."""
    for name in ("steep call", "learned"):
        told = {row.code.partition("[")[0] for group in why(name, figures(example_answer(name))[0]).constants
                for row in group.rows}  # fmt: skip
        assert {"CONTENT", "WALL_W_PER_M2_K"} <= told
        assert not {"FIXED_FRAC", "WORKING_G_PER_L", "TARGETS_PER_M2", "SOWING_OPENS"} & told


def test_a_name_is_followed_to_where_it_is_defined() -> None:
    """By hand, from science/settle/filtering.py and the names that its functions read."""
    found = {(one.module.removeprefix(SCIENCE), one.name) for one in reached("settle.filtering")}
    assert {("settle.filtering", "CAKE_SHARE"), ("settle.filtering", "filter_time")} <= found
    assert not any(module.startswith("base.") for module, _ in found), "no fact of the trade stands there"
    assert {one.name for one in reached("thread:strain_call")} < {one.name for one in reached("thread")}


def test_the_constants_of_a_straining_by_hand() -> None:
    """Counted and worked out by hand from science/strain/priors.py: 0.80 times or over exp(1.645 * 0.20) = 1.39."""
    page = why("strain balance", "liquor_out_l")
    assert page.grades == (("practice", 4), ("guess", 4), ("memory", 1))
    (kept,) = [row for group in page.constants for row in group.rows if row.code.startswith("KEPT")]
    assert kept.code == "KEPT_L_PER_KG[hand]"
    assert kept.said == "0.8 L/kg (0.58 to 1.1)"
    assert kept.what == "Wrung in a cloth by hand"


def test_a_value_is_told_with_its_range_and_an_exact_one_without() -> None:
    rows = {row.code: row.said for group in why("alkali dose", "dose").constants for row in group.rows}
    assert rows["KINDS[ammonia].molar"] == "17.031 g/mol (17.021 to 17.041)"
    rows = {row.code: row.said for group in why("filter time", "left_h").constants for row in group.rows}
    assert rows["CAKE_SHARE"] == "0.5 (0.08 to 0.92)"


@NAMES
def test_it_says_what_the_answer_rests_on_whatever_that_may_be(name: str) -> None:
    """Every word that the field `basis` may hold has its sentence."""
    kind = type(example_answer(name))
    if "basis" in kind.__dataclass_fields__:
        assert set(get_args(get_type_hints(kind)["basis"])) <= set(BASIS)
        assert why(name, figures(example_answer(name))[0]).basis == str(BASIS[example_answer(name).basis])


def test_a_dose_is_told_in_its_own_measure() -> None:
    assert " mL (" in why("alkali dose", "dose").figure.said


def test_an_edge_against_time_is_told_at_a_dozen_hours_or_so() -> None:
    parts = why("settle time", "edge_mm_by_h").figure.parts
    assert len(parts) == 13
    assert parts[0].name == "0 h"
    assert parts[0].said.endswith("300 mm")


def test_a_step_of_the_yield_is_a_figure_too() -> None:
    found = why("jar yield", "steps.0.kept_frac").figure
    assert found.name == "Steps: Steep: kept"
    assert "%" in found.said
    assert "Share of the blue that came through this step." in found.meaning
