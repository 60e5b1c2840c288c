"""The lists of the dose page: parts that went in, looks at the liquor, jar titrations."""

from __future__ import annotations

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Batch, JarTest
from bluewright.words.numbers import moment


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """A part of alkali that went in."""

    key: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """A look at the liquor that was not taken while it was aired."""

    key: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JarRow:
    """A jar titration of the batch."""

    key: str
    said: str
    counts: bool
    """Whether the dose rests on it."""


def part_rows(batch: Batch, zone: ZoneInfo) -> tuple[PartRow, ...]:
    """What went in, in order."""
    return tuple(
        PartRow(
            key=str(part.pk),
            when=moment(part.added_at.astimezone(zone)),
            said=_("%(amount)s of %(alkali)s; %(ph)s") % {
                "amount": part.added_typed, "alkali": part.alkali.name,
                "ph": _("no pH read") if part.ph is None else f"pH {part.ph:g}",
            },
        )
        for part in batch.alkali_parts.all()
    )  # fmt: skip


def look_rows(batch: Batch, zone: ZoneInfo) -> tuple[LookRow, ...]:
    """Readings of pH and temperature, in order."""
    return tuple(
        LookRow(
            key=str(look.pk),
            when=moment(look.taken_at.astimezone(zone)),
            said=", ".join(
                [*([f"pH {look.ph:g}"] if look.ph is not None else []), *([look.temp_typed] if look.temp_typed else [])]
            ),
        )
        for look in batch.looks.all()
        if look.after_min is None and look.after_pours is None and (look.ph is not None or look.temp_typed)
    )


def jar_rows(batch: Batch, zone: ZoneInfo, *, counts: JarTest | None) -> tuple[JarRow, ...]:
    """Jar titrations, the latest first."""
    return tuple(
        JarRow(key=str(test.pk), said=jar_line(test, zone), counts=counts is not None and test.pk == counts.pk)
        for test in sorted(batch.jar_tests.all(), key=lambda one: (one.taken_at, one.made_at), reverse=True)
    )


def jar_line(test: JarTest, zone: ZoneInfo) -> str:
    """`Sun 5 Jul 18:00: 500 mL with soda, 4 steps, up to pH 9.6`."""
    read = [step.ph for step in test.steps.all() if step.ph is not None]
    steps = (
        _("%(count)d steps, up to pH %(ph)s") % {"count": len(read), "ph": f"{read[-1]:g}"} if read else _("no step")
    )
    return _("%(when)s: %(jar)s with %(alkali)s, %(steps)s") % {
        "when": moment(test.taken_at.astimezone(zone)), "jar": test.sample_typed, "alkali": test.alkali.name,
        "steps": steps,
    }  # fmt: skip
