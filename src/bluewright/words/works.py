"""Each work of a season's plan by a name of its own that stays while the plan moves: for calendars."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from bluewright.science.season.answer import PlannedSteep, SeasonAnswer
from bluewright.words.language import gettext as _
from bluewright.words.measures import amount, measured
from bluewright.words.numbers import ranged
from bluewright.words.season import cut_said, tub_name, tub_said, why_said

Kind = Literal["cut", "fill", "strain", "jar"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One work on its day."""

    key: str
    """Made of the plan, the bed and the number of the cut, or the tub and the number of its filling."""
    on: date
    kind: Kind
    of: str
    """The bed, or the tub as `60|1`: litres and number."""
    title: str
    text: str


def works(found: SeasonAnswer) -> Iterator[Planned]:
    """Every cut, filling, straining and weighing."""
    plan, done = found.id, {bed.id: len(bed.cuts) for bed in found.inputs.beds}
    numbers: Counter[str] = Counter(done)
    for cut in found.cuts:
        numbers[cut.bed] += 1
        text = _("Leaf %(leaf)s, pure blue %(blue)s. Why then: %(why)s.") % {
            "leaf": measured(cut.leaf_kg, "mass_kg"), "blue": ranged(cut.blue_g, "g"), "why": why_said(cut),
        }  # fmt: skip
        yield Planned(
            key=f"{plan}|cut|{cut.bed}|{numbers[cut.bed]}", on=cut.on, kind="cut", of=cut.bed,
            title=_("Cut %(bed)s") % {"bed": cut_said(cut)}, text=text,
        )  # fmt: skip
    filled: Counter[str] = Counter()
    for one in found.steeps:
        place = _place(one)
        key = f"{plan}|{place}|{one.fill_on.isoformat()}" if not one.beds else f"{plan}|{place}|{filled[place]}"
        filled[place] += bool(one.beds)
        if one.beds:
            text = _("%(leaf)s of leaf from %(beds)s.") % {
                "leaf": amount(one.leaf_kg, "mass_kg"), "beds": ", ".join(one.beds),
            }  # fmt: skip
            yield _of_tub(one, key, one.fill_on, "fill", text)
        text = _("Look first: the strain call of the day goes before this plan.")
        yield _of_tub(one, key, one.strain_on, "strain", text)
        yield _of_tub(one, key, one.ready_on, "jar", _("Its blue should be dry by now."))


def titled(kind: str, of: str) -> str:
    """`Cut Long bed`; `Strain tub 1 of 60 L`."""
    if kind == "cut":
        return _("Cut %(bed)s") % {"bed": of}
    volume_l, _bar, number = of.partition("|")
    return _titled(kind, tub_said(float(volume_l), int(number)))


def _titled(kind: str, name: str) -> str:
    tub = {"tub": name}
    if kind == "fill":
        return _("Fill %(tub)s") % tub
    return _("Strain %(tub)s") % tub if kind == "strain" else _("Weigh the blue of %(tub)s") % tub


def _of_tub(one: PlannedSteep, key: str, on: date, kind: Kind, text: str) -> Planned:
    title = _titled(kind, tub_name(one))
    return Planned(key=f"{key}|{kind}", on=on, kind=kind, of=_place(one), title=title, text=text)


def _place(one: PlannedSteep) -> str:
    return f"{one.volume_l:g}|{one.tub}"
