"""What the page of lots shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.bridge.lots import Job, Shelf
from bluewright.science.dyeing.lots_record import LotsAnswer
from bluewright.web.pages.vats.plan_forms import MIX, mix_written
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import Link
from bluewright.words.dye_lots import said
from bluewright.words.numbers import by_scale, percent


@dataclass(frozen=True, slots=True, kw_only=True)
class JarRow:
    """A jar that may go into it."""

    name: str
    said: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LotsPage:
    """Which jars to mix."""

    answer: Answered | None
    trouble: str
    all_jobs: str
    """What all wants need beside what the jars hold; empty where nothing is wanted."""
    jars: tuple[JarRow, ...]
    unknown: str
    vat: str
    """Where a vat of the mix is planned; empty without a mix."""


def lots_page(
    found: LotsAnswer | None, *, shelf: Shelf, jobs: Sequence[Job], volume_l: float, vat: Mapping[str, str],
    trouble: str, why: Link,
) -> LotsPage:  # fmt: skip
    """The page of a job; `vat` is what is told of the vat that the mix is for."""
    return LotsPage(
        answer=None if found is None else answered(said(found), why=why),
        trouble=trouble,
        all_jobs=_all_jobs(shelf, jobs),
        jars=tuple(
            JarRow(
                name=jar.name, to=reverse("jars.show", kwargs={"key": shelf.keys[jar.name]}),
                said=_("%(left)s g of pigment, %(share)s indigo, give or take %(sd)s")
                % {
                    "left": by_scale(jar.mass_g), "share": percent(jar.purity_frac), "sd": percent(jar.purity_sd_frac)
                },
            )
            for jar in shelf.known
        ),
        unknown=_unknown(shelf),
        vat="" if found is None or found.purity_pct is None else _vat(found, shelf, volume_l, vat),
    )  # fmt: skip


def _all_jobs(shelf: Shelf, jobs: Sequence[Job]) -> str:
    wanted = [job.pure_g for job in jobs if not job.piece]
    if not wanted:
        return ""
    held, need = sum(jar.mass_g * jar.purity_frac for jar in shelf.known), sum(wanted)
    told = {"held": by_scale(held), "need": by_scale(need), "short": by_scale(max(need - held, 0.0))}
    if need > held:
        return (
            _("All open wants need %(need)s g of pure indigo; the jars hold %(held)s g: %(short)s g are missing.")
            % told
        )
    return _("All open wants need %(need)s g of pure indigo; the jars hold %(held)s g.") % told


def _unknown(shelf: Shelf) -> str:
    told = {"jars": ", ".join(shelf.unknown), "others": ", ".join(shelf.left_out)}
    if shelf.unknown:
        return _("Not counted, since nobody knows their indigo: %(jars)s. Assay them.") % told
    return _("Not counted, since so many cannot be mixed at once: %(others)s.") % told if shelf.left_out else ""


def _vat(found: LotsAnswer, shelf: Shelf, volume_l: float, vat: Mapping[str, str]) -> str:
    """The plan of a vat of this mix: its jars with what to take of each."""
    asked = {
        **vat, "volume": f"{volume_l:g} L", "opened": "opened",
        "wanted": f"{min(max(found.inputs.pure_g / volume_l, 0.02), 20.0):.3g}",
    }  # fmt: skip
    if len(found.parts) == 1:
        asked["jar"] = shelf.keys[found.parts[0].name]
    else:
        parts = [(shelf.keys[part.name], part.take_g) for part in found.parts]
        asked |= {"jar": MIX, "mix": mix_written(parts)}
    return f"{reverse('vats.plan')}?{urlencode(asked)}"
