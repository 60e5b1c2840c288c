"""Prints: a batch's sheet, an alkali card, a jar's label and the card for photos, as a page to print and as a PDF."""
