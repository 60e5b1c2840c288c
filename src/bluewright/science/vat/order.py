"""The work in its order, each addition with its step, its wait and what could hurt there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.vat.amounts import Amounts
from bluewright.science.vat.kinds import KINDS, SetPoints, VatAlkali
from bluewright.science.vat.recipe_record import Doing, Hazard, Substance, VatRecipeRecord, VatStep

FIRST_SHARE: Final = 2.0 / 3.0
"""Of the alkali that goes in before the pH is read (common practice: most of it, never all)."""
CLEARING_SHARE: Final = 0.2
"""Of the reductant that goes in first, to take the oxygen away, where it is quick enough for that (common practice)."""
CLEAR_MIN: Final = 20.0
"""Minutes until that has worked: 20, by Mairet's recipe of 1938."""
AGAIN_MIN: Final = 30.0
"""Minutes between a small part of alkali and the next look (common practice)."""

HAZARDS: Final[dict[Substance, tuple[Hazard, ...]]] = {
    "powder": ("powder_dust",),
    "dithionite": ("fire", "irritant", "swallowed", "sulphur_gas", "powder_dust"),
    "thiourea_dioxide": ("eyes", "swallowed", "thiourea_heat", "sulphur_gas", "powder_dust"),
    "fructose": (),
    "ferrous_sulphate": ("iron", "irritant"),
    "soda_ash": ("eyes",),
    "potash": ("eyes",),
    "lye": ("eyes", "lye_heat"),
    "slaked_lime": ("eyes", "lime_dust"),
    "bran": (),
    "madder": ("powder_dust",),
}
"""What could hurt where each is added: all that the published hazard statements name."""


def order(
    record: VatRecipeRecord, found: Amounts, *, alkali: VatAlkali, points: SetPoints, ready_h: Band
) -> tuple[VatStep, ...]:
    """The steps of the work for this kind of vat."""
    made = _Steps(record)
    kind = KINDS[record.kind]
    made.step("warm_water", temp_c=kind.reduce_c.value, hazards=("hot_water",) if kind.reduce_c.value >= 45.0 else ())
    quick = kind.sulphur and kind.reductant == "dithionite"
    if record.kind == "ferment":
        made.step("feed", "bran", drawn_g=found.powder_g * 0.0 + found.feed_g)
        made.step("feed", "madder", drawn_g=found.powder_g * 0.0 + found.feed_g)
    made.step("grind_paste", "powder", drawn_g=found.powder_g)
    made.step("alkali_first", alkali, drawn_g=FIRST_SHARE * found.alkali_g)
    if quick:
        made.step("clear_oxygen", kind.reductant, drawn_g=CLEARING_SHARE * found.reductant_g, wait_min=_just(CLEAR_MIN))
    made.step("add_powder", "powder")
    if kind.reductant is not None:
        share = 1.0 - CLEARING_SHARE if quick else 1.0
        made.step("add_reductant", kind.reductant, drawn_g=share * found.reductant_g)
    wait = Band(p5=60.0 * ready_h.p5, p50=60.0 * ready_h.p50, p95=60.0 * ready_h.p95)
    ways: dict[str, Doing] = {"iron": "stir_and_settle", "ferment": "keep_warm"}
    foul: tuple[Hazard, ...] = ("foul_air",) if record.kind == "ferment" else ()
    made.step(ways.get(record.kind, "wait"), wait_min=wait, temp_c=kind.reduce_c.value, hazards=foul)
    made.step("test_ph")
    made.step("alkali_rest", alkali, drawn_g=(1.0 - FIRST_SHARE) * found.alkali_g, wait_min=_just(AGAIN_MIN))
    made.step("to_dye_temp", temp_c=points.dye_c.value)
    return tuple(made)


class _Steps:
    """The steps as they are put down."""

    def __init__(self, record: VatRecipeRecord) -> None:
        self._litres = record.volume_l
        self._made: list[VatStep] = []

    def __iter__(self) -> Iterator[VatStep]:
        return iter(self._made)

    def step(
        self,
        do: Doing,
        what: Substance | None = None,
        *,
        drawn_g: Floats | None = None,
        temp_c: float | None = None,
        wait_min: Band | None = None,
        hazards: tuple[Hazard, ...] = (),
    ) -> None:
        """One more; an addition of nothing is left out."""
        mass = None if drawn_g is None else band(drawn_g, digits=3)
        if mass is not None and mass.p95 <= 0.0:
            return
        own = HAZARDS[what] if what is not None and mass is not None else ()
        per_l = None if drawn_g is None else band(drawn_g / self._litres, digits=3)
        self._made.append(
            VatStep(
                do=do, what=what, mass_g=mass, g_per_l=per_l, temp_c=None if temp_c is None else significant(temp_c),
                wait_min=wait_min, hazards=(*own, *hazards),
            )
        )  # fmt: skip


def _just(minutes: float) -> Band:
    return Band(p5=minutes, p50=minutes, p95=minutes)
