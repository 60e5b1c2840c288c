"""Jars: what the pigment weighs, what of it is blue, where it came from and where it goes."""
