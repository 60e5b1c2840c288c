"""`/assays/jar/<key>/add/<method>/`: an assay is typed, answered and written down at once."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal.bridge.jars import purity
from bluewright.journal.models import Assay, Garden, Jar, YieldSeen
from bluewright.journal.queries import jars
from tests import cast
from tests.web.assays.rows import TABLE, a_jar, dyeing, spectrum, to_the_beginning
from tests.web.checks import NOBODY, no_rows, only, url

pytestmark = pytest.mark.django_db


def where(jar: Jar, method: str = "dyeing") -> str:
    return url("assays.add", key=jar.pk, method=method)


def test_a_test_dyeing_becomes_the_purity_of_the_jar(client: Client, garden: Garden) -> None:
    """Own hand: a third as strong as a standard of 95 %, of 0.95 dry matter: 33 %."""
    jar = a_jar(garden)
    response = client.post(where(jar), dyeing(note="twelve swatches of wool"))
    row = Assay.objects.get()
    assert (response.status_code, response["Location"]) == (302, url("assays.show", row=row.pk))
    assert (row.method, row.note, row.at_most) == ("dyeing", "twelve swatches of wool", False)
    assert row.indigo_frac == pytest.approx(0.333, abs=0.02)
    assert row.typed["swatches.6.pigment_mg"] == "60"
    assert row.answer["verdict"] == "one_strength"
    assert "inputs" not in row.answer
    whole = jars.jar(jar.pk, of=garden)
    assert whole is not None
    known = purity(whole)
    assert known is not None
    assert known.mean_frac == pytest.approx(0.333, abs=0.02)


def test_what_the_jar_holds_is_told_anew_with_it(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    client.get(url("jars.show", key=jar.pk))
    before = YieldSeen.objects.first()
    client.post(where(jar), dyeing())
    after = YieldSeen.objects.first()
    assert before is not None
    assert after is not None

    def width(seen: YieldSeen) -> float:
        return float(seen.answer["purity_frac"]["p95"] - seen.answer["purity_frac"]["p5"])

    assert width(after) < 0.5 * width(before)
    assert "by its assays" in client.get(url("jars.index")).content.decode()


def test_a_spectrum_is_read_from_a_file(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    file = SimpleUploadedFile("jar.csv", TABLE.replace(",", ";").replace(".", ",").encode("utf-16"))
    typed = spectrum(table="") | {"table_file": file}
    assert client.post(where(jar, "spectrum"), typed).status_code == 302
    row = Assay.objects.get()
    assert len(row.record["points"]) == 8
    assert row.record["standard"]["points"] == [{"wavelength_nm": 619.0, "absorbance": 0.47}]
    assert row.typed["table"].startswith("wavelength_nm")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (spectrum(table=""), "Choose the file, or put its text here."),
        (spectrum(table="540,0.1\n610,0.5\n16000,0.2"), "line 3: 16000 is no wavelength from 190 to 1100 nm"),
        (spectrum(table="540,0,1\n610,0,5"), "has commas that could be decimal marks"),
        (spectrum(table="540,0.1\n600,-0.4\n720,0.1"), "is less than nothing"),
        (spectrum(standard_table=""), "This is still missing."),
        (spectrum(solvent="pyridine", standard_table="", **{"standard.indigo_mg_per_l": ""}), "o figure for indigo"),
    ],
    ids=["none", "mixed units", "decimal commas", "negative", "standard without table", "no figure"],
)
def test_a_table_that_cannot_be_is_said_and_kept(
    client: Client, garden: Garden, typed: dict[str, str], says: str
) -> None:
    jar, unchanged = a_jar(garden), no_rows(Assay)
    response = client.post(where(jar, "spectrum"), typed)
    assert response.status_code == 422
    text = response.content.decode()
    assert says in text.replace("&#x27;", "'")
    assert response.context["own"]["table"].value() == typed["table"]
    assert response.context["form"]["sample_mg"].value() == "22"
    unchanged()


def test_a_mistake_in_a_row_stays_in_its_field(client: Client, garden: Garden) -> None:
    jar, unchanged = a_jar(garden), no_rows(Assay)
    response = client.post(where(jar), dyeing(**{"swatches.3.k_over_s": "deep"}))
    assert response.status_code == 422
    form = response.context["form"]
    assert list(form.errors) == ["swatches.3.k_over_s"]
    assert form["swatches.3.k_over_s"].value() == "deep"
    unchanged()


def test_a_figure_that_no_model_answers_is_said(client: Client, garden: Garden) -> None:
    flat_blue = "\n".join(f"{nm},{0.5 - 0.4 * (1 if 590 < nm < 640 else 0)}" for nm in range(500, 760, 10))
    response = client.post(where(a_jar(garden), "spectrum"), spectrum(table=flat_blue))
    assert response.status_code == 422
    assert "No amount of indigo above nothing" in response.content.decode()


def test_a_file_that_is_no_text_is_refused(client: Client, garden: Garden) -> None:
    file = SimpleUploadedFile("jar.xlsx", b"PK\x03\x04 and so on")
    response = client.post(where(a_jar(garden), "spectrum"), spectrum(table="") | {"table_file": file})
    assert response.status_code == 422
    assert "it is a spreadsheet" in response.content.decode()


def test_another_row_is_offered_without_judging(client: Client, garden: Garden) -> None:
    response = client.post(where(a_jar(garden)), dyeing(more="swatches:20"))
    assert response.status_code == 200
    assert "swatches.19.k_over_s" in response.context["form"].fields
    assert response.context["form"]["swatches.0.k_over_s"].value() == "2.1"
    assert not Assay.objects.exists()


def test_what_was_the_same_last_time_is_there_again(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    client.post(where(jar, "spectrum"), spectrum())
    response = client.get(where(jar, "spectrum"))
    assert response.context["form"]["solvent"].value() == "dmso"
    assert response.context["form"]["standard.indigo_mg_per_l"].value() == "5.8"
    assert response.context["own"]["standard_table"].value() == "619,0.47"
    assert response.context["form"]["sample_mg"].value() is None


def test_lines_that_are_not_parallel_are_kept_without_a_figure(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    depths = ("4", "4.2", "4.4", "4.1", "4.2", "4.5")
    bent = {f"swatches.{k}.k_over_s": text for k, text in enumerate(depths, start=6)}
    assert client.post(where(jar), dyeing(**bent)).status_code == 302
    row = Assay.objects.get()
    assert (row.indigo_frac, row.answer["verdict"]) == (None, "not_parallel")
    text = client.get(url("assays.show", row=row.pk)).content.decode()
    assert "the two lines are not parallel" in text
    assert client.get(url("jars.show", key=jar.pk)).status_code == 200


def test_wrong_keys_methods_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    jar = a_jar(garden)
    for way in (where(jar, "tasting"), where(jar, "given"), where(a_jar(other_garden))):
        assert client.get(way).status_code == 404
    assert client.get(url("assays.add", key=NOBODY, method="ash")).status_code == 404


def test_the_methods_and_the_start(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    only(client, where(jar), "get", "post")
    to_the_beginning(client, where(jar))


def test_sent_twice_it_is_written_once(client: Client, garden: Garden) -> None:
    jar, typed = a_jar(garden), dyeing(once="5b6c1f3e-1111-4222-8333-444455556666")
    for _ in range(2):
        client.post(where(jar), typed)
    assert Assay.objects.count() == 1


def test_the_future_is_refused(client: Client, garden: Garden) -> None:
    response = client.post(where(a_jar(garden)), dyeing(assayed_at=cast.typed(cast.moment(-48))))
    assert response.status_code == 422
    assert "still to come" in response.content.decode()


def test_a_us_garden_types_as_it_measures(client: Client, garden: Garden) -> None:
    Garden.objects.update(system="us")
    jar = a_jar(garden)
    typed = {"assayed_at": dyeing()["assayed_at"], "sample": "2 g", "dried": "1.9 g", "ash": "0.4 g"}
    assert client.post(where(jar, "ash"), typed).status_code == 302
    row = Assay.objects.get()
    assert row.at_most
    assert row.indigo_frac == pytest.approx(1 - 0.4 / 1.9, abs=0.01)
    cast.an_assay(jar)
    assert client.get(url("assays.show", row=row.pk)).status_code == 200


def test_the_depths_of_kept_swatches_are_offered_for_a_test_dyeing(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    assert "swatch-depths" not in client.get(where(jar)).content.decode()
    cast.a_swatch(garden, name="wool, 80 mg")
    cast.a_swatch(garden, name="my thumb", of="other")
    response = client.get(where(jar))
    assert [one.name for one in response.context["swatches"]] == ["wool, 80 mg"]
    assert float(response.context["swatches"][0].k_over_s) > 1
    text = response.content.decode()
    assert '<datalist id="swatch-depths">' in text
    assert text.count('list="swatch-depths"') == 12
    assert "swatch-depths" not in client.get(where(jar, "ash")).content.decode()
