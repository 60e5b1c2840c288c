"""Typst templates of what is printed, and the one way from a page's data to a PDF."""
