"""Method: how each number is computed, with its words, signs and sources."""
