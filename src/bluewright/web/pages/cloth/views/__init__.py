"""Cloth, view by view: pieces, dips, home tests, the story that goes along."""
