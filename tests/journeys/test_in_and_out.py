"""What comes in from elsewhere and goes out: a logger's file, a whole garden, and paper."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.journeys.phone import PHONE, Phone, serving
from tests.web.intake.sent import lines


@pytest.fixture
def sheet(phone: Phone) -> Phone:
    """The invented garden, open on the list of batches."""
    phone.open("/batches/")
    return phone


def test_a_logger_s_file_is_looked_at_brought_in_and_taken_out(phone: Phone) -> None:
    phone.open("/weather/")
    phone.press("From a logger or a station")
    phone.press("Bring a file in")
    phone.page.select_option("[name=of]", "air")
    log = {"name": "shed.csv", "mimeType": "text/csv", "buffer": lines(hours=3).encode()}
    phone.page.set_input_files("[name=file]", log)
    phone.press("Send it")
    assert "Nothing is written yet" in phone.said()
    phone.page.select_option("[name=zone]", "garden")
    phone.press("Look again")
    assert "10.1" in phone.said()
    phone.press("bring it in")
    assert "18" in phone.said(), "three hours of six readings"
    phone.press("Take it out")
    phone.press("Undo")
    assert "shed.csv" in phone.said()


def test_a_garden_is_taken_out_and_brought_into_another_installation(phone: Phone, tmp_path: Path) -> None:
    phone.open("/gardens/")
    with phone.page.expect_download() as started:
        phone.page.get_by_role("link", name="Keep as a file, without photos").click()
    file = tmp_path / "garden.json"
    started.value.save_as(file)
    phone.open("/jars/")
    jars = re.findall(r"Jar \d .*", phone.said())
    with serving(tmp_path / "elsewhere") as address:
        other = Phone(phone.page.context.browser.new_page(viewport=PHONE), address)
        other.open("/gardens/")
        other.page.set_input_files("main input[type=file]", file)
        other.press("Bring it in")
        other.open("/jars/")
        assert re.findall(r"Jar \d .*", other.said()) == jars
    assert len(jars) >= 9


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_batch_prints_on_one_sheet_by_the_browser(sheet: Phone, paper: str) -> None:
    sheet.press("In the wash")
    sheet.press("Print its sheet")
    printed = sheet.page.pdf(format=paper, prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1


def test_the_plan_prints_on_one_sheet_by_the_browser(phone: Phone) -> None:
    phone.open("/plan/")
    phone.press("The plan on a sheet of paper")
    printed = phone.page.pdf(format="A4", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1


def test_every_sheet_comes_as_a_pdf_too(sheet: Phone) -> None:
    sheet.press("In the wash")
    sheet.press("Print its sheet")
    link = sheet.page.get_by_role("link", name="As a PDF").evaluate("link => link.href")
    assert sheet.page.request.get(link).body().startswith(b"%PDF")
