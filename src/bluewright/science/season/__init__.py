"""What to cut, fill and strain on which day of the season? Growth, steeps and the schedule, composed.

Beside `thread`, which composes one batch, the only place that composes stages: growth (`bed`) says which leaf a bed
gives on which day, the steep model how long tubs take by their warmth, and `plan` chooses.
"""
