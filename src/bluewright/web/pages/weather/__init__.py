"""The weather of the garden."""
