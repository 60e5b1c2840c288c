"""The language in which answers are said."""

from gettext import NullTranslations

from bluewright.words.language import gettext, marked, ngettext, spoken


class Wrapped(NullTranslations):
    """Each message between brackets, as a language would change it."""

    def gettext(self, message: str) -> str:
        return f"«{message}»"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"«{msgid1 if n == 1 else msgid2}»"


def test_without_translations_it_is_english() -> None:
    assert gettext("strain now") == "strain now"
    assert [ngettext("%(n)d pour", "%(n)d pours", n) % {"n": n} for n in (0, 1, 2)] == ["0 pours", "1 pour", "2 pours"]


def test_a_language_is_spoken_while_it_is_open_and_no_longer() -> None:
    with spoken(Wrapped()):
        assert gettext("strain now") == "«strain now»"
        assert ngettext("%(n)d pour", "%(n)d pours", 2) == "«%(n)d pours»"
    assert gettext("strain now") == "strain now"


def test_it_ends_with_a_mistake_too() -> None:
    try:
        with spoken(Wrapped()):
            raise ValueError
    except ValueError:
        assert gettext("strain now") == "strain now"


def test_what_is_only_marked_stays_as_it_is_until_it_is_said() -> None:
    with spoken(Wrapped()):
        assert marked("strain now") == "strain now"


def test_nothing_stays_nothing() -> None:
    """A catalogue keeps its own head under the empty message."""
    with spoken(Wrapped()):
        assert gettext("") == ""
