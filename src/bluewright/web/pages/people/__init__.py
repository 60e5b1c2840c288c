"""Phones and people: where a phone finds the garden, and who may come in."""
