"""The start page: what wants doing."""
