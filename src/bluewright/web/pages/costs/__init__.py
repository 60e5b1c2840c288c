"""Costs: notes of work by one tap or a clock, prices, and what the blue of a season takes."""
