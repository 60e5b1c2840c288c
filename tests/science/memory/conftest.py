"""The example's garden, read once."""

from importlib import resources

import pytest

from bluewright.science.base.records import read
from bluewright.science.memory.garden import Learned, learned, read_batches
from bluewright.science.memory.record import GardenRecord
from bluewright.science.memory.told import Told


@pytest.fixture(scope="package")
def record() -> GardenRecord:
    text = resources.files("bluewright").joinpath("examples", "learned.json").read_text("utf-8")
    return read(GardenRecord, text)


@pytest.fixture(scope="package")
def messages(record: GardenRecord) -> dict[int, Told]:
    return read_batches(record.batches)[0]


@pytest.fixture(scope="package")
def made(record: GardenRecord, messages: dict[int, Told]) -> Learned:
    return learned(record, known=messages)
