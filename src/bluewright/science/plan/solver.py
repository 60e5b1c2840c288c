"""A mixed-integer program by HiGHS: columns and rows gathered one by one, solved with progress and a bound.

Source: Huangfu and Hall 2018 (key huangfu-hall-2018), HiGHS 1.x. One thread, so that the same program gives the same
answer unless the limit of time ends it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

import highspy
import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats

Progress = Callable[[float, float], None]
"""Told of each better answer: what it is worth, and what no answer can be worth more than."""
FREE: Final = float("inf")
OPTIMAL: Final = 1e-6
"""Relative gap below which an answer is the best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Values of the columns, their worth, and the bound of all answers."""

    values: Floats
    worth: float
    bound: float


@dataclass(slots=True)
class Program:
    """A program to maximise, as it is gathered."""

    worth: list[float] = field(default_factory=list)
    most: list[float] = field(default_factory=list)
    least: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    row_of: list[int] = field(default_factory=list)
    col_of: list[int] = field(default_factory=list)
    value: list[float] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)

    def column(self, *, worth: float = 0.0, least: float = 0.0, most: float = FREE, whole: bool = False) -> int:
        """A new column; returns its number."""
        self.worth.append(worth)
        self.least.append(least)
        self.most.append(most)
        self.whole.append(whole)
        return len(self.worth) - 1

    def row(self, *, lower: float = -FREE, upper: float = FREE) -> int:
        """A new row `lower <= sum <= upper`; returns its number."""
        self.lower.append(lower)
        self.upper.append(upper)
        return len(self.lower) - 1

    def put(self, row: int, column: int, value: float) -> None:
        """Add `value` times a column to a row; several entries of one place add up."""
        self.row_of.append(row)
        self.col_of.append(column)
        self.value.append(value)

    def solved(
        self,
        *,
        gap_frac: float = OPTIMAL,
        limit_s: float = FREE,
        start: Mapping[int, float] | None = None,
        values: Mapping[int, float] | None = None,
        progress: Progress | None = None,
    ) -> Found:
        """The best answer within the gap or the limit. Raises ModelError if there is none.

        `start` says by column what the whole ones may be: an answer to begin with, completed by the solver; `values`
        what some columns must be.
        """
        solver = _loaded(self, whole=True)
        solver.setOptionValue("mip_rel_gap", gap_frac)
        solver.setOptionValue("time_limit", limit_s)
        for column, value in (values or {}).items():
            solver.changeColBounds(column, value, value)
        if start is not None:
            solver.setSolution(
                len(start), np.array(list(start), dtype=np.int32), np.array(list(start.values()), dtype=float)
            )
        if progress is not None:
            _follow(solver, progress)
        solver.run()
        info = solver.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            raise ModelError(f"no schedule was found ({solver.modelStatusToString(solver.getModelStatus())})")
        return Found(
            values=np.array(solver.getSolution().col_value),
            worth=info.objective_function_value,
            bound=info.mip_dual_bound if any(self.whole) else info.objective_function_value,
        )

    def relaxed(self, looser: Sequence[dict[int, float]] = ()) -> list[float]:
        """What the program is worth if columns need not be whole: as it stands, and with other upper ends of rows.

        Each of `looser` says by row what its upper end becomes. Raises ModelError if nothing is possible.
        """
        solver = _loaded(self, whole=False)
        found = [_run_relaxed(solver)]
        for rows in looser:
            for row, upper in rows.items():
                solver.changeRowBounds(row, self.lower[row], upper)
            found.append(_run_relaxed(solver))
            for row in rows:
                solver.changeRowBounds(row, self.lower[row], self.upper[row])
        return found


def _run_relaxed(solver: Any) -> float:
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise ModelError(f"the relaxed season was not solved ({solver.modelStatusToString(solver.getModelStatus())})")
    return float(solver.getInfo().objective_function_value)


def _follow(solver: Any, progress: Progress) -> None:
    """Tell of every better answer."""

    def told(event: Any) -> None:
        progress(event.data_out.objective_function_value, event.data_out.mip_dual_bound)

    solver.cbMipImprovingSolution.subscribe(told)


def _loaded(program: Program, *, whole: bool) -> Any:
    """The solver with the program in it, silent."""
    order = np.argsort(np.array(program.row_of, dtype=np.int64), kind="stable")
    rows = np.array(program.row_of, dtype=np.int64)[order]
    made = highspy.HighsLp()
    made.num_col_, made.num_row_ = len(program.worth), len(program.lower)
    made.sense_ = highspy.ObjSense.kMaximize
    made.col_cost_, made.col_lower_, made.col_upper_ = program.worth, program.least, program.most
    made.row_lower_, made.row_upper_ = program.lower, program.upper
    made.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    made.a_matrix_.start_ = np.searchsorted(rows, np.arange(len(program.lower) + 1)).astype(np.int32)
    made.a_matrix_.index_ = np.array(program.col_of, dtype=np.int32)[order]
    made.a_matrix_.value_ = np.array(program.value, dtype=float)[order]
    if whole:
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        made.integrality_ = [kinds[one] for one in program.whole]
    solver: Any = highspy.Highs()  # type: ignore[no-untyped-call]
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.passModel(made)
    return solver
