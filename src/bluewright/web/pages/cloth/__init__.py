"""Cloth: pieces and yarn from the scour to the home tests, the dip timer, and the story that goes with a piece."""
