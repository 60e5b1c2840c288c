"""What a trial says: each way, each difference with its range, how firm it is, and what would change it."""

from __future__ import annotations

from typing import Literal

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer
from bluewright.science.learn.trial_record import TrialRecord

Kind = Literal["pairs", "blocks", "alone"]
Decision = Literal["take", "leave", "alike", "open"]
Belief = Literal["own_tubs", "tubs_as_usual", "sceptic", "usual", "open_mind"]


@answer
class WayFound:
    """One way by itself."""

    way: str
    """Its name."""
    counted: int
    """Tubs of it that count."""
    spoilt: int
    """Tubs of it that were spoilt."""
    missing: int
    """Tubs of it that are not weighed yet, or have no rival in their block."""
    got: Band | None = None
    """What such a tub gives in the middle of your pickings, in the unit of the outcome; absent where too few count."""
    got_g: Band | None = None
    """Pure blue from a tub of it."""
    got_g_per_h: Band | None = None
    """Pure blue for an hour of work."""
    best_chance: float | None = None
    """Chance that it is the best of all; told where there are more than two ways."""


@answer
class BlockFound:
    """One block, and how two ways compare in it."""

    block: str
    """Its name."""
    ratio_factor: float
    """The way's value as so many times that of the usual way."""


@answer
class Believed:
    """The same tubs seen with another belief."""

    belief: Belief
    """`own_tubs`: from these tubs alone. `tubs_as_usual`: together with how unlike tubs usually are (the result).
    `sceptic`, `usual`, `open_mind`: together with how large differences usually are."""
    ratio_factor: Band
    """So many times the usual way."""
    more_chance: float
    """Chance that it is more."""


@answer
class MoreBlocks:
    """What further blocks would do, if they are like these."""

    more: int
    """Blocks added."""
    either_way_factor: float
    """The likely range then runs from the result divided by this to so many times it."""


@answer
class WayAgainst:
    """One way beside the usual one."""

    way: str
    """Its name."""
    beside: str
    """The usual way."""
    blocks: int
    """Blocks in which both count; for tubs that stand alone, the tubs of the way that has fewer."""
    more_blocks: int
    """Of those, in how many it had more; 0 for tubs that stand alone."""
    by_block: tuple[BlockFound, ...]
    """How it compares block by block."""
    ratio_factor: Band | None = None
    """So many times the usual way, in the middle and with the likely range; absent where one pair says it all."""
    more_chance: float | None = None
    """Chance that it is more than the usual way."""
    tenth_more_chance: float | None = None
    """Chance that it is at least a tenth more."""
    tenth_less_chance: float | None = None
    """Chance that it is at least a tenth less."""
    pair_sd: float | None = None
    """How unlike two tubs of a block were besides (standard deviation of the log ratio); absent where it cannot be
    told."""
    flip_chance: float | None = None
    """How often chance alone would make so large a difference, if the way made none: all ways to have drawn the
    lots."""
    least_flip_chance: float | None = None
    """The least that so few tubs can say there."""
    beliefs: tuple[Believed, ...] = ()
    """The same with other beliefs."""
    gain_g: Band | None = None
    """Pure blue that a tub of it brings more than one of the usual way; below 0: less."""
    g_per_more_h: Band | None = None
    """Pure blue that each hour of work more brings; where it takes less work, what each hour saved costs."""
    worth_chance: float | None = None
    """Chance that it is worth it by what you asked of it."""
    decision: Decision = "open"
    """`take` it, `leave` it, `alike` (within a tenth, nearly surely), or `open`."""
    turning_factor: float | None = None
    """What the next pair would have to show for the middle to come to no difference."""
    lost_low_factor: float | None = None
    """The middle, had the tubs of this way that are spoilt or have no weight given half of what is to be expected of
    them, and those of the usual way twice; absent where there is none that has a rival."""
    lost_high_factor: float | None = None
    """The middle, had it been the other way round."""


@answer
class TrialAnswer:
    """What a trial says so far."""

    version: Literal[1] = 1
    id: str
    kind: Kind
    """`pairs` (two ways in blocks), `blocks` (more ways in blocks) or `alone` (tubs without rivals of the same
    picking)."""
    blocks: int
    """Blocks that count; for tubs that stand alone, the tubs of the rarest way."""
    ways: tuple[WayFound, ...]
    """Each way by itself, the usual one first."""
    against: tuple[WayAgainst, ...]
    """Each other way beside the usual one."""
    measuring_frac: float | None = None
    """Share of the unlikeness of tubs that weighing and measuring make; absent where it cannot be told."""
    further: tuple[MoreBlocks, ...] = ()
    """What further blocks would do."""
    basis: Literal["readings"]
    """Your own tubs, with a guess of how unlike tubs are."""
    inputs: TrialRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
