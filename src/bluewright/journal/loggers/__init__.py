"""A logger's file: how it is written, and its times and temperatures.

What may live here: bytes to lines, lines to columns, columns to moments and degrees. Nothing here writes the journal,
and nothing is guessed silently: a guess is what a form shows first, and a person confirms it.
"""
