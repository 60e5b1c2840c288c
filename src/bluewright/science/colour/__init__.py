"""Colour as numbers: spaces, differences, depth, grades.

A colour is CIELAB under D65 seen by the 2 degree observer, and nothing else: whatever comes in another space is brought
here first. Arrays have the three coordinates on their last axis.

Not here: pictures and their pixels (`science/photo`), and what a colour says about indigo (the stages).
"""
