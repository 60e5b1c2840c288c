"""Bluewright: from bed to dyed cloth, computed.

`bluewright.science` holds the formulas, `bluewright.cli` the command line, `bluewright.charts` the drawings.
"""

__version__ = "0.1.0"
