"""The story that goes along with a piece, to a buyer or a class: from the bed to the cloth, and what nobody knows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.journal.models import AlkaliPart, Photo, Piece
from bluewright.journal.queries.pieces import dips_of
from bluewright.journal.queries.threads import Thread
from bluewright.science.vat.recipe_record import Substance
from bluewright.web.pages.cloth.colours import Patch, cloth_swatch, ground, patch
from bluewright.web.pages.cloth.page import test_grade
from bluewright.web.pages.prints.jar_label import square
from bluewright.web.pages.prints.paper import invented_mark, paper_of
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.words.numbers import day, days, sentence
from bluewright.words.vat import SUBSTANCES

MOST_NAMED: Final = 6
"""Of a longer list so many are named."""
REDUCTANTS: Final[dict[str, Any]] = {
    "dithionite": gettext_lazy("sodium dithionite, a reducing salt"),
    "thiourea_dioxide": gettext_lazy("thiourea dioxide, a reducing salt"),
    "fructose": gettext_lazy("fructose, a sugar"),
    "iron": gettext_lazy("iron sulfate"),
    "ferment": gettext_lazy("fermentation: bran and madder feed bacteria that reduce it"),
}
"""What turned the blue soluble, by the kind of vat."""
VAT_ALKALIS: Final[tuple[Substance, ...]] = ("slaked_lime", "soda_ash", "potash", "lye")
CARES: Final[dict[str, Any]] = {
    "wool": gettext_lazy("Wash by hand, lukewarm, with a mild soap; do not wring; dry flat in the shade."),
    "silk": gettext_lazy("Wash by hand, lukewarm, with a mild soap; do not wring; dry in the shade."),
}
CELLULOSE_CARE: Final = gettext_lazy("Wash at 30 °C by itself, with a mild soap; dry in the shade.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """One part of the story."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StoryPage:
    """What goes along with the piece."""

    key: str
    name: str
    garden: str
    invented: str
    """That none of it ever happened; empty for a garden that is there."""
    paper: str
    """`a4` or `us-letter`."""
    opening: str
    patch: Patch
    chapters: tuple[Chapter, ...]
    unknown_title: str
    unknown: tuple[str, ...]
    """What nobody knows of it."""
    label: str
    """That a label may have to say more."""
    photo: str
    """Key of the photo that is shown; empty for none."""
    photos: tuple[Thumb, ...]
    """Photos to choose from."""
    address: str
    """What the square says."""
    in_house: bool
    """Whether phones in the house can open it."""
    qr: str
    """The square, SVG text."""
    qr_says: str
    jpeg: tuple[int, ...]
    """The photo's bytes, where it is to be printed."""


def story_page(
    row: Piece, *, thread: Thread, alkalis: Sequence[AlkaliPart], photos: Sequence[Photo], chosen: Photo | None,
    address: str, in_house: bool, jpeg: bytes = b"",
) -> StoryPage:  # fmt: skip
    """The story of a piece; `alkalis` went into its batches, `chosen` is the photo that is shown."""
    zone = ZoneInfo(row.garden.time_zone)
    return StoryPage(
        key=str(row.pk),
        name=row.name,
        garden=row.garden.name,
        invented=invented_mark(row.garden),
        paper=paper_of(row.garden),
        opening=_opening(row, thread),
        patch=patch(row),
        chapters=tuple(
            Chapter(title=title, lines=tuple(sentence(line) + "." for line in lines))
            for title, lines in _chapters(row, thread, alkalis, zone)
            if lines
        ),
        unknown_title=_("What we do not know"),
        unknown=tuple(_unknown(row, thread)),
        label=_("If it is sold: check your local rules for what a label must say of fibre, maker and care."),
        photo="" if chosen is None else str(chosen.pk),
        photos=thumbs(photos),
        address=address,
        in_house=in_house,
        qr=square(address),
        qr_says=_("Opens this page, only where Bluewright runs: in this house.")
        if in_house
        else _("Opens this page, only on the machine where Bluewright runs."),
        jpeg=tuple(jpeg),
    )


def _opening(row: Piece, thread: Thread) -> str:
    plants = _listed(sorted({bed.get_plant_display() for bed in thread.beds}))
    told = {"fibre": row.get_fibre_display(), "mass": row.mass_typed, "plants": plants, "garden": row.garden.name}
    if not row.dips.all():
        return sentence(_("%(fibre)s, %(mass)s, not dyed yet.") % told)
    if not plants:
        return sentence(_("%(fibre)s, %(mass)s, dyed with indigo at %(garden)s.") % told)
    if _elsewhere(thread):
        return sentence(
            _("%(fibre)s, %(mass)s, dyed with indigo of %(plants)s grown at %(garden)s and with bought indigo.") % told
        )
    return sentence(_("%(fibre)s, %(mass)s, dyed with the indigo of %(plants)s grown at %(garden)s.") % told)


def _chapters(
    row: Piece, thread: Thread, alkalis: Sequence[AlkaliPart], zone: ZoneInfo
) -> Iterator[tuple[str, list[str]]]:
    yield _("Grown and picked"), list(_grown(thread, zone))
    yield _("The blue"), list(_made(thread, alkalis, zone))
    yield _("Dyed"), list(_dyed(row, thread, zone))
    yield _("Its colour"), list(_coloured(row))
    yield _("Home tests, no laboratory's"), list(_tested(row))
    yield _("Care"), [_care(row), _("at first it may leave blue on what is white: wash it apart, wear it with dark")]


def _grown(thread: Thread, zone: ZoneInfo) -> Iterator[str]:
    if thread.beds:
        told = [f"{bed.name} ({bed.get_plant_display()}, {bed.get_origin_display()})" for bed in thread.beds]
        yield _("the leaf grew in %(beds)s") % {"beds": _listed(told)}
    picked = [one.picked_at.astimezone(zone) for one in thread.pickings]
    if picked:
        yield _("it was picked %(when)s") % {"when": days(min(picked), max(picked))}


def _made(thread: Thread, alkalis: Sequence[AlkaliPart], zone: ZoneInfo) -> Iterator[str]:
    if thread.tubs:
        began = [tub.started_at.astimezone(zone) for tub in thread.tubs]
        tubs = ngettext("%(n)d tub", "%(n)d tubs", len(began)) % {"n": len(began)}
        yield _("the leaf steeped in water, %(tubs)s, begun %(when)s; the water took up what becomes the blue") % {
            "tubs": tubs,
            "when": days(min(began), max(began)),
        }
    kinds = sorted({str(part.alkali.get_kind_display()) for part in alkalis})
    if kinds:
        yield _(
            "made alkaline with %(alkalis)s and stirred in the air, the water turned blue; the blue sank, was washed "
            "and dried"
        ) % {"alkalis": _listed(kinds)}
    if thread.jars:
        yield _("until it was dyed with, it was kept in %(jars)s") % {
            "jars": _listed([jar.name for jar in thread.jars])
        }


def _dyed(row: Piece, thread: Thread, zone: ZoneInfo) -> Iterator[str]:
    if row.scour:
        yield _("first it was cleaned: %(how)s") % {"how": row.get_scour_display()}
    for vat in thread.vats:
        into = {added.what for added in vat.additions.all()}
        told = {
            "vat": vat.name, "how": REDUCTANTS[vat.kind],
            "alkalis": _listed([_(SUBSTANCES[what]) for what in VAT_ALKALIS if what in into]),
        }  # fmt: skip
        with_alkali = _(
            "in its vat (%(vat)s) the blue dissolves, yellow-green: by %(how)s, alkaline with %(alkalis)s; no solvent"
        )
        without = _("in its vat (%(vat)s) the blue dissolves, yellow-green: by %(how)s; no solvent")
        yield (with_alkali if told["alkalis"] else without) % told
    dips = dips_of(row)
    if dips:
        first, last = (dip.began_at.astimezone(zone) for dip in (dips[0], dips[-1]))
        dipped = ngettext(
            "it was dipped once, %(when)s; in the air it turned blue",
            "it was dipped %(n)d times, %(when)s; in the air between the dips it turned blue, deeper each time",
            len(dips),
        )
        yield dipped % {"n": len(dips), "when": days(first, last)}
    if row.finished_at is not None and row.finish != "none":
        yield _("then it was %(how)s, %(when)s") % {
            "how": row.get_finish_display(),
            "when": _day(row.finished_at, zone),
        }


def _coloured(row: Piece) -> Iterator[str]:
    if cloth_swatch(row) is not None:
        yield _("%(said)s (CIELAB, D65, 2° observer)") % {"said": patch(row).said}
    if ground(row).colour:
        yield _("before it was dyed: %(said)s") % {"said": ground(row).said}


def _tested(row: Piece) -> Iterator[str]:
    graded = [test for test in row.home_tests.all() if test.grade]
    if graded:
        yield _("grades run from 5, nothing to be seen, to 1, very much")
    for test in graded:
        yield "; ".join(part for part in (str(test.get_kind_display()), test_grade(test), test.how) if part)


def _care(row: Piece) -> str:
    return str(CARES.get(row.fibre, CELLULOSE_CARE)).rstrip(".")


def _unknown(row: Piece, thread: Thread) -> Iterator[str]:
    if _elsewhere(thread):
        yield _("Where the bought indigo in the vat came from, and how it was made.")
    if any(vat.heel_g for vat in thread.vats):
        yield _("From which leaf the blue was that stood in the vat before.")
    if not thread.beds:
        yield _("From which bed the blue is.")
    if cloth_swatch(row) is None:
        yield _("Its colour in figures: it was not measured.")
    if not any(test.grade for test in row.home_tests.all()):
        yield _("How fast the blue is: it was not tried.")
    else:
        yield _("How a laboratory would grade it: the tests were made at home.")
    yield _("How much indigo is on it to the gram, and how it will fade in years of light.")
    yield _("Whether a laboratory could tell this blue from a made one: this page rests on the garden's own records.")


def _elsewhere(thread: Thread) -> bool:
    """Whether powder went into its vats that came out of no jar of the garden."""
    return any(
        added.what == "powder" and added.taken_id is None for vat in thread.vats for added in vat.additions.all()
    )


def _listed(names: Iterable[Any]) -> str:
    found = [str(name) for name in names]
    more = len(found) - MOST_NAMED
    if more <= 0:
        return ", ".join(found)
    rest = ngettext("and %(n)d more", "and %(n)d more", more) % {"n": more}
    return ", ".join([*found[:MOST_NAMED], rest])


def _day(when: datetime, zone: ZoneInfo) -> str:
    return day(when.astimezone(zone))
