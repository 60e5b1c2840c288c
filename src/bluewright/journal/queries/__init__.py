"""Reads: each question in a fixed number of statements, however many rows there are."""
