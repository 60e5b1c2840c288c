"""Washing: how many rounds of fresh water, the tap water they are measured against, and acid for limed pigment."""
