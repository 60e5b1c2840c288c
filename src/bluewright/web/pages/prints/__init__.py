"""Prints: a batch's sheet and a jar's label, as a page to print and as a PDF."""
