"""The library of swatches: what was dyed or made, its measured colour, and how swatches differ."""
