"""The water of a bed: when it wants some, what was given, how the soil felt."""
