"""Ladders of dips: planned, dyed along a checklist, measured, and what they taught."""
