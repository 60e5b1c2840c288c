"""Photos on any form: the field, what is done with it, and the small pictures on a page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Final
from uuid import UUID

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest
from django.urls import reverse
from django.utils import timezone
from django.utils.datastructures import MultiValueDict
from django.utils.text import format_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.journal.actions import photos as actions
from bluewright.journal.models import Garden, Photo
from bluewright.journal.photos.preparing import Prepared, prepared
from bluewright.pictures.opening import MOST_FILE_BYTES, check_size
from bluewright.science.base.errors import InputError
from bluewright.words.numbers import moment

MOST_AT_ONCE: Final = 12
MOST_TOGETHER_BYTES: Final = 100_000_000
ACCEPTED: Final = "image/jpeg,image/png,image/webp,image/heic,image/heif,.jpg,.jpeg,.png,.webp,.heic,.heif"


class ManyFiles(forms.FileInput):
    """A file input that takes several."""

    allow_multiple_selected = True

    def __init__(self, accept: str = ACCEPTED) -> None:
        super().__init__(attrs={"accept": accept, "multiple": True})

    def value_from_datadict(self, _data: Any, files: Any, name: str) -> list[Any]:
        """All files of that name."""
        return list(files.getlist(name)) if hasattr(files, "getlist") else []


HELP: Final = gettext_lazy("JPEG, PNG, WEBP or HEIC, {mb} MB each, up to {many} at once.")


class PhotosField(forms.Field):
    """Photos, cleaned to what will be kept of each; a mistake names the file and says what would be right."""

    widget = ManyFiles

    def __init__(self, **options: Any) -> None:
        plain: dict[str, Any] = {
            "label": gettext_lazy("Photos"),
            "help_text": format_lazy(HELP, mb=MOST_FILE_BYTES // 1_000_000, many=MOST_AT_ONCE),
            "error_messages": {"required": gettext_lazy("Choose a photo.")},
        }
        super().__init__(**plain | options)

    def clean(self, value: Any) -> list[Prepared]:
        """Open each file; nothing is written yet."""
        files = list(super().clean(value) or [])
        if len(files) > MOST_AT_ONCE:
            many = {"many": len(files), "most": MOST_AT_ONCE}
            raise ValidationError(_("These are %(many)d photos; send up to %(most)d at once.") % many)
        wrong = [said for file in files if (said := _too_large(file))]
        together = sum(file.size for file in files)
        if not wrong and together > MOST_TOGETHER_BYTES:
            size = {"mb": f"{together / 1e6:.0f}", "most": MOST_TOGETHER_BYTES // 1_000_000}
            wrong = [_("Together they have %(mb)s MB; send up to %(most)d MB at once.") % size]
        if wrong:
            raise ValidationError(wrong)
        return self._opened(files)

    def _opened(self, files: Iterable[Any]) -> list[Prepared]:
        found, wrong = [], []
        for file in files:
            try:
                found.append(prepared(file.read(), now=timezone.localtime()))
            except InputError as error:
                wrong.append(_said(file, error))
        if wrong:
            raise ValidationError(wrong)
        return found


class WithPhotos(forms.Form):
    """A form with photos as its last field. Views give it `sent_files(request)` as its files."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["photos"] = PhotosField(required=False)

    def add_error(self, field: str | None, error: Any) -> None:
        """A browser does not keep the files of a form that comes back: say so beside the mistake."""
        super().add_error(field, error)
        files: Any = self.files
        again = _("Choose the photos again: they were not kept.")
        sent = files and files.getlist("photos")
        if sent and again not in self.errors.get("photos", []):
            self.errors.setdefault("photos", self.error_class()).append(again)


def sent_files(request: HttpRequest) -> MultiValueDict[str, Any] | None:
    """The files of a post; None when the page is only asked for."""
    return request.FILES if request.method == "POST" else None


def keep_photos(request: HttpRequest, ready: Sequence[Prepared], *, garden: Garden, kind: str, key: UUID) -> int:
    """Write the photos of a valid form; if the disk refuses, say so: what they are of is written already.

    Returns how many were written.
    """
    if not ready:
        return 0
    try:
        return len(actions.add_photos(ready, garden=garden, kind=kind, key=key, by=request.user))
    except OSError as error:
        said = {"why": error.strerror or str(error)}
        messages.error(request, _("The photos could not be kept (%(why)s). Make room, then send them again.") % said)
        return 0


def how_many(many: int) -> str:
    """`1 photo`, `3 photos`."""
    return ngettext("%(many)d photo", "%(many)d photos", many) % {"many": many}


@dataclass(frozen=True, slots=True, kw_only=True)
class Thumb:
    """A small picture that leads to its page."""

    key: str
    page: str
    picture: str
    said: str
    """What it shows, for those who do not see it."""


def thumbs(photos: Iterable[Photo]) -> tuple[Thumb, ...]:
    """The small pictures of photos."""
    return tuple(
        Thumb(
            key=str(one.pk),
            page=reverse("photos.show", kwargs={"key": one.pk}),
            picture=reverse("photos.image", kwargs={"key": one.pk, "size": 320}),
            said=_("Photo of %(when)s") % {"when": moment(timezone.localtime(one.taken_at))},
        )
        for one in photos
    )


def _too_large(file: Any) -> str:
    try:
        check_size(file.size)
    except InputError as error:
        return _said(file, error)
    return ""


def _said(file: Any, error: InputError) -> str:
    return f"{file.name}: {error.what}; {error.right}."
