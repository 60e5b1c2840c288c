"""A garden that goes by US measures, read in a US browser: every figure that is computed is in its units.

What was typed stays as typed, so that it is set aside here; grams of pigment, mL of a titration and mg in a litre stay
metric by choice (docs/nomenclature.md).
"""

import html
import re
from typing import Any

import pytest
from django.apps import apps
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Batch, Garden, Jar, Kept, Steep
from bluewright.web.pages.bench.calculators import BY_SLUG
from tests import cast, small_garden
from tests.planted import Planted, planted
from tests.web.checks import url
from tests.web.working import a_drying_batch, a_settling_batch, an_aired_batch

pytestmark = pytest.mark.django_db
METRIC = re.compile(r"[^.;:|]*\d (?:°?C|L|kg|cm|mm|m|m²|m³|g/kg|L/kg|litres?)(?![\w/]).{0,30}")
DAY_FIRST = re.compile(
    r".{0,40}(?:\b\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b|\b\d\d:\d\d\b(?!\s[ap]m)).{0,40}"
)
ALLOWED = (
    "2 lb, 1½ gal, 64 F, 5,5 kg", "21 cm, 8 in", "8 L, 2 gal", "Times of day like 08:00 18:00", "08:00 18:00",
)  # fmt: skip
"""Examples of how it may be typed."""
PUBLISHED = re.compile(
    r"\d{4}-\d\d-\d\d \d\d:\d\d"  # what was typed on the bench, with its year
    r"|at 0 to 50 C, and the base|between 0 and 90 C\. Geo|from 0 to 60 C\. Journal"  # titles of sources
    r"|at 40 and 60 cm between rows"  # another
    r"|Left out: [\d.]+ (?:°C|g/kg|cm)"  # fields of the bench that take no other unit
)
US = {"accept-language": "en-US,en;q=0.9"}


@pytest.fixture(scope="module")
def us_rows(django_db_setup: None, django_db_blocker: Any) -> Planted:
    """The rows of `us_garden`."""
    with django_db_blocker.unblock():
        return planted(a_us_garden)


@pytest.fixture
def us_garden(us_rows: Planted) -> Garden:
    """A garden with something at every stage, whose typed texts are set aside."""
    return us_rows.put_back()


def a_us_garden() -> Garden:
    garden = small_garden.plant(now=timezone.now(), by=None)
    cast.a_jar_from_the_bed(garden)
    a_settling_batch(garden)
    an_aired_batch(garden)
    a_drying_batch(garden, (20.0, 345.0), (4.0, 290.0))
    Garden.objects.update(system="us")
    for model in apps.get_app_config("journal").get_models():
        rows = model.everything if issubclass(model, Kept) else model.objects  # type: ignore[attr-defined]
        for field in model._meta.concrete_fields:
            if field.attname.endswith("_typed"):
                rows.exclude(**{field.attname: ""}).update(**{field.attname: "as typed"})
    return Garden.objects.get(pk=garden.pk)


def text_of(client: Client, where: str) -> str:
    """What a US browser shows of a page."""
    response = client.get(where, headers=US)
    assert response.status_code == 200, where
    page = re.sub(r"<(script|style)\b.*?</\1>", "", response.content.decode(), flags=re.S)
    shown = html.unescape(re.sub(r"\s*<[^>]*>\s*", " | ", page))
    for one in ALLOWED:
        shown = shown.replace(one, "")
    return PUBLISHED.sub("", shown)


def in_us_words(client: Client, where: str) -> None:
    shown = text_of(client, where)
    said = [found[0].strip() for pattern in (METRIC, DAY_FIRST) for found in pattern.finditer(shown)]
    assert not said, "\n".join([where, *said])


@pytest.mark.parametrize("name", [
    "today", "tubs.index", "batches.index", "beds.index", "pickings.index", "jars.index", "alkali.index", "book.index",
    "weather.days", "tubs.begin", "pickings.add",
])  # fmt: skip
def test_pages_of_the_whole_garden_are_in_us_words(client: Client, us_garden: Garden, name: str) -> None:
    in_us_words(client, url(name))


def test_pages_of_tubs_beds_pickings_and_jars_are_in_us_words(client: Client, us_garden: Garden) -> None:
    for tub in Steep.objects.all():
        in_us_words(client, url("tubs.show", key=tub.pk))
    for jar in Jar.objects.all():
        in_us_words(client, url("jars.show", key=jar.pk))
    for bed in us_garden.beds.all():
        in_us_words(client, url("beds.show", key=bed.pk))
    for picking in us_garden.pickings.all():
        in_us_words(client, url("pickings.show", key=picking.pk))


@pytest.mark.parametrize("name", ["batches.show", "alkali.dose", "airing.show", "settling.show", "drying.show"])
def test_pages_of_batches_are_in_us_words(client: Client, us_garden: Garden, name: str) -> None:
    for batch in Batch.objects.all():
        in_us_words(client, url(name, key=batch.pk))


@pytest.mark.parametrize("slug", sorted(BY_SLUG))
def test_the_bench_is_in_us_words(client: Client, us_garden: Garden, slug: str) -> None:
    in_us_words(client, url("bench.show", calculator=slug))


@pytest.mark.parametrize(("language", "when"), [
    ("en-GB", r"\w{3} \d{1,2} \w{3} \d\d:\d\d"), ("de", r"\w{3} \d{1,2} \w{3} \d\d:\d\d"),
    ("en", r"\w{3} \d{1,2} \w{3} \d\d:\d\d"), ("en-US", r"\w{3}, \w{3} \d{1,2}, \d{1,2}:\d\d\s[ap]m"),
])  # fmt: skip
def test_dates_are_written_as_the_browser_s_english_has_them(
    client: Client, garden: Garden, language: str, when: str
) -> None:
    response = client.get(url("today"), headers={"accept-language": language})
    assert re.fullmatch(when, response.context["page"].now)
    assert "Accept-Language" in response["Vary"]


def test_a_garden_s_units_do_not_hang_on_the_browser(client: Client, garden: Garden) -> None:
    batch, _standing = a_settling_batch(garden)
    response = client.get(url("settling.show", key=batch.pk), headers=US)
    assert re.search(r"\d L\b", response.context["page"].head.facts)
    assert "°F" not in response.content.decode()
