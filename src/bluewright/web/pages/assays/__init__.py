"""Assays of a jar's pigment: what was found out about its indigo, each way, and all together."""
