"""Threads: up to the bed and down to the uses, through forks and joins, from any place on the way."""

from uuid import UUID

import pytest

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Batch, Bed, Garden, Jar, Picking, Steep
from bluewright.journal.queries import threads
from bluewright.journal.queries.threads import Thing, Thread
from tests import cast

pytestmark = pytest.mark.django_db


def of(kind: threads.Kind, row: Bed | Picking | Steep | Batch | Jar, garden: Garden) -> Thread:
    found = threads.thread(Thing(kind, row.pk), of=garden)
    assert found is not None
    return found


def names(found: Thread) -> list[list[str]]:
    return [[row.name for row in rows] for rows in (found.beds, found.tubs, found.batches, found.jars)]


class Two:
    """Two beds, each with its picking and its tub; both tubs joined in one batch; tub B in a batch of its own too."""

    def __init__(self, garden: Garden) -> None:
        self.bed_a, self.bed_b = cast.a_bed(garden, name="Bed A"), cast.a_bed(garden, name="Bed B")
        self.picked_a = cast.a_picking(garden, beds_of=[self.bed_a], picked_at=cast.moment(30))
        self.picked_b = cast.a_picking(garden, beds_of=[self.bed_b], picked_at=cast.moment(25))
        self.tub_a = cast.a_tub(garden, leaf=[(self.picked_a, 3.0)], name="Tub A", started_at=cast.moment(24))
        self.tub_b = cast.a_tub(garden, leaf=[(self.picked_b, 3.0)], name="Tub B", started_at=cast.moment(23))
        strain_a, strain_b = cast.a_straining(self.tub_a), cast.a_straining(self.tub_b)
        self.joined = cast.a_batch(strain_a, strain_b, liquor_l=[None, 20.0], name="Joined", begun_at=cast.moment(9))
        self.alone = cast.a_batch(strain_b, liquor_l=[5.0], name="Alone", begun_at=cast.moment(8))
        self.last = cast.a_batch(self.joined, name="Last", begun_at=cast.moment(7))
        self.jar = cast.a_jar((self.last, 12.0), name="Jar")
        self.small = cast.a_jar((self.alone, 2.0), name="Small", filled_at=cast.moment(1))


def test_a_jar_leads_up_to_every_bed_through_joined_batches(garden: Garden) -> None:
    found = of("jar", Two(garden).jar, garden)
    assert names(found) == [["Bed A", "Bed B"], ["Tub A", "Tub B"], ["Joined", "Last"], ["Jar"]]
    assert [row.picked_at for row in found.pickings] == [cast.moment(30), cast.moment(25)]


def test_a_bed_leads_down_to_every_jar_but_not_to_its_neighbour(garden: Garden) -> None:
    two = Two(garden)
    assert names(of("bed", two.bed_a, garden)) == [["Bed A"], ["Tub A"], ["Joined", "Last"], ["Jar"]]
    assert names(of("bed", two.bed_b, garden))[3] == ["Small", "Jar"]


def test_from_the_middle_it_goes_both_ways(garden: Garden) -> None:
    two = Two(garden)
    assert names(of("tub", two.tub_b, garden)) == [["Bed B"], ["Tub B"], ["Joined", "Alone", "Last"], ["Small", "Jar"]]
    assert names(of("batch", two.alone, garden)) == [["Bed B"], ["Tub B"], ["Alone"], ["Small"]]
    assert names(of("picking", two.picked_a, garden)) == names(of("bed", two.bed_a, garden))


def test_what_joined_from_the_side_is_named(garden: Garden) -> None:
    """Tub B is not on the thread of bed A, but the batch says that it holds 20 L of it."""
    two = Two(garden)
    found = of("bed", two.bed_a, garden)
    links = found.from_[Thing("batch", two.joined.pk)]
    assert {(link.above.key, link.typed) for link in links} == {(two.tub_a.pk, ""), (two.tub_b.pk, "20 L")}
    assert threads.sources(found, of=garden)[Thing("tub", two.tub_b.pk)] == two.tub_b


def test_what_was_taken_out_of_the_journal_is_off_the_thread(garden: Garden) -> None:
    two = Two(garden)
    delete(two.tub_a.strains.get(), by=None)
    delete(two.bed_b, by=None)
    assert names(of("jar", two.jar, garden)) == [[], ["Tub B"], ["Joined", "Last"], ["Jar"]]
    delete(two.last, by=None)
    assert names(of("jar", two.jar, garden)) == [[], [], [], ["Jar"]]


def test_there_is_no_thread_of_what_is_not_there_or_a_stranger_s(garden: Garden, other_garden: Garden) -> None:
    assert threads.thread(Thing("jar", UUID(int=1)), of=garden) is None
    bed = other_garden.beds.get()
    assert threads.thread(Thing("bed", bed.pk), of=garden) is None
    assert threads.thread(Thing("tub", bed.pk), of=other_garden) is None


def test_a_loop_of_batches_ends(garden: Garden) -> None:
    one = cast.a_batch(cast.a_straining(cast.a_tub(garden, name="Tub L")), name="One")
    other = cast.a_batch(one, name="Other", begun_at=cast.moment())
    one.came_from.create(batch=other)
    assert names(of("batch", one, garden))[1:3] == [["Tub L"], ["One", "Other"]]


def test_of_a_long_thread_the_latest_are_told_and_the_thing_asked_for(
    garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Tub B is the later one; its own batch the later of those two that it went straight into."""
    two = Two(garden)
    monkeypatch.setattr(threads, "MOST", 1)
    found = of("tub", two.tub_a, garden)
    assert [row.name for row in found.tubs] == ["Tub A"]
    of_last = of("batch", two.last, garden)
    assert [row.name for row in of_last.tubs] == ["Tub B"]
    assert [row.name for row in of_last.batches] == ["Last"]
    assert (of_last.left_out["tub"], of_last.left_out["batch"], of_last.left_out["jar"]) == (1, 1, 0)
    of_first = of("batch", two.joined, garden)
    assert [row.name for row in of_first.batches] == ["Joined", "Last"]
    assert of_first.left_out["batch"] == 0
