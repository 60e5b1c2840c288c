"""`bluewright vat recipe`: what goes into a vat, how much and in which order."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.words.vat_recipe import QUESTION, said

COMMAND = RecordCommand(
    words="vat recipe",
    question=QUESTION,
    record=VatRecipeRecord,
    compute=recipe,
    said=said,
    example="vat-recipe",
)
run = COMMAND.run
