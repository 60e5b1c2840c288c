"""Settling: a vessel left to stand, the falling edge of the blue, decanting, and the next wash."""
