"""Records in, answers out."""

import json
from dataclasses import FrozenInstanceError
from datetime import UTC, datetime, time
from typing import Annotated, Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import AwareDatetime, Field

from bluewright.science.base.bands import Band
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import MAX_RECORD_BYTES, answer, dump, meanings, read, record, schema


@record
class Look:
    """One look into the tub."""

    at: AwareDatetime
    """When."""
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    """What the strip said."""


@record
class Tub:
    """A made-up record with one field of each kind."""

    leaf_kg: Annotated[float, Field(gt=0)]
    """Leaf."""
    method: Literal["cold", "warm", "hot"] = "cold"
    """How."""
    id: Annotated[str, Field(max_length=5)] = ""
    """Name."""
    covered: bool = True
    """Lid."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed."""
    can_strain: Annotated[tuple[time, ...], Field(max_length=3)] = ()
    """Times of day."""
    looks: tuple[Look, ...] = ()
    """Looks."""
    full_l: Annotated[float, Field(lt=100, le=1e9)] | None = None
    """Litres."""

    def __post_init__(self) -> None:
        if self.full_l is not None and self.full_l < self.leaf_kg:
            raise InputError(where="full_l", what=f"{self.full_l:g} L is less than the leaf", right="measure again")


@answer
class Found:
    """A made-up answer."""

    blue_g: Band
    """Blue."""
    inputs: Tub
    note: str | None = None


FOUR = '["08:00", "08:00", "08:00", "08:00"]'
BARE = "is not possible here; give a bare number (the unit stands in the field's name), not text"
ISO = "write it like 2026-07-03T11:00+01:00 (ISO 8601)"
OFFSET = "add the offset from UTC, like 2026-07-03T11:00+01:00"
WHEN = "2026-07-03T11:00+01:00"


def refused(data: object) -> InputError:
    with pytest.raises(InputError) as caught:
        read(Tub, json.dumps(data))
    return caught.value


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({}, "leaf_kg: this field is missing; it is required"),
        ({"leaf_kg": 0}, "leaf_kg: 0 is not possible here; it must be more than 0"),
        ({"leaf_kg": 1, "full_l": 100}, "full_l: 100 is not possible here; it must be less than 100"),
        ({"leaf_kg": "6 kg"}, "leaf_kg: '6 kg' " + BARE),
        ({"leaf_kg": True}, "leaf_kg: true " + BARE),
        ({"leaf_kg": None}, "leaf_kg: null " + BARE),
        ({"leaf_kg": 1, "leaf_lb": 2}, "leaf_lb: there is no such field; check its spelling, or leave it out"),
        ({"leaf_kg": 1, "method": "tepid"}, "method: 'tepid' is not possible here; use one of 'cold', 'warm' or 'hot'"),
        ({"leaf_kg": 1, "id": "a long name"}, "id: 'a long name' is not possible here; use at most 5 characters"),
        ({"leaf_kg": 1, "id": 7}, "id: 7 is not possible here; give text in quotes"),
        ({"leaf_kg": 1, "covered": 1}, "covered: 1 is not possible here; give true or false"),
        ({"leaf_kg": 1, "seed": 1.5}, "seed: 1.5 is not possible here; give a whole number"),
        ({"leaf_kg": 1, "seed": -1}, "seed: -1 is not possible here; it must be at least 0"),
        ({"leaf_kg": 1, "looks": {}}, "looks: {} is not possible here; give a list in square brackets"),
        ({"leaf_kg": 1, "looks": [[]]}, "looks[0]: [] is not possible here; give an object in curly brackets"),
        (
            {"leaf_kg": 1, "looks": [{"at": WHEN}, {"at": WHEN, "ph": 15}]},
            "looks[1].ph: 15 is not possible here; it must be at most 14",
        ),
        ({"leaf_kg": 1, "looks": [{"at": "yesterday"}]}, "looks[0].at: 'yesterday' is not a time; " + ISO),
        (
            {"leaf_kg": 1, "looks": [{"at": "2026-07-03T11:00"}]},
            "looks[0].at: '2026-07-03T11:00' is not possible here; " + OFFSET,
        ),
        ({"leaf_kg": 1, "can_strain": ["25:00"]}, "can_strain[0]: '25:00' is not a time; " + ISO),
        (
            {"leaf_kg": 1, "can_strain": ["08:00"] * 4},
            f"can_strain: {FOUR} is not possible here; give at most 3 entries",
        ),
        ({"leaf_kg": 9, "full_l": 5}, "full_l: 5 L is less than the leaf; measure again"),
    ],
)
def test_each_kind_of_mistake_is_said_in_plain_words(given: object, said: str) -> None:
    assert str(refused(given)) == said


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_numbers_that_are_not_finite_are_refused(value: str) -> None:
    with pytest.raises(InputError, match=r"leaf_kg: .* give a finite number, or leave the field out"):
        read(Tub, f'{{"leaf_kg": {value}}}')


def test_a_mapping_is_read_as_its_json_would_be() -> None:
    assert read(Tub, {"leaf_kg": 6}) == read(Tub, '{"leaf_kg": 6}') == read(Tub, b'{"leaf_kg": 6.0}')
    with pytest.raises(InputError, match="record: it holds something that is not JSON"):
        read(Tub, {"leaf_kg": datetime.now(UTC)})


@pytest.mark.parametrize(
    "text", ['{"leaf_kg": 1, "leaf_kg": 2}', '{"leaf_kg": 1, "looks": [{"at": "%s", "at": "%s"}]}']
)
def test_a_field_that_stands_twice_is_refused(text: str) -> None:
    with pytest.raises(InputError, match=r"(leaf_kg|at): this field stands twice in one object; keep one of them"):
        read(Tub, text.replace("%s", WHEN))


def test_a_record_above_the_limit_is_refused_unread() -> None:
    text = '{"leaf_kg": 6}'
    assert read(Tub, text + " " * (MAX_RECORD_BYTES - len(text))).leaf_kg == 6
    with pytest.raises(InputError, match="it is 1,000,001 bytes long; a record has at most 1,000,000 bytes"):
        read(Tub, text + " " * (MAX_RECORD_BYTES + 1 - len(text)))


def test_a_long_value_is_shown_shortened() -> None:
    assert len(str(refused({"leaf_kg": "x" * 10_000}))) < 200


def test_records_and_answers_do_not_change() -> None:
    tub = read(Tub, {"leaf_kg": 6.0})
    with pytest.raises(FrozenInstanceError):
        tub.leaf_kg = 7.0  # type: ignore[misc]
    found = Found(blue_g=Band(p5=1.0, p50=2.0, p95=3.0), inputs=tub)
    with pytest.raises(FrozenInstanceError):
        found.note = "x"  # type: ignore[misc]


def test_a_record_is_also_checked_when_python_builds_it() -> None:
    with pytest.raises(ValueError, match="leaf_kg"):
        Tub(leaf_kg=-1.0)


def test_an_answer_becomes_plain_json_without_what_is_absent() -> None:
    tub = read(Tub, {"leaf_kg": 6.0, "looks": [{"at": WHEN, "ph": 6.1}], "can_strain": ["08:00"]})
    plain = dump(Found(blue_g=Band(p5=1.0, p50=2.0, p95=3.0), inputs=tub))
    assert plain["blue_g"] == {"p5": 1.0, "p50": 2.0, "p95": 3.0}
    assert "note" not in plain
    assert "full_l" not in plain["inputs"]
    assert plain["inputs"]["looks"] == [{"at": "2026-07-03T11:00:00+01:00", "ph": 6.1}]
    json.dumps(plain, allow_nan=False)


@given(
    leaf_kg=st.floats(1e-6, 50),
    method=st.sampled_from(["cold", "warm", "hot"]),
    seed=st.integers(0, 2**63),
    ph=st.none() | st.floats(0, 14),
    at=st.datetimes(timezones=st.just(UTC)),
)
def test_what_was_dumped_reads_back_the_same(
    leaf_kg: float, method: str, seed: int, ph: float | None, at: datetime
) -> None:
    given: dict[str, Any] = {
        "leaf_kg": leaf_kg,
        "method": method,
        "seed": seed,
        "looks": [{"at": at.isoformat(), "ph": ph}],
    }
    tub = read(Tub, given)
    assert read(Tub, dump(tub)) == tub
    assert read(Tub, json.dumps(dump(tub))) == tub


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=12,
)


@given(value=json_values, field=st.sampled_from([*Tub.__dataclass_fields__, "other"]))  # type: ignore[attr-defined]
def test_nothing_but_an_input_error_ever_comes_of_any_json(value: object, field: str) -> None:
    for given_ in (value, {"leaf_kg": 6.0} | {field: value}):
        try:
            read(Tub, json.dumps(given_))
        except BluewrightError as error:
            assert isinstance(error, InputError)
            assert error.where
            assert error.right


@given(text=st.binary(max_size=60))
def test_nothing_but_an_input_error_ever_comes_of_any_bytes(text: bytes) -> None:
    with pytest.raises(InputError):
        read(Tub, text)


def test_the_schema_carries_the_docstrings_of_the_fields() -> None:
    found = schema(Tub)
    assert found["$schema"].endswith("2020-12/schema")
    assert found["additionalProperties"] is False
    assert found["required"] == ["leaf_kg"]
    assert found["properties"]["leaf_kg"]["description"] == "Leaf."
    assert schema(Found)["properties"]["blue_g"]["description"] == "Blue."


def test_the_meaning_of_a_field_is_its_docstring() -> None:
    assert meanings(Look) == {"at": "When.", "ph": "What the strip said."}


def test_a_field_is_found_by_its_name_in_python_where_plain_json_has_another() -> None:
    @answer
    class Span:
        from_: Annotated[float, Field(alias="from")]
        """Where it
        begins."""
        to_m: float

    assert meanings(Span) == {"from_": "Where it begins.", "to_m": ""}
