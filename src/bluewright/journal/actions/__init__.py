"""Writes: one verb a function, one transaction each. An action knows nothing of a request."""
