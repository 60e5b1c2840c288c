"""The supplies: packs of what vats use up, whose price is counted by what is dyed in them."""
