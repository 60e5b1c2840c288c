"""What a photo can be of."""

from uuid import UUID

import pytest

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import (
    Batch,
    Bed,
    Card,
    Garden,
    Jar,
    Ladder,
    LiquorLook,
    Photo,
    Picking,
    Piece,
    Reading,
    Steep,
    Strain,
    Swatch,
    Vat,
)
from bluewright.journal.photos.kinds import KINDS
from tests.cast import a_batch, a_card, a_jar, a_ladder, a_liquor_look, a_piece, a_swatch, a_vat

pytestmark = pytest.mark.django_db
NOBODY = UUID("00000000-0000-4000-8000-000000000000")


def one_of(kind: str, garden: Garden) -> UUID:
    batch = a_batch(Strain.objects.filter(steep__garden=garden).first())
    rows = {
        "batch": Batch.objects.filter(pk=batch.pk),
        "liquor": LiquorLook.objects.filter(pk=a_liquor_look(batch, ph=9.0).pk),
        "jar": Jar.objects.filter(pk=a_jar((batch, 20.0)).pk),
        "card": Card.objects.filter(pk=a_card(garden).pk),
        "swatch": Swatch.objects.filter(pk=a_swatch(garden).pk),
        "vat": Vat.objects.filter(pk=a_vat(garden).pk),
        "piece": Piece.objects.filter(pk=a_piece(garden).pk),
        "ladder": Ladder.objects.filter(pk=a_ladder(garden).pk),
        "bed": Bed.objects.filter(garden=garden),
        "picking": Picking.objects.filter(garden=garden),
        "tub": Steep.objects.filter(garden=garden),
        "look": Reading.objects.filter(steep__garden=garden),
    }
    found: UUID = rows[kind].first().pk
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_a_thing_is_found_in_its_own_garden_only(garden: Garden, other_garden: Garden, kind: str) -> None:
    key = one_of(kind, garden)
    assert KINDS[kind].row(key, of=garden).pk == key  # type: ignore[union-attr]
    assert KINDS[kind].row(key, of=other_garden) is None
    assert KINDS[kind].row(NOBODY, of=garden) is None


def test_what_is_deleted_or_part_of_it_is_not_found(garden: Garden, steeping: Steep) -> None:
    look = steeping.readings.first()
    delete(steeping, by=None)
    assert KINDS["look"].row(look.pk, of=garden) is None
    assert KINDS["tub"].row(steeping.pk, of=garden) is None


@pytest.mark.parametrize("kind", KINDS)
def test_the_word_of_each_kind_fits_its_column(kind: str) -> None:
    assert len(kind) <= Photo._meta.get_field("about_kind").max_length  # type: ignore[operator, union-attr]
