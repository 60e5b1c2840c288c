"""Alkali: what stands in the cupboard, what a jar of liquor took, what went into a batch."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.batch import Batch
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept

KINDS = [
    ("ammonia", _("ammonia water")),
    ("soda_ash", _("soda ash")),
    ("washing_soda", _("washing soda (crystals)")),
    ("potash", _("potash")),
    ("lye", _("lye (sodium hydroxide)")),
    ("potassium_lye", _("potassium lye")),
    ("slaked_lime", _("slaked lime")),
    ("ash_lye", _("lye of wood ash")),
]


class Alkali(Kept):
    """A bottle or bag in the cupboard, with its strength."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="alkalis")
    name = models.CharField(max_length=60)
    kind = models.CharField(max_length=16, choices=KINDS)
    percent_w_w = models.FloatField(null=True, blank=True)
    mol_per_l = models.FloatField(null=True, blank=True)
    strength_typed = models.CharField(max_length=30, blank=True)
    """`9.5 %`, `25 g in 500 mL`; empty where it stands dry or without a label."""
    label_as = models.CharField(
        max_length=6, choices=[("nh3", _("ammonia (NH3)")), ("nh4oh", _("ammonium hydroxide (NH4OH)"))], default="nh3"
    )
    opened = models.BooleanField(default=False)
    opened_on = models.DateField(null=True, blank=True)
    pack_amount = models.FloatField(null=True, blank=True)
    """What it held when it was new, in the measure that it is used in: millilitres or grams."""
    pack_typed = models.CharField(max_length=30, blank=True)
    pack_money = models.FloatField(null=True, blank=True)
    """What it cost, in the garden's money."""
    used_up = models.BooleanField(default=False)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Added(Kept):
    """An amount of alkali, as typed and in the measure of its kind: millilitres dissolved, grams dry."""

    added_ml = models.FloatField(null=True, blank=True)
    added_g = models.FloatField(null=True, blank=True)
    added_typed = models.CharField(max_length=30)
    ph = models.FloatField(null=True, blank=True)
    """The pH after stirring, if it was read."""

    class Meta:
        abstract = True


class AlkaliPart(Added):
    """A part of alkali that went into a batch."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="alkali_parts")
    alkali = models.ForeignKey(Alkali, models.PROTECT, related_name="parts")
    added_at = models.DateTimeField()

    class Meta:
        ordering = ["added_at", "made_at"]

    def __str__(self) -> str:
        return f"{self.added_typed} of {self.alkali} into {self.batch}"


class JarTest(Kept):
    """A jar titration: a measured jar of a batch's liquor, and alkali added in steps."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="jar_tests")
    alkali = models.ForeignKey(Alkali, models.PROTECT, related_name="jar_tests")
    taken_at = models.DateTimeField()
    sample_ml = models.FloatField()
    sample_typed = models.CharField(max_length=30)
    temp_c = models.FloatField(null=True, blank=True)
    temp_typed = models.CharField(max_length=30, blank=True)

    class Meta:
        ordering = ["-taken_at"]

    def __str__(self) -> str:
        return f"{self.sample_typed} of {self.batch} with {self.alkali}"


class JarStep(Added):
    """One step of a jar titration: what was added since the step before, and the pH then."""

    jar_test = models.ForeignKey(JarTest, models.CASCADE, related_name="steps")

    class Meta:
        ordering = ["made_at"]

    def __str__(self) -> str:
        return f"{self.added_typed}: pH {self.ph}"
