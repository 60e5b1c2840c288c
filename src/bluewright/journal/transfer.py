"""A whole garden out into one JSON file, and such a file into another installation: all of it or nothing.

The file is plain: for each kind of row a list of objects with the columns of its table, times in ISO 8601, people by
name. Deleted rows stay behind, but for beds whose pickings still name them. Keys go along, so that a garden cannot
come in twice.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any, Final

from django.contrib.auth import get_user_model
from django.core.exceptions import ValidationError
from django.core.serializers.json import DjangoJSONEncoder
from django.db import models, transaction

from bluewright import __version__
from bluewright.journal.loggers import carrying as logged
from bluewright.journal.models import (
    Airing,
    AirTemp,
    Alkali,
    AlkaliPart,
    Assay,
    Batch,
    Bed,
    BedLook,
    BedPast,
    CallSeen,
    Card,
    CardRegistration,
    DaysAway,
    Dip,
    Drying,
    EdgeReading,
    Garden,
    HomeTest,
    Intake,
    Jar,
    JarFrom,
    JarLook,
    JarStep,
    JarTaken,
    JarTest,
    KitItem,
    Ladder,
    LadderDip,
    LadderRung,
    LawCheck,
    LeftOut,
    Limits,
    LiquorLook,
    Measured,
    OthersTaught,
    Photo,
    PickedFrom,
    Picking,
    Piece,
    PlanBasis,
    Poured,
    RainDay,
    Reading,
    Schedule,
    Standing,
    StationDay,
    Steep,
    SteepLeaf,
    Strain,
    Supply,
    Swatch,
    Trial,
    TrialTub,
    Vat,
    VatAddition,
    VatPoured,
    VatReading,
    Want,
    WaterNote,
    Weighing,
    WorkNote,
    YieldSeen,
)
from bluewright.journal.photos import carrying, store
from bluewright.science.base.errors import InputError

FORMAT: Final = "bluewright garden"
VERSION: Final = 1
KINDS: Final[dict[str, tuple[type[models.Model], str]]] = {
    "beds": (Bed, "garden"),
    "law_checks": (LawCheck, "garden"),
    "pickings": (Picking, "garden"),
    "picked_from": (PickedFrom, "picking__garden"),
    "steeps": (Steep, "garden"),
    "steep_leaf": (SteepLeaf, "steep__garden"),
    "readings": (Reading, "steep__garden"),
    "strains": (Strain, "steep__garden"),
    "left_out": (LeftOut, "garden"),
    "others_taught": (OthersTaught, "garden"),
    "intakes": (Intake, "garden"),
    "station_days": (StationDay, "intake__garden"),
    "air_temps": (AirTemp, "garden"),
    "rain_days": (RainDay, "garden"),
    "water_notes": (WaterNote, "bed__garden"),
    "bed_looks": (BedLook, "bed__garden"),
    "bed_past": (BedPast, "bed__garden"),
    "calls_seen": (CallSeen, "steep__garden"),
    "alkalis": (Alkali, "garden"),
    "batches": (Batch, "garden"),
    "poured": (Poured, "into__garden"),
    "liquor_looks": (LiquorLook, "batch__garden"),
    "alkali_parts": (AlkaliPart, "batch__garden"),
    "jar_tests": (JarTest, "batch__garden"),
    "jar_steps": (JarStep, "jar_test__batch__garden"),
    "airings": (Airing, "batch__garden"),
    "standings": (Standing, "batch__garden"),
    "edges": (EdgeReading, "standing__batch__garden"),
    "dryings": (Drying, "batch__garden"),
    "weighings": (Weighing, "drying__batch__garden"),
    "jars": (Jar, "garden"),
    "jar_from": (JarFrom, "jar__garden"),
    "jar_taken": (JarTaken, "jar__garden"),
    "yields_seen": (YieldSeen, "jar__garden"),
    "assays": (Assay, "jar__garden"),
    "vats": (Vat, "garden"),
    "vat_additions": (VatAddition, "vat__garden"),
    "vat_poured": (VatPoured, "vat__garden"),
    "vat_readings": (VatReading, "vat__garden"),
    "pieces": (Piece, "garden"),
    "dips": (Dip, "piece__garden"),
    "home_tests": (HomeTest, "piece__garden"),
    "swatches": (Swatch, "garden"),
    "ladders": (Ladder, "garden"),
    "ladder_rungs": (LadderRung, "ladder__garden"),
    "ladder_dips": (LadderDip, "ladder__garden"),
    "trials": (Trial, "garden"),
    "trial_tubs": (TrialTub, "trial__garden"),
    "work_notes": (WorkNote, "garden"),
    "kit": (KitItem, "garden"),
    "supplies": (Supply, "garden"),
    "wants": (Want, "garden"),
    "plan_bases": (PlanBasis, "garden"),
    "limits": (Limits, "garden"),
    "days_away": (DaysAway, "garden"),
    "schedules": (Schedule, "garden"),
    "cards": (Card, "garden"),
    "card_registrations": (CardRegistration, "card__garden"),
}
"""Every kind of row of a garden with its path to it, in an order in which each finds what it refers to."""
PHOTOS: Final = "photos"
"""Beside them: each with its picture, see `photos.carrying`."""
OF_PHOTOS: Final[dict[str, tuple[type[models.Model], str]]] = {
    "measured": (Measured, "photo__garden"),
    "jar_looks": (JarLook, "measured__photo__garden"),
}
"""Rows that refer to photos: they come in after them, and go along only where the photos do."""
LOGGED: Final = "logged"
"""And the temperatures of loggers, see `loggers.carrying`."""
PEOPLE: Final = frozenset({"made_by_id", "changed_by_id"})
LOOSE: Final = frozenset({
    (Swatch, "jar_id"), (Swatch, "piece_id"), (VatAddition, "taken_id"),
    (VatPoured, "source_id"), (Ladder, "vat_id"), (LadderRung, "swatch_id"),
    (TrialTub, "steep_id"),
    (WorkNote, "batch_id"), (WorkNote, "steep_id"), (WorkNote, "bed_id"), (WorkNote, "vat_id"), (WorkNote, "piece_id"),
})  # fmt: skip
"""Columns that are left empty where what they name stays behind: the row itself goes along."""


def take_out(garden: Garden) -> str:
    """The garden as JSON text, with its photos."""
    return "".join(parts(garden))


def parts(garden: Garden, *, photos: bool = True) -> Iterator[str]:
    """The garden as JSON text in parts, one photo at a time, so that a garden with many need not fit in memory."""
    names = dict(get_user_model().objects.values_list("pk", "username"))
    whole: dict[str, Any] = {"format": FORMAT, "version": VERSION, "program": __version__}
    whole["garden"] = _plain(garden, names)
    standing: dict[type[models.Model], set[Any]] = {Garden: {garden.pk}}
    for kind, (model, path) in KINDS.items():
        rows = [row for row in _rows(model, path, garden) if _stands(row, standing)]
        standing[model] = {row.pk for row in rows}
        whole[kind] = [_plain(_loosened(row, standing), names) for row in rows]
    whole[LOGGED] = logged.along(standing[Intake])
    along = carrying.along(garden, standing) if photos else []
    standing[Photo] = {photo.pk for photo in along}
    for kind, (model, path) in OF_PHOTOS.items():
        rows = [row for row in _rows(model, path, garden) if _stands(row, standing)]
        standing[model] = {row.pk for row in rows}
        whole[kind] = [_plain(row, names) for row in rows]
    text = json.dumps(whole, cls=DjangoJSONEncoder, ensure_ascii=False, indent=1)
    if not along:
        yield text
        return
    yield text.removesuffix("\n}") + f',\n "{PHOTOS}": [\n'
    plain = {photo.pk: _plain(photo, names) for photo in along}
    for index, row in enumerate(carrying.carried(along, plain)):
        yield (",\n" if index else "") + json.dumps(row, cls=DjangoJSONEncoder, ensure_ascii=False)
    yield "\n ]\n}"


def bring_in(text: str | bytes, *, by: Any) -> Garden:
    """The garden of a file, written whole.

    Raises InputError, and writes nothing, if the file is not such a garden, is newer than this program, has a column
    that does not fit, or holds a garden that is here already.
    """
    whole = _read(text)
    with transaction.atomic():
        garden: Garden = _row(Garden, whole["garden"], where="garden", by=by)
        if Garden.everything.filter(pk=garden.pk).exists():
            raise InputError(where="garden", what=f"{garden.name} is here already", right="open it instead")
        garden.save(force_insert=True)
        _bring_rows(whole, KINDS, by=by)
        logged.bring(whole.get(LOGGED, []), into=garden, by=by)
        _bring_photos(garden, whole, by=by)
    return garden


def _bring_rows(whole: dict[str, Any], kinds: dict[str, tuple[type[models.Model], str]], *, by: Any) -> None:
    for kind, (model, _) in kinds.items():
        for index, plain in enumerate(whole.get(kind, [])):
            where = f"{kind}[{index}]"
            row = _row(model, plain, where=where, by=by)
            _check(row, where=where)
            row.save(force_insert=True)


def _bring_photos(garden: Garden, whole: dict[str, Any], *, by: Any) -> None:
    """Write the photos of a file and what refers to them; if one does not fit, no file of any stays."""
    brought: list[Photo] = []
    try:
        for index, plain in enumerate(whole.get(PHOTOS, [])):
            where = f"{PHOTOS}[{index}]"
            told, picture = carrying.parted(plain)
            photo: Photo = _row(Photo, told, where=where, by=by)
            _check(photo, where=where)
            carrying.bring_picture(photo, picture, into=garden, where=where)
            brought.append(photo)
            photo.save(force_insert=True)
        _bring_rows(whole, OF_PHOTOS, by=by)
    except BaseException as error:
        for photo in brought:
            store.remove(photo)
        if isinstance(error, OSError):
            what = f"they could not be written ({error.strerror})"
            raise InputError(where=PHOTOS, what=what, right="make room on the disk") from None
        raise


def _rows(model: type[models.Model], path: str, garden: Garden) -> models.QuerySet[Any]:
    """The rows of a kind that are not deleted, and the deleted beds that pickings still name."""
    rows = model._default_manager.filter(**{path: garden})
    if model is AirTemp:
        rows = rows.filter(intake=None)
    if model is Bed:
        named = models.Exists(PickedFrom.objects.filter(bed=models.OuterRef("pk"), picking__deleted_at=None))
        rows = Bed.everything.filter(models.Q(deleted_at=None) | named, garden=garden)
    return rows.order_by("pk")


def _stands(row: models.Model, standing: dict[type[models.Model], set[Any]]) -> bool:
    """Whether everything that a row refers to goes along: what belongs to a deleted row stays behind with it."""
    return all(
        getattr(row, column.attname) in standing.get(column.related_model, set())
        for column in row._meta.concrete_fields
        if isinstance(column, models.ForeignKey)
        and column.attname not in PEOPLE
        and (type(row), column.attname) not in LOOSE
        and getattr(row, column.attname) is not None
    )


def _loosened(row: models.Model, standing: dict[type[models.Model], set[Any]]) -> models.Model:
    """The row, with what it need not name left empty where that stays behind."""
    for column in row._meta.concrete_fields:
        loose = (type(row), column.attname) in LOOSE
        if loose and getattr(row, column.attname) not in standing.get(column.related_model, set()):  # type: ignore[arg-type]
            setattr(row, column.attname, None)
    return row


def _plain(row: models.Model, names: dict[Any, str]) -> dict[str, Any]:
    """The columns of a row; people by name, automatic numbers left out."""
    found = {}
    for column in row._meta.concrete_fields:
        value = getattr(row, column.attname)
        if isinstance(column, models.AutoField | models.BigAutoField):
            continue
        if column.attname == "deleted_at" and value is None:
            continue
        if isinstance(value, datetime):
            value = value.isoformat()  # to the microsecond, which Django's own encoder would cut off
        found[column.attname] = names.get(value) if column.attname in PEOPLE else value
    return found


def _read(text: str | bytes) -> dict[str, Any]:
    try:
        whole = json.loads(text)
    except ValueError as error:
        raise InputError(where="file", what=f"it is not JSON ({error})", right="choose a file taken out here") from None
    if not isinstance(whole, dict) or whole.get("format") != FORMAT or not isinstance(whole.get("garden"), dict):
        raise InputError(where="file", what="it is not a garden of Bluewright", right="choose a file taken out here")
    if whole.get("version") != VERSION:
        raise InputError(
            where="version",
            what=f"it is of version {whole.get('version')!r}, which this program does not read",
            right=f"update the program; it reads version {VERSION}",
        )
    wrong = [kind for kind in (*KINDS, *OF_PHOTOS, PHOTOS) if not isinstance(whole.get(kind, []), list)]
    if wrong:
        raise InputError(where=wrong[0], what="it is not a list", right="choose a file taken out here")
    return whole


def _row(model: type[models.Model], plain: Any, *, where: str, by: Any) -> Any:
    """A row of a model from its columns; whoever wrote it first is known by name only and stands as who brings it."""
    known = {column.attname: column for column in model._meta.concrete_fields}
    strange = sorted(set(plain) - set(known)) if isinstance(plain, dict) else ["(not an object)"]
    if strange:
        raise InputError(where=f"{where}.{strange[0]}", what="there is no such column", right="update the program")
    values: dict[str, Any] = {}
    for name, value in plain.items():
        if name in PEOPLE:
            values[name] = by.pk if value else None
            continue
        try:
            read = known[name].to_python(value)
        except ValidationError as error:
            raise InputError(where=f"{where}.{name}", what=" ".join(error.messages), right="mend the file") from None
        values[name] = read.replace(tzinfo=read.tzinfo or UTC) if isinstance(read, datetime) else read
    return model(**values)


def _check(row: models.Model, *, where: str) -> None:
    """Refuse a row that the journal could not have written itself."""
    try:
        row.full_clean(exclude={"made_by", "changed_by"})
    except ValidationError as error:
        name, messages = next(iter(error.message_dict.items()))
        raise InputError(where=f"{where}.{name}", what=" ".join(messages), right="mend the file") from None
