"""What the page of things taken out shows."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from operator import attrgetter
from typing import Final
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.journal.models import (
    Assay,
    Batch,
    Bed,
    BedLook,
    BedPast,
    Card,
    CardRegistration,
    DaysAway,
    Dip,
    Garden,
    HomeTest,
    Intake,
    Jar,
    JarTaken,
    Kept,
    KitItem,
    Ladder,
    LadderRung,
    LawCheck,
    LeftOut,
    OthersTaught,
    Photo,
    Picking,
    Piece,
    Reading,
    Steep,
    Strain,
    Supply,
    Swatch,
    Trial,
    Vat,
    VatAddition,
    VatPoured,
    VatReading,
    Want,
    WaterNote,
    WorkNote,
)
from bluewright.journal.models.kept import KEPT_AFTER_DELETE
from bluewright.words.numbers import moment


@dataclass(frozen=True, slots=True, kw_only=True)
class GoneRow:
    """One thing that was taken out."""

    said: str
    when: str
    """When it was taken out, and by whom."""
    left: str
    """How long it can still be brought back."""
    back: str
    """Address that brings it back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenOutPage:
    """All that can be brought back."""

    gone: tuple[GoneRow, ...]


BACK: Final[Mapping[type[Kept], tuple[str, Mapping[str, str]]]] = {
    Bed: ("beds.restore", {"key": "pk"}),
    Picking: ("pickings.restore", {"key": "pk"}),
    LawCheck: ("law.restore", {"key": "pk"}),
    LeftOut: ("learned.restore", {"key": "pk"}),
    OthersTaught: ("learned.others_restore", {"key": "pk"}),
    Steep: ("tubs.restore", {"key": "pk"}),
    Reading: ("tubs.restore_reading", {"key": "steep_id", "reading": "pk"}),
    Batch: ("batches.restore", {"key": "pk"}),
    Jar: ("jars.restore", {"key": "pk"}),
    JarTaken: ("jars.take_again", {"key": "jar_id", "taken": "pk"}),
    Assay: ("assays.restore", {"row": "pk"}),
    Photo: ("photos.restore", {"key": "pk"}),
    Intake: ("intake.restore", {"key": "pk"}),
    Card: ("cards.restore", {"key": "pk"}),
    CardRegistration: ("cards.restore_registration", {"key": "card_id", "row": "pk"}),
    Piece: ("cloth.restore", {"key": "pk"}),
    Dip: ("cloth.restore_dip", {"key": "piece_id", "row": "pk"}),
    HomeTest: ("cloth.restore_test", {"key": "piece_id", "row": "pk"}),
    Swatch: ("swatches.restore", {"key": "pk"}),
    Ladder: ("ladders.restore", {"key": "pk"}),
    LadderRung: ("ladders.restore_strip", {"key": "ladder_id", "row": "pk"}),
    Trial: ("compare.restore", {"key": "pk"}),
    Want: ("plan.restore", {"key": "pk"}),
    WaterNote: ("watering.restore", {"key": "bed_id", "row": "pk"}),
    BedLook: ("growing.restore", {"key": "bed_id", "row": "pk"}),
    DaysAway: ("schedule.restore", {"row": "pk"}),
    BedPast: ("past.restore", {"key": "bed_id", "row": "pk"}),
    WorkNote: ("costs.restore", {"key": "pk"}),
    KitItem: ("kit.restore", {"key": "pk"}),
    Supply: ("supplies.restore", {"key": "pk"}),
    Vat: ("vats.restore", {"key": "pk"}),
    VatAddition: ("vats.restore_addition", {"key": "vat_id", "row": "pk"}),
    VatPoured: ("vats.restore_poured", {"key": "vat_id", "row": "pk"}),
    VatReading: ("vats.restore_reading", {"key": "vat_id", "row": "pk"}),
    Strain: ("tubs.restore_strain", {"key": "steep_id", "straining": "pk"}),
}
"""For each kind the name of the page that brings it back, and the keys of its address with their columns."""


SAID: Final = {
    Bed: (gettext_lazy("Bed %(name)s"), "name", ""),
    LeftOut: (gettext_lazy("Left out of the memory: %(name)s, written %(when)s"), "why", "made_at"),
    OthersTaught: (gettext_lazy("What other gardens taught: %(name)s, taken in %(when)s"), "name", "made_at"),
    LawCheck: (gettext_lazy("Check of the law with %(name)s, written %(when)s"), "whom", "made_at"),
    Picking: (gettext_lazy("Picking of %(name)s, %(when)s"), "leaf_typed", "picked_at"),
    Steep: (gettext_lazy("Tub %(name)s, begun %(when)s"), "name", "started_at"),
    Reading: (gettext_lazy("Look at %(name)s, %(when)s"), "steep.name", "taken_at"),
    BedLook: (gettext_lazy("Look at %(name)s, written %(when)s"), "bed.name", "made_at"),
    DaysAway: (gettext_lazy("Days away from %(name)s, written %(when)s"), "first", "made_at"),
    BedPast: (gettext_lazy("What grew in %(name)s, written %(when)s"), "bed.name", "made_at"),
    Strain: (gettext_lazy("Straining of %(name)s, %(when)s"), "steep.name", "strained_at"),
    Trial: (gettext_lazy("Trial %(name)s, laid down %(when)s"), "name", "laid_down_at"),
    Want: (gettext_lazy("Want %(name)s, written %(when)s"), "name", "made_at"),
    WaterNote: (gettext_lazy("Water of %(name)s, written %(when)s"), "bed.name", "made_at"),
    Batch: (gettext_lazy("Batch %(name)s, begun %(when)s"), "name", "begun_at"),
    Jar: (gettext_lazy("Jar %(name)s, filled %(when)s"), "name", "filled_at"),
    JarTaken: (gettext_lazy("%(name)s out of a jar, %(when)s"), "taken_typed", "taken_at"),
    Assay: (gettext_lazy("Assay of %(name)s, %(when)s"), "jar.name", "assayed_at"),
    Vat: (gettext_lazy("Vat %(name)s, set %(when)s"), "name", "started_at"),
    VatAddition: (gettext_lazy("What went into %(name)s, %(when)s"), "vat.name", "added_at"),
    VatPoured: (gettext_lazy("Water into %(name)s, %(when)s"), "vat.name", "poured_at"),
    VatReading: (gettext_lazy("Look at %(name)s, %(when)s"), "vat.name", "taken_at"),
    Photo: (gettext_lazy("Photo of a %(name)s, %(when)s"), "about_kind", "taken_at"),
    Intake: (gettext_lazy("Logger's file %(name)s, of %(when)s"), "file_name", "made_at"),
    Piece: (gettext_lazy("Piece %(name)s, written %(when)s"), "name", "made_at"),
    Dip: (gettext_lazy("Dip of %(name)s, %(when)s"), "piece.name", "began_at"),
    HomeTest: (gettext_lazy("Home test of %(name)s, %(when)s"), "piece.name", "done_at"),
    Ladder: (gettext_lazy("Ladder %(name)s, begun %(when)s"), "name", "begun_at"),
    LadderRung: (gettext_lazy("A strip of %(name)s, written %(when)s"), "ladder.name", "made_at"),
    Swatch: (gettext_lazy("Swatch %(name)s, measured %(when)s"), "name", "measured_at"),
    KitItem: (gettext_lazy("Of the kit: %(name)s, written %(when)s"), "name", "made_at"),
    Supply: (gettext_lazy("A pack of supplies, %(name)s, written %(when)s"), "pack_typed", "made_at"),
    WorkNote: (gettext_lazy("Work, %(name)s, begun %(when)s"), "what", "began_at"),
    Card: (gettext_lazy("Card %(name)s for photos, printed %(when)s"), "number", "printed_at"),
    CardRegistration: (gettext_lazy("Registration of card %(name)s, %(when)s"), "card.number", "registered_at"),
}
"""For each kind the words, the column that names it, and the column of its time."""


def taken_out_page(
    garden: Garden, rows: Sequence[Kept], *, now: datetime, may_post: Callable[[str], bool]
) -> TakenOutPage:
    """The page of all that was taken out and that the asker may bring back: `may_post` says so by an address's name."""
    zone = ZoneInfo(garden.time_zone)
    return TakenOutPage(gone=tuple(_gone(row, zone, now) for row in rows if may_post(BACK[type(row)][0])))


def _gone(row: Kept, zone: ZoneInfo, now: datetime) -> GoneRow:
    name, keys = BACK[type(row)]
    since = row.deleted_at or now
    days = max(int((since + KEPT_AFTER_DELETE - now).total_seconds() // (24 * 3600)), 0)
    told = {"when": moment(since.astimezone(zone)), "who": row.changed_by.get_username() if row.changed_by else ""}
    return GoneRow(
        said=_said(row, zone),
        when=(_("taken out %(when)s by %(who)s") if row.changed_by else _("taken out %(when)s")) % told,
        left=ngettext("%(days)s day left", "%(days)s days left", days) % {"days": days},
        back=reverse(name, kwargs={key: getattr(row, column) for key, column in keys.items()}),
    )


def _said(row: Kept, zone: ZoneInfo) -> str:
    """What it was, in words."""
    words, name, time = SAID[type(row)]
    when = moment(attrgetter(time)(row).astimezone(zone)) if time else ""
    return words % {"name": attrgetter(name)(row), "when": when}
