"""Pickings."""
