"""The views of ladders, by what is done: kept, dyed, measured."""
