"""The plan: what is wanted of the season, what that takes, and by when."""
