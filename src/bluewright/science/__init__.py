"""The science: pure functions and small immutable records.

Nothing below this folder reads a file, a clock, a network or a global; `rng` and `now` are always arguments.
`base` holds what every module needs, `media` what stages share (water, acids, gases, heat), then one folder a
stage of the work. Stages never import each other; `thread` alone composes them.
"""
