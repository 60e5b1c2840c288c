"""Threads: the whole chain from a bed to what the blue was used for, as one page."""
