"""Letting people in and shutting them out, and tries at the door."""

from datetime import UTC, datetime, timedelta

import pytest

from bluewright.journal.actions import door, people
from bluewright.journal.models import DoorTry, Person
from bluewright.journal.queries import people as queries
from bluewright.science.base.errors import InputError

pytestmark = pytest.mark.django_db
PASSPHRASE = "wolati-kesuno-dipabe"
NOW = datetime(2026, 7, 3, 12, tzinfo=UTC)


def test_only_a_hash_of_the_passphrase_is_kept() -> None:
    person = people.add_person("Rowan", role="helper", passphrase=PASSPHRASE)
    assert PASSPHRASE not in str(vars(person.user))
    assert person.user.check_password(PASSPHRASE)


def test_spaces_about_and_within_a_name_are_one() -> None:
    assert people.add_person("  Mary   Ann ", role="helper", passphrase=PASSPHRASE).user.get_username() == "Mary Ann"


def test_a_role_that_there_is_not_is_refused_and_nobody_is_let_in() -> None:
    with pytest.raises(InputError, match="king"):
        people.add_person("Rowan", role="king", passphrase=PASSPHRASE)
    assert not Person.objects.exists()


def test_a_weak_passphrase_leaves_the_old_one() -> None:
    person = people.add_person("Rowan", role="helper", passphrase=PASSPHRASE)
    with pytest.raises(InputError, match="easy to guess"):
        people.give_passphrase(person, "short")
    person.user.refresh_from_db()
    assert person.user.check_password(PASSPHRASE)


def test_somebody_can_come_in_from_the_first_person_on_until_all_are_shut_out() -> None:
    assert not queries.anybody_can_come_in()
    person = people.add_person("Rowan", role="helper", passphrase=PASSPHRASE)
    assert queries.anybody_can_come_in()
    people.shut_out(person)
    assert not queries.anybody_can_come_in()
    assert queries.role_of(person.user) is None


@pytest.mark.parametrize(("failures", "wait_s"), [(0, 0), (4, 0), (5, 5), (6, 10), (12, 640), (13, 900), (10_000, 900)])
def test_the_wait_of_an_address_doubles_up_to_a_quarter_of_an_hour(failures: int, wait_s: int) -> None:
    assert door.BY_ADDRESS.wait_s(failures) == wait_s


def test_a_try_while_waiting_is_not_counted() -> None:
    for _ in range(5):
        assert door.knock(address="192.0.2.7", name="Rowan", now=NOW) == 0
    for _ in range(3):
        assert door.knock(address="192.0.2.7", name="Rowan", now=NOW + timedelta(seconds=1)) == 4
    assert DoorTry.objects.get(key="from 192.0.2.7").failures == 5


def test_a_clock_that_was_set_back_does_not_lengthen_the_wait() -> None:
    for _ in range(5):
        door.knock(address="192.0.2.7", name="Rowan", now=NOW)
    assert door.knock(address="192.0.2.7", name="Rowan", now=NOW - timedelta(hours=5)) == 5
