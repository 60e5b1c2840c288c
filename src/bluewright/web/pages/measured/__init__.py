"""Colours measured in photos: boxes drawn on the picture, the answer at once, and what was measured before."""
