"""Rules of the house that a machine can read."""

import ast
import re
import tokenize
from functools import cache
from pathlib import Path

from bluewright.cli.commands import COMMANDS

ROOT = Path(__file__).parents[2]
SRC = ROOT / "src" / "bluewright"
MODULES = sorted(path for path in SRC.rglob("*.py") if "migrations" not in path.parts)
SCIENCE = [p for p in MODULES if "science" in p.parts]
PURE_FORBIDDEN = {"os", "io", "pathlib", "socket", "urllib", "time", "random", "sqlite3", "subprocess", "django", "sys"}
IMPURE_CALLS = {"print", "open", "datetime.now", "warnings.warn", "np.random.seed"}

UNIT_ENDINGS = """
    kg g mg ug l ml m m2 m3 mm um nm cm h min s d c k kpa pa mv mol mmol meq mol_per_l mmol_per_l mmol_per_kg
    g_per_l mg_per_l mg_l g_per_kg l_per_kg kg_per_l kg_per_m3 per_h per_s frac pct percent_w_w percent_w_v
    us_per_cm h_per_l h_per_l2 ppm mol_per_kg j_per_mol j_per_mol_k w_per_m2 w_per_m2_k w_per_k l_per_min
    m_per_s mg_caco3_l px g_per_cm3 pa_s l_per_h mm_per_h g_per_mol sd z factor c2 exposure chance pours bytes
    deg per_cm lab de de00 code ev light mj_per_m2 l_per_g_cm absorbance mg_per_ml
    bits mol_per_mol g_per_g m_per_h cuts plants frames per_m2 kg_per_m2 g_per_m2 degree_d fills log
    money money_per_h money_per_g money_per_m3 amount amount_per_g l_per_g h_per_g batches months per_month
    g_per_h
""".split()  # noqa: SIM905 - a list of forty quoted words is harder to read
UNITS = re.compile(rf"(_({'|'.join(UNIT_ENDINGS)})$|ph|^pk|^(z|n)$|^p\d+$)")
# Numbers without a dimension, allowed by name.
BARE = {
    "half_range_l_star",
    "bits",
    "before_half_range_l_star",
    "before",
    "after",
    "wet_rub_grade",
    "dry_rub_grade",
    "fourier",
    "a_star",
    "absorbance",
    "activity",
    "amount",
    "apart_slope",
    "assays",
    "at",
    "b_star",
    "best",
    "block_points",
    "blue",
    "bound",
    "box",
    "by",
    "calcite_product",
    "ceiling",
    "centre",
    "chance_of_losing_a_fifth",
    "chance_past_peak",
    "change_grade",
    "charge",
    "chroma",
    "cmc_2_1",
    "coefficients",
    "colour",
    "covariance",
    "cue",
    "cuts",
    "day_of_year",
    "de00",
    "de76",
    "dissociation",
    "dye_index",
    "dye_rise",
    "dye_since_before",
    "ess",
    "even",
    "evenness",
    "expected_frac_of_best",
    "exponent",
    "exposure",
    "extra",
    "f_number",
    "factor",
    "first_part",
    "fit_residual",
    "foam_chroma",
    "frac_of_best_now",
    "got",
    "green",
    "groups",
    "growth",
    "guess",
    "high",
    "hours",
    "hue",
    "ion_product",
    "k_over_s",
    "k_over_s_red",
    "l_star",
    "later_power",
    "lab",
    "least",
    "level",
    "lift",
    "light",
    "lightness",
    "linear",
    "log_evidence",
    "looser",
    "low",
    "lower",
    "matrix",
    "mean",
    "measured",
    "most",
    "needed",
    "now",
    "own",
    "percent_w_v",
    "percent_w_w",
    "points",
    "pools",
    "precision",
    "prior",
    "push",
    "red",
    "reynolds",
    "room",
    "root",
    "rows",
    "rss",
    "samples",
    "scatter",
    "scatter_exponent",
    "sd",
    "shared",
    "slope",
    "slopes",
    "solubility_product",
    "speed_scatter",
    "spread",
    "squares",
    "stain_grade",
    "start",
    "states",
    "stray_linear",
    "tint",
    "together",
    "to_picture",
    "tubs",
    "turn_to_yellow",
    "until_amount",
    "upper",
    "value",
    "values",
    "variance",
    "variances",
    "veil",
    "weights",
    "whiteness",
    "worth",
    "x",
    "y",
    "yellow_index",
}


def name_of(path: Path) -> str:
    return str(path.relative_to(SRC))


@cache
def parsed(path: Path) -> ast.Module:
    """A module, read once for all rules."""
    return ast.parse(path.read_text(encoding="utf-8"))


def test_science_is_pure() -> None:
    """No files, clock, network, environment or print in the science."""
    impure = [
        (name_of(path), ast.unparse(node)) for path in SCIENCE for node in ast.walk(parsed(path)) if _impure(node)
    ]
    assert impure == []


def _impure(node: ast.AST) -> bool:
    if isinstance(node, ast.Import):
        return bool({a.name.split(".")[0] for a in node.names} & PURE_FORBIDDEN)
    if isinstance(node, ast.ImportFrom):
        return (node.module or "").split(".")[0] in PURE_FORBIDDEN
    return isinstance(node, ast.Call) and ast.unparse(node.func) in IMPURE_CALLS


def test_public_numbers_carry_their_unit_in_the_name() -> None:
    """Every public float argument and field ends with a unit (or is one of the dimensionless names)."""
    without = [
        (name_of(path), name)
        for path in SCIENCE
        for name in _public_floats(parsed(path))
        if not UNITS.search(name) and name not in BARE
    ]
    assert without == []


def _public_floats(tree: ast.Module) -> list[str]:
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            arguments = [*node.args.args, *node.args.kwonlyargs]
            found += [a.arg for a in arguments if _is_float(a.annotation)]
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            fields = [n for n in node.body if isinstance(n, ast.AnnAssign) and isinstance(n.target, ast.Name)]
            found += [ast.unparse(n.target) for n in fields if _is_float(n.annotation)]
    return [name for name in found if not name.startswith("_")]


def _is_float(annotation: ast.expr | None) -> bool:
    """Whether the annotation is of a number, an array or a band; a function of numbers is none."""
    said = "" if annotation is None else ast.unparse(annotation)
    return "Callable" not in said and bool(re.search(r"\bfloat\b|\bFloats\b|\bBand\b", said))


def test_every_source_key_is_in_the_bibliography() -> None:
    known = set(re.findall(r"^@\w+\{([^,]+),", (ROOT / "sources.bib").read_text(), re.M)) | {"common-practice"}
    used = set()
    for path in MODULES:
        used |= set(re.findall(r'\bsource="([^"]+)"', path.read_text()))
    for path in (ROOT / "tests" / "published").glob("*.toml"):
        used |= set(re.findall(r'^key = "([^"]+)"', path.read_text(), re.M))
    assert used <= known, f"not in sources.bib: {', '.join(sorted(used - known))}"


def test_modules_stay_small_enough_to_hold_one_idea() -> None:
    assert [name_of(path) for path in MODULES if len(path.read_text(encoding="utf-8").splitlines()) > 400] == []


def test_functions_fit_on_a_screen() -> None:
    """At most 45 lines of body code, docstrings and comments left out."""
    long = [
        (name_of(path), node.name, lines)
        for path in MODULES
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.FunctionDef) and (lines := _lines(node, path)) > 45
    ]
    assert long == []


def _lines(function: ast.FunctionDef, path: Path) -> int:
    body = function.body[1:] if ast.get_docstring(function) else function.body
    lines = {n for part in body for n in range(part.lineno, (part.end_lineno or part.lineno) + 1)}
    return len(lines) if len(lines) <= 45 else len(lines - _comments(path))


@cache
def _comments(path: Path) -> set[int]:
    """The lines of a module that hold a comment."""
    lines = iter(path.read_text(encoding="utf-8").splitlines(True))
    return {token.start[0] for token in tokenize.generate_tokens(lines.__next__) if token.type == tokenize.COMMENT}


def test_every_command_is_documented_and_has_an_example() -> None:
    page = (ROOT / "docs" / "commands.md").read_text()
    for command in COMMANDS:
        assert f"bluewright {' '.join(command.words)}" in page, command.words
