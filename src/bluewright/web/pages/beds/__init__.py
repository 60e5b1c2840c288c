"""Beds."""
