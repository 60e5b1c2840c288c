"""Drying: dishes of paste, their weighings, and when each is dry."""
