"""The invented garden: a season of it, told by `plan`, computed by `tub_truth` and `work`, written by `season`.

None of it ever happened. What was seen, dosed, weighed and jarred is drawn from the science with a seed, as of tubs
whose truth is known; the weather and the mistakes are the plan's.
"""

from bluewright.journal.demo.season import NAME, plant

__all__ = ["NAME", "plant"]
