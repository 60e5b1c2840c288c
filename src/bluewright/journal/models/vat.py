"""Vats: what went in, and each look at them. Cloth that was dyed in one stands with its piece (`models/piece.py`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.jar import JarTaken
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.steep import level
from bluewright.words.cloth import FIBRES
from bluewright.words.vat import ELECTRODES, ENDS, KEPT, KINDS, SUBSTANCES


class Vat(Kept):
    """One vat, from its setting until it is emptied."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="vats")
    name = models.CharField(max_length=60)
    kind = models.CharField(max_length=16, choices=[(k, _(v)) for k, v in KINDS.items()])
    fibre = models.CharField(max_length=16, choices=[(k, _(v)) for k, v in FIBRES.items()], default="wool")
    """What is to be dyed next: its pH and warmth are those to hold."""
    started_at = models.DateTimeField()
    volume_l = models.FloatField()
    volume_typed = models.CharField(max_length=30)
    heel_g = models.FloatField(default=0.0)
    """Pure indigo that was in it when it was made; what was poured in from other vats stands by itself."""
    heel_typed = models.CharField(max_length=30, blank=True)
    heel_sd_g = models.FloatField(default=0.0)
    room_c = models.FloatField(null=True, blank=True)
    """The air around it; empty where nobody told."""
    room_typed = models.CharField(max_length=30, blank=True)
    hold_c = models.FloatField(null=True, blank=True)
    """What a heater keeps it at; empty without one."""
    hold_typed = models.CharField(max_length=30, blank=True)
    covered = models.BooleanField(default=True)
    """Whether a lid lies on it between dips."""
    surface_m2 = models.FloatField(null=True, blank=True)
    surface_typed = models.CharField(max_length=30, blank=True)
    reductant_opened = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in KEPT.items()], default="opened")
    """How the reductant was kept."""
    recipe = models.JSONField(default=dict, blank=True)
    """The `VatRecipeRecord` that it was made by; empty where it was made by hand."""
    ended_at = models.DateTimeField(null=True, blank=True)
    end = models.CharField(max_length=10, choices=[(k, _(v)) for k, v in ENDS.items()], blank=True)
    """What became of it."""
    seed = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["-started_at"]

    def __str__(self) -> str:
        return self.name


class VatAddition(Kept):
    """Something that went into a vat, at its setting or later."""

    vat = models.ForeignKey(Vat, models.CASCADE, related_name="additions")
    added_at = models.DateTimeField()
    what = models.CharField(max_length=18, choices=[(k, _(v)) for k, v in SUBSTANCES.items()])
    mass_g = models.FloatField()
    mass_typed = models.CharField(max_length=30)
    taken = models.OneToOneField(JarTaken, models.SET_NULL, null=True, blank=True, related_name="into_vat")
    """Of powder: what was taken out of a jar of this garden for it; empty where it came from elsewhere."""
    purity_frac = models.FloatField(null=True, blank=True)
    """Of powder from elsewhere: the share that is pure indigo, where it is known."""
    purity_sd_frac = models.FloatField(null=True, blank=True)

    class Meta:
        ordering = ["added_at", "made_at"]

    def __str__(self) -> str:
        return f"{self.mass_typed} {self.what} into {self.vat}"


class VatPoured(Kept):
    """Liquid that was poured into a vat: what was left of another one, or plain water."""

    vat = models.ForeignKey(Vat, models.CASCADE, related_name="poured")
    source = models.ForeignKey(Vat, models.SET_NULL, null=True, blank=True, related_name="poured_into")
    """The vat that it came out of; empty of water."""
    poured_at = models.DateTimeField()
    volume_l = models.FloatField(default=0.0)
    """Litres that came with it; 0 where only the sediment did."""
    volume_typed = models.CharField(max_length=30, blank=True)
    pure_g = models.FloatField(default=0.0)
    pure_sd_g = models.FloatField(default=0.0)
    reduced_frac = models.FloatField(default=0.0)
    """Of that indigo, as the other vat stood."""
    reductant_g = models.FloatField(default=0.0)
    """That came along and still works, as pure; 0 between vats of two kinds."""
    ph = models.FloatField(null=True, blank=True)

    class Meta:
        ordering = ["poured_at", "made_at"]

    def __str__(self) -> str:
        return f"{self.source or 'water'} into {self.vat}"


class VatReading(Kept):
    """One look at a vat; what was not looked at is empty."""

    vat = models.ForeignKey(Vat, models.CASCADE, related_name="readings")
    taken_at = models.DateTimeField()
    ph = models.FloatField(null=True, blank=True)
    """Of a sample cooled to the room."""
    potential_mv = models.FloatField(null=True, blank=True)
    electrode = models.CharField(
        max_length=16, choices=[(k, _(v)) for k, v in ELECTRODES.items()], default="silver_3m_kcl"
    )
    """What the potential was read against."""
    temp_c = models.FloatField(null=True, blank=True)
    temp_typed = models.CharField(max_length=30, blank=True)
    liquor_look = level()
    film = level()
    grains_seen = level()
    strip_s = models.FloatField(null=True, blank=True)
    """Seconds until a test strip has turned blue."""

    class Meta:
        ordering = ["taken_at"]
        indexes = [models.Index(fields=["vat", "taken_at"])]

    def __str__(self) -> str:
        return f"{self.vat} at {self.taken_at:%d %b %H:%M}"
