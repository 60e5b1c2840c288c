"""Errors: what, where, and what would be right."""

import pickle

import pytest

from bluewright.science.base.errors import BluewrightError, InputError, ModelError


def test_an_input_error_says_where_what_and_what_would_be_right() -> None:
    error = InputError(where="readings[3].ph", what="15 is not possible", right="it must be at most 14")
    assert str(error) == "readings[3].ph: 15 is not possible; it must be at most 14"
    assert str(InputError(where="", what="a", right="b")) == "a; b"


@pytest.mark.parametrize(
    ("where", "path", "expected"),
    [("ph", "readings[3]", "readings[3].ph"), ("[2]", "temps", "temps[2]"), ("", "jar", "jar"), ("ph", "", "ph")],
)
def test_an_error_can_be_seen_from_outside_its_part(where: str, path: str, expected: str) -> None:
    assert InputError(where=where, what="a", right="b").inside(path).where == expected


def test_all_errors_can_be_caught_as_one_and_input_errors_as_value_errors() -> None:
    assert issubclass(InputError, BluewrightError)
    assert issubclass(InputError, ValueError)
    assert issubclass(ModelError, BluewrightError)
    assert not issubclass(ModelError, ValueError)


@pytest.mark.parametrize("error", [InputError(where="ph", what="a", right="b"), ModelError("no root")])
def test_an_error_survives_the_way_back_from_another_process(error: BluewrightError) -> None:
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is type(error)
    assert str(again) == str(error)
    assert vars(again) == vars(error)
