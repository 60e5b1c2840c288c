"""Text goes packed to browsers that can unpack it, and to no others."""

import gzip
import http.client
from pathlib import Path

import pytest
from django.http import HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.test import Client, RequestFactory

from bluewright.journal.models import Garden
from bluewright.web.packing import Packed
from tests.web.running import server

PACKED = {"Accept-Encoding": "gzip"}
LONG = b"blue " * 200


def answered(response: HttpResponseBase) -> HttpResponseBase:
    request = RequestFactory(headers=PACKED).get("/")
    return Packed(lambda _request: response)(request)  # type: ignore[arg-type, return-value]


@pytest.mark.django_db
def test_a_page_is_the_same_packed_or_not_but_for_its_token(client: Client, garden: Garden) -> None:
    plain = client.get("/weather/")
    packed = client.get("/weather/", headers=PACKED)
    assert not plain.has_header("Content-Encoding")
    assert packed["Content-Encoding"] == "gzip"
    assert "Accept-Encoding" in packed["Vary"]
    assert len(packed.content) < len(plain.content) / 2
    assert gzip.decompress(packed.content)[:500] == plain.content[:500]


@pytest.mark.django_db
def test_a_table_is_packed_while_it_is_sent(client: Client, garden: Garden) -> None:
    packed = b"".join(client.get("/book/looks.csv", headers=PACKED).streaming_content)  # type: ignore[attr-defined]
    plain = b"".join(client.get("/book/looks.csv").streaming_content)  # type: ignore[attr-defined]
    assert gzip.decompress(packed) == plain


@pytest.mark.parametrize(
    "kind", ["text/html", "text/css", "text/csv; charset=utf-8", "application/json", "image/svg+xml"]
)
def test_text_is_packed(kind: str) -> None:
    assert answered(HttpResponse(LONG, content_type=kind)).has_header("Content-Encoding")


@pytest.mark.parametrize("kind", ["image/jpeg", "application/pdf", "application/octet-stream"])
def test_what_is_packed_already_is_left_alone(kind: str) -> None:
    assert not answered(HttpResponse(LONG, content_type=kind)).has_header("Content-Encoding")
    assert not answered(StreamingHttpResponse([LONG], content_type=kind)).has_header("Content-Encoding")


def test_part_of_a_file_is_left_alone() -> None:
    assert not answered(HttpResponse(LONG, content_type="text/css", status=206)).has_header("Content-Encoding")


def test_answers_with_the_same_text_differ_in_length() -> None:
    """Random bytes are added to each, so that lengths tell less."""
    lengths = {len(answered(HttpResponse(LONG, content_type="text/html")).content) for _ in range(20)}  # type: ignore[attr-defined]
    assert len(lengths) > 1


def test_the_real_server_sends_style_and_pages_packed(tmp_path: Path) -> None:
    with server(tmp_path / "garden") as port:
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        for path in ("/static/bluewright.css", "/gardens/"):
            connection.request("GET", path, headers=PACKED)
            response = connection.getresponse()
            body = response.read()
            assert (response.status, response.headers["Content-Encoding"]) == (200, "gzip")
            assert gzip.decompress(body)
        connection.request("GET", "/static/bluewright.css", headers=PACKED | {"Range": "bytes=0-99"})
        response = connection.getresponse()
        assert (response.status, len(response.read()), response.headers["Content-Encoding"]) == (206, 100, None)
        connection.close()
