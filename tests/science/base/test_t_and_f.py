"""Student's t and Fisher's F, against tables and against scipy."""

import pytest
from scipy import stats

from bluewright.science.base.errors import InputError
from bluewright.science.base.t_and_f import f_cdf, f_quantile, f_tail, incomplete_beta, t_cdf, t_quantile
from tests.published import Row, rows


@pytest.mark.parametrize("row", rows("t-and-f"), ids=lambda row: f"{row.what} {row.given}")
def test_quantiles_are_those_of_the_tables(row: Row) -> None:
    chance, dof = row.given["chance"], int(row.given["dof"])
    if row.what == "t":
        assert row.agrees(t_quantile(chance, dof=dof))
    else:
        assert row.agrees(f_quantile(chance, dof_over=dof, dof_under=int(row.given["dof_under"])))


@pytest.mark.parametrize("dof", [1, 2, 3, 7, 21, 150, 5000])
def test_scipy_has_the_same_t(dof: int) -> None:
    for chance in (1e-6, 0.025, 0.3, 0.5, 0.95, 0.999, 1 - 1e-7):
        assert t_quantile(chance, dof=dof) == pytest.approx(stats.t.ppf(chance, dof), rel=1e-8, abs=1e-9)
    for value in (-30.0, -1.3, 0.0, 0.4, 8.0):
        assert t_cdf(value, dof=dof) == pytest.approx(stats.t.cdf(value, dof), rel=1e-10, abs=1e-300)


@pytest.mark.parametrize(("over", "under"), [(1, 1), (1, 8), (3, 12), (20, 5), (60, 200)])
def test_scipy_has_the_same_f(over: int, under: int) -> None:
    for chance in (0.001, 0.5, 0.95, 0.9999):
        wanted = stats.f.ppf(chance, over, under)
        assert f_quantile(chance, dof_over=over, dof_under=under) == pytest.approx(wanted, rel=1e-8)
    for value in (0.01, 1.0, 4.0, 300.0):
        assert f_cdf(value, dof_over=over, dof_under=under) == pytest.approx(stats.f.cdf(value, over, under), rel=1e-9)
        assert f_tail(value, dof_over=over, dof_under=under) == pytest.approx(stats.f.sf(value, over, under), rel=1e-8)


def test_the_ends_of_the_beta_function_are_nought_and_one() -> None:
    assert (incomplete_beta(0.0, a_z=2, b_z=3), incomplete_beta(1.0, a_z=2, b_z=3)) == (0.0, 1.0)


def test_what_is_no_chance_is_refused() -> None:
    with pytest.raises(InputError, match=r"1\.2 is no chance; give one between 0 and 1"):
        t_quantile(1.2, dof=3)
    with pytest.raises(InputError, match="0 degrees of freedom"):
        f_quantile(0.5, dof_over=0, dof_under=3)
