"""What the story of a piece is told from: its rows, its thread, the photo that an address chooses."""

from __future__ import annotations

from urllib.parse import urljoin
from uuid import UUID

from django.conf import settings
from django.http import HttpRequest
from django.urls import reverse

from bluewright.journal.models import Garden
from bluewright.journal.photos import store
from bluewright.journal.queries import photos, threads
from bluewright.journal.queries.alkalis import parts_of
from bluewright.journal.queries.threads import Thing
from bluewright.web.pages.cloth.story_page import StoryPage, story_page
from bluewright.web.ui.found import or_404, the_piece


def told_story(request: HttpRequest, garden: Garden, key: UUID, *, printed: bool = False) -> StoryPage:
    """The story of a piece of this garden; with `printed` it carries its photo along. Raises Http404."""
    row = the_piece(garden, key)
    thread = or_404(threads.thread(Thing("piece", key), of=garden), "piece in this garden")
    pictures = photos.of_things([key], of=garden).get(key, [])
    chosen = next((one for one in pictures if str(one.pk) == request.GET.get("photo")), None)
    way = reverse("cloth.story", kwargs={"key": key})
    jpeg = b""
    if printed and chosen is not None and store.path(chosen, "1600").exists():
        jpeg = store.path(chosen, "1600").read_bytes()
    return story_page(
        row, thread=thread, alkalis=parts_of(thread.batches), photos=pictures, chosen=chosen,
        address=urljoin(settings.DOOR or request.build_absolute_uri("/"), way), in_house=bool(settings.DOOR),
        jpeg=jpeg,
    )  # fmt: skip
