"""Batches: liquor from its straining to its jar; each stage has pages of its own."""
