"""What have the garden's own finished batches taught, and how much better have the calls become?

Every finished batch says something of its leaf, its tub's speed, the person who read its signs and what was lost on the
way to the jar: `told` puts that as a normal message on the scores of the steep's own priors. `model` joins the
messages: each score is a sum of parts (everywhere, garden, plant, bed, age of leaf, part of the season, tub, reader,
year, the batch itself), all normal, whose shares of the prior's variance stand in `shares`. `calls` looks back: what
would have been said before each batch, and what was got. `pool` joins gardens. Nothing is kept: all is reckoned
anew from the batches. Not here: rows of a journal. What learns from whole batches may live here, above the thread.
"""
