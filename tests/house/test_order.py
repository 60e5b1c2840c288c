"""What is begun first is there to be begun."""

from pathlib import Path

import pytest

from tests.conftest import LONGEST

TESTS = Path(__file__).parents[1]


@pytest.mark.parametrize("file", LONGEST)
def test_a_file_that_is_begun_first_is_there(file: str) -> None:
    assert (TESTS / file).is_file()
