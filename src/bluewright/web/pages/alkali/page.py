"""What the dose page shows: how much, in which parts, what went in, and when it is enough."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.charts.answers import dose_chart
from bluewright.journal.bridge import doses
from bluewright.journal.bridge.batches import alkali_record, latest, liquor_record
from bluewright.journal.bridge.dosing import Dosing, dosing
from bluewright.journal.models import Alkali, Batch
from bluewright.science.alkali.hazards import AMMONIA_WITHIN, BLEACH_AND_AMMONIA, on_the_shelf
from bluewright.science.alkali.record import DoseAnswer, LiquorRecord
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.web.pages.alkali.cupboard import strength
from bluewright.web.pages.alkali.rows import JarRow, LookRow, PartRow, jar_rows, look_rows, part_rows
from bluewright.web.pages.batches.head import BatchHead, batch_head
from bluewright.web.ui.why import Link, main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words.alkali import ph_band, said
from bluewright.words.measures import dosed, dosed_band
from bluewright.words.numbers import ranged, sentence
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The dose in words."""

    first: str
    """How much to add now, in the grower's own measures; empty while a reading is due or nothing is to come."""
    then: str
    """What to do after it, in one sentence."""
    figures: tuple[tuple[str, str], ...]
    """Name and value of each figure."""
    chart: str
    """SVG text."""
    to_know: tuple[str, ...]
    """What to know about the work or the figures."""
    why: Link
    """Where it says why the dose is so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DosePage:
    """The alkali of one batch."""

    head: BatchHead
    alkali: str
    """Key of the chosen alkali; empty where the cupboard is."""
    alkali_name: str
    strength: str
    wanted: str
    """The wanted pH."""
    stands: str
    """What was read last, in one line."""
    enough: str
    """That the wanted pH is reached; empty before."""
    air: str
    """Where it is aired."""
    aired: bool
    """Whether airing has begun."""
    due: str
    """That a pH must be read before anything more goes in; empty where none must."""
    trouble: str
    """Why there is no dose; empty where there is one."""
    mixed: str
    """How parts of other alkalis count; empty where there are none."""
    answer: Answer | None
    take_care: tuple[str, ...]
    """What could hurt someone: with this dose's figures, or of the alkali itself where there is no dose."""
    parts: tuple[PartRow, ...]
    looks: tuple[LookRow, ...]
    jars: tuple[JarRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A batch and an alkali, worked out as far as the rows allow."""

    known: Dosing
    record: LiquorRecord | None = None
    answer: DoseAnswer | None = None
    trouble: str = ""


def work_out(batch: Batch, alkali: Alkali | None) -> Worked:
    """The dose, or why there is none."""
    known = dosing(batch, alkali=alkali)
    if alkali is None:
        return Worked(known=known)
    try:
        record = liquor_record(batch, alkali=alkali)
        return Worked(known=known, record=record, answer=doses.dose(record))
    except InputError as error:
        return Worked(known=known, trouble=sentence(own_text(f"{error.what}; {error.right}.")))
    except BluewrightError as error:
        return Worked(known=known, trouble=sentence(own_text(f"{error}.")))


def dose_page(batch: Batch, alkali: Alkali | None) -> DosePage:
    """The page of a whole batch with the chosen alkali."""
    worked = work_out(batch, alkali)
    known, zone = worked.known, ZoneInfo(batch.garden.time_zone)
    enough = said_enough(batch, known)
    answer = None if enough or worked.answer is None else _answer(worked, worked.answer, address=why_of(batch, alkali))
    return DosePage(
        head=batch_head(batch),
        alkali=str(alkali.pk) if alkali is not None else "",
        alkali_name=alkali.name if alkali is not None else "",
        strength=strength(alkali) if alkali is not None else "",
        wanted=f"{batch.target_ph:g}",
        stands=_stands(batch, known),
        enough=enough,
        air=reverse("airing.show", kwargs={"key": batch.pk}),
        aired=bool(batch.airings.all()),
        due="" if enough else _due(batch, worked),
        trouble="" if enough else worked.trouble,
        mixed=_mixed(known),
        answer=answer,
        take_care=take_care(alkali, worked),
        parts=part_rows(batch, zone),
        looks=look_rows(batch, zone),
        jars=jar_rows(batch, zone, counts=known.jar),
    )


def said_enough(batch: Batch, known: Dosing) -> str:
    """That the pH last read is the wanted one within a reading's error; empty before, or with more in than was read."""
    if known.last_ph is None or known.unread or known.last_ph < batch.target_ph - batch.ph_sd:
        return ""
    if batch.airings.all():
        return _("pH %(ph)s was enough, and it has been aired since.") % {"ph": f"{known.last_ph:g}"}
    if known.last_ph > batch.target_ph + batch.ph_sd:
        return _("That is more than enough: pH %(ph)s. Add no more; air it now.") % {"ph": f"{known.last_ph:g}"}
    return _("That is enough: pH %(ph)s. Air it now.") % {"ph": f"{known.last_ph:g}"}


def _answer(worked: Worked, found: DoseAnswer, *, address: Callable[[str], str]) -> Answer:
    words = said(found)
    due, unit = worked.known.unread, found.dose.unit
    whole = found.first_part == found.dose.p50
    return Answer(
        first="" if due or not found.dose.p50 else dosed(found.first_part, unit),
        then=(
            _("Stir it in. Wait two minutes. Read the pH and write it down below.")
            if whole
            else _("That is a first part. Stir it in. Wait two minutes. Read the pH and write both down below.")
        ),
        figures=tuple(_figures(found, known=worked.known)),
        chart=dose_chart(found, doses.titration(found.inputs), answer=words.first),
        to_know=words.to_know,
        why=main_why(found, address=address),
    )


def why_of(batch: Batch, alkali: Alkali | None) -> Callable[[str], str]:
    """Where it says why a figure of the dose of this alkali is so."""
    plain = why_address("alkali.why", key=batch.pk)
    return plain if alkali is None else lambda figure: f"{plain(figure)}?alkali={alkali.pk}"


def _figures(found: DoseAnswer, *, known: Dosing) -> Iterator[tuple[str, str]]:
    unit = found.dose.unit
    dose = Band(p5=found.dose.p5, p50=found.dose.p50, p95=found.dose.p95)
    name = _("Still to come, after the last pH") if found.inputs.added_so_far else _("All of it, likely")
    yield name, dosed_band(dose, unit)
    if known.since_reading:
        yield _("Of that, in already"), dosed(known.since_reading, unit)
    yield _("pH with all of it"), ph_band(found.ph_after)
    yield _("pH if twice as much went in"), ph_band(found.ph_if_doubled)
    if found.calcite_g.p95:
        yield _("Chalk that may fall with the blue"), dosed_band(found.calcite_g, "g")
    if found.ammonia_room_ppm is not None:
        yield _("Ammonia in the air of the room"), ranged(found.ammonia_room_ppm, "ppm")


def take_care(alkali: Alkali | None, worked: Worked) -> tuple[str, ...]:
    """What could hurt someone: with the dose's figures, or of the alkali itself; and of ammonia that is in already."""
    if alkali is None:
        return ()
    within = alkali.kind != "ammonia" and any(part.alkali.kind == "ammonia" for part in worked.known.parts)
    before = (AMMONIA_WITHIN.text, BLEACH_AND_AMMONIA.text) if within else ()
    if worked.answer is not None:
        return (*before, *said(worked.answer).take_care)
    return (*before, *(own_text(caution.text) for caution in on_the_shelf(alkali_record(alkali))))


def _stands(batch: Batch, known: Dosing) -> str:
    temp_c = latest(batch.looks.all(), "temp_c")
    temp = next((look.temp_typed for look in reversed(batch.looks.all()) if look.temp_c == temp_c), "")
    read = [
        _("pH %(ph)s") % {"ph": f"{known.last_ph:g}"} if known.last_ph is not None else _("no pH read yet"),
        temp if temp_c is not None else _("no temperature read yet"),
    ]
    return ", ".join(read)


def _due(batch: Batch, worked: Worked) -> str:
    """The last part has no pH: it must be read before anything more goes in."""
    parts = list(batch.alkali_parts.all())
    if not worked.known.unread or not parts:
        return ""
    last = parts[-1]
    return _("%(amount)s of %(alkali)s went in and no pH was read since. Stir, wait two minutes, read it, and write it "
             "down here before the next part.") % {"amount": last.added_typed, "alkali": last.alkali.name}  # fmt: skip


def _mixed(known: Dosing) -> str:
    others = [part for part in known.settled if part.alkali_id != known.alkali_id]
    if not others:
        return ""
    names = ", ".join(dict.fromkeys(part.alkali.name for part in others))
    if known.blind:
        return _("Another alkali is in it: %(names)s.") % {"names": names}
    return _(
        "Another alkali is in it: %(names)s. The dose is reckoned from the pH read after it (%(ph)s) as if the liquor "
        "had come so; what that alkali brought along is not known to it. Take it in small parts."
    ) % {"names": names, "ph": f"{known.ph:g}"}
