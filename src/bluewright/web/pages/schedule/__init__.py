"""The schedule of the season: limits of the work, days away, cuts and tubs by days."""
