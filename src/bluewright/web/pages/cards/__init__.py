"""Printed cards for photos."""
