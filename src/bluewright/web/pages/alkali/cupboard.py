"""What the cupboard shows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.models import Alkali
from bluewright.science.alkali.hazards import on_the_shelf
from bluewright.science.alkali.titrant import titrant
from bluewright.science.media.alkalis import KINDS
from bluewright.words.numbers import figure
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Bottle:
    """One alkali of the cupboard."""

    key: str
    name: str
    kind: str
    strength: str
    """As typed, with the moles in a litre where it is a solution."""
    measured: str
    """`by the millilitre` or `by the gram`."""
    uses: str
    """What rests on it; empty for one that was not used."""
    used_up: bool
    note: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CupboardPage:
    """All alkalis of a garden."""

    at_hand: tuple[Bottle, ...]
    used_up: tuple[Bottle, ...]


def cupboard_page(alkalis: Iterable[Any]) -> CupboardPage:
    """The cupboard; each alkali with its counts (`queries.alkalis`)."""
    bottles = [bottle(one, parts=one.part_count, jars=one.jar_count) for one in alkalis]
    return CupboardPage(
        at_hand=tuple(one for one in bottles if not one.used_up),
        used_up=tuple(one for one in bottles if one.used_up),
    )


def bottle(alkali: Alkali, *, parts: int, jars: int) -> Bottle:
    """An alkali in words."""
    record = alkali_record(alkali)
    return Bottle(
        key=str(alkali.pk),
        name=alkali.name,
        kind=alkali.get_kind_display(),
        strength=strength(alkali),
        measured=_("measured by the millilitre") if record.unit == "ml" else _("weighed in grams"),
        uses=uses(parts, jars),
        used_up=alkali.used_up,
        note=alkali.note,
        cautions=tuple(own_text(caution.text) for caution in on_the_shelf(record)),
    )


def strength(alkali: Alkali) -> str:
    """`9.5 % as ammonia, about 5.4 mol/L, opened`."""
    made, kind = titrant(alkali_record(alkali)), KINDS[alkali_record(alkali).kind]
    if not made.dissolved:
        return _("dry, as it comes (%(molar)s g/mol)") % {"molar": f"{kind.molar.value:g}"}
    molar = figure(1000.0 * made.nominal_mol)
    if alkali.percent_w_w is None and alkali.mol_per_l is None:
        return _("no strength given; about %(molar)s mol/L is taken, within wide bounds") % {"molar": molar}
    said = [alkali.strength_typed or _written(alkali)]
    if alkali.kind == "ammonia" and alkali.percent_w_w is not None:
        said[0] = (_("%(strength)s as NH4OH") if alkali.label_as == "nh4oh" else _("%(strength)s as NH3")) % {
            "strength": said[0]
        }
    said.append(_("%(molar)s mol/L") % {"molar": molar})
    if alkali.opened:
        said.append(_("opened"))
    return ", ".join(dict.fromkeys(said))


def uses(parts: int, jars: int) -> str:
    """`3 parts in batches, 1 jar titration`."""
    said = []
    if parts:
        said.append(ngettext("%(count)d part in a batch", "%(count)d parts in batches", parts) % {"count": parts})
    if jars:
        said.append(ngettext("%(count)d jar titration", "%(count)d jar titrations", jars) % {"count": jars})
    return ", ".join(said)


def _written(alkali: Alkali) -> str:
    return f"{alkali.percent_w_w:g} %" if alkali.percent_w_w is not None else f"{alkali.mol_per_l:g} mol/L"
