"""What the text output says to a grower, for records as growers have them. Invented records; sentences by own hand."""

import io
import json
import re
import sys
from typing import Any

import pytest

from bluewright.cli.main import main
from tests.cli.commands import RECORD_COMMANDS, example

JARGON = re.compile(r"\b(ess|priors?|posterior|p5|p50|p95|likelihood|ensemble|members?)\b|\d{2}T\d{2}|e\+\d| 0\d [A-Z]")
STEEP = {"plant": "woad", "started": "2026-07-03T11:00+01:00", "leaf_kg": 6.0, "water_l": 40.0}


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Any:
    """The text that a command says to a record."""

    def ask(words: str, record: dict[str, Any]) -> str:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(json.dumps(record).encode())))
        assert main([*words.split(), "-"]) == 0
        return capsys.readouterr().out

    return ask


@pytest.mark.parametrize("words", RECORD_COMMANDS)
def test_no_answer_speaks_of_the_machinery(words: str, said: Any) -> None:
    text = said(words, example(RECORD_COMMANDS[words]))
    assert not JARGON.search(text), JARGON.search(text)
    lines = [line for line in text.splitlines() if line.startswith(("Take care: ", "Note: "))]
    assert len(lines) == len(set(lines)), "each caution once"
    assert lines == sorted(lines, key=lambda line: line.startswith("Note")), "what could hurt stands first"


def test_a_steep_that_has_just_begun_gives_next_to_nothing_and_a_short_table(said: Any) -> None:
    text = said("steep call", STEEP | {"method": "cold", "now": STEEP["started"]})
    assert text.startswith("wait, and strain ")
    assert "Straining now gives next to nothing;" in text
    assert text.count("chance of losing") == 1
    assert len(re.findall(r"^  (?:now|\w{3} \d)", text, re.M)) <= 9
    assert text.count("<- advised") == 1
    assert "Note: No temperature was given" in text


def test_a_steep_long_past_is_told_once(said: Any) -> None:
    text = said("steep call", STEEP | {"method": "cold", "now": "2026-07-13T08:00+01:00"})
    assert text.startswith("strain now: its best moment is probably past (chance ")
    assert "\nBest was " in text
    assert text.count("probably past (chance") == 1


def test_a_hot_steep_speaks_in_minutes(said: Any) -> None:
    seen = [{"time": STEEP["started"], "where": "tub", "temp_c": 80.0}]
    text = said("steep call", STEEP | {"method": "hot", "now": "2026-07-03T11:02+01:00", "temps": seen})
    assert re.search(r"Best from about Fri 3 Jul 11:\d\d to Fri 3 Jul 1[12]:\d\d;", text)
    assert "hot liquor scald" in text
    assert "hydrogen sulphide" not in text


LIQUOR = {"liquor_l": 1300.0, "temp_c": 25.0, "ph": 6.0, "target_ph": 10.5, "alkali": {"kind": "slaked_lime"}}


def test_a_large_vat_is_dosed_in_plain_numbers_and_each_hazard_once(said: Any) -> None:
    text = said("alkali dose", LIQUOR)
    assert text.startswith("To bring 1,300 L to pH 10.5: ")
    assert re.search(r"[\d,]+ g \([\d,]+ to [\d,]+\) of slaked lime\.", text)
    assert re.search(r"\d+ L of 5% vinegar", text)
    assert len(re.findall(r"[Tt]wice", text)) == 1, "the caution says what twice as much does"
    assert text.count("of chalk may fall") == 1
    assert "Chalk that may fall" not in text


def test_past_the_target_no_more_is_added_and_that_is_said_once(said: Any) -> None:
    added = [{"added_ml": 200.0, "ph": 9.8}]
    liquor = {"liquor_l": 38.0, "ph": 5.6, "target_ph": 9.5, "alkali": {"kind": "ammonia", "percent_w_w": 9.5}}
    text = said("alkali dose", liquor | {"added_so_far": added})
    assert text.startswith("Add no more: ")
    assert len(re.findall("no more", text)) == 1


AIRED = {"liquor_l": 38.0, "temp_c": 17.0, "ph": 9.5, "indigo_g": 5.0, "pour": {}}


def test_airing_is_foretold_and_then_followed(said: Any) -> None:
    assert re.match(r"It takes about .* of pouring; look again after \d+ minutes\.", said("air time", AIRED))
    half = [{"after_min": 20.0, "signs": {"foam": 0, "liquor": 1}}]
    text = said("air time", AIRED | {"done_min": 20.0, "readings": half})
    assert text.startswith("Go on pouring: about ")
    assert " 0%" not in text


def test_airing_that_is_done_stops_without_a_false_certainty(said: Any) -> None:
    done = [{"after_min": m, "dissolved_oxygen_mg_l": o, "signs": s} for m, o, s in (
        (20.0, 0.3, {"foam": 1}), (60.0, 7.5, {"foam": 3, "liquor": 3}), (70.0, 8.5, {"foam": 3, "liquor": 3}),
    )]  # fmt: skip
    text = said("air time", AIRED | {"done_min": 70.0, "readings": done})
    assert re.match(r"Stop pouring: it is done \(chance (over )?9\d%\)\.", text)
    assert "100%" not in text


def test_the_rule_of_settling_once_met_says_decant(said: Any) -> None:
    edge = [{"after_h": h, "interface_mm": mm} for h, mm in ((1.0, 280.0), (24.0, 20.0), (27.0, 20.0))]
    text = said("settle time", {"depth_mm": 300.0, "liquor_l": 38.0, "readings": edge})
    assert re.match(r"Decant it\.\s+By your own readings the top third is clear", text)
    assert "No use looking" not in text


@pytest.mark.parametrize(
    ("now_h", "says"), [(0.1, "No use looking before"), (5.0, "Worth looking now; nearly surely"), (900.0, "look now.")]
)
def test_a_moment_that_is_past_is_not_told_as_one_to_come(said: Any, now_h: float, says: str) -> None:
    text = said("settle time", {"depth_mm": 300.0, "liquor_l": 38.0, "now_h": now_h})
    assert says in text
    assert ("No use looking before" in text) == (now_h == 0.1)


def test_paste_weighed_once_is_foretold_in_days(said: Any) -> None:
    text = said("dry curve", {"dish_g": 212.0, "weighings": [{"after_h": 0.0, "total_g": 345.0}]})
    assert re.search(r"Dry [\d.]+ days \([\d.]+ to [\d.]+\) after the last weighing", text)


def test_a_jar_says_what_is_guessed_and_asks_about_a_purity_too_good(said: Any) -> None:
    jar = {"plant": "woad", "leaf_kg": 6.0, "pigment_g": 20.0, "purity": {"mean_frac": 0.9, "sd_frac": 0.02}}
    text = said("jar yield", jar)
    assert text.count(" (a guess)") == 5
    assert re.search(r"Most was probably lost in \w+ \(chance \d+%", text)
    assert "Note: 90% indigo is more than such pigment commonly has" in text
