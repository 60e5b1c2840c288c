"""Tubs: what is asked about a steep from its start to its straining."""
