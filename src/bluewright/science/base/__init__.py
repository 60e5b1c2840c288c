"""What every part of the science stands on: errors, sourced constants, priors, bands, cautions, records, units.

Nothing here knows of leaves, tubs or blue. A module may live here if at least two stages need it and it states
no fact of the trade.
"""
