"""The season book: every batch on one page, and out as tables."""
