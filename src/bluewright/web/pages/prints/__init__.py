"""Prints: a batch's sheet, an alkali card and a jar's label, as a page to print and as a PDF."""
