"""Was it worth it, and what have the garden's own batches taught?

Two questions on the same weighed batches. Trials: a question is asked beforehand, tubs are assigned by lot, and few
pairs are told honestly (`trial`, `pairs`, `design`); many batches with all that was noted of them (`mixed`). Memory:
what the garden's batches say of the priors of the other stages (`memory`, `pool`).

The model in words: what is weighed is a product of causes, so everything is linear in its logarithm; tubs of one
picking share its luck; noise is learned from the tubs together with what tubs usually do. Not here: how any single
number of a batch comes about (its own stage). What compares batches or learns from them may live here.
"""
