"""Shades: how deep a piece gets, dip by dip, and how to come to the colour of a swatch."""
