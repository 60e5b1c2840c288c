"""When may the clear liquor go, how many washes, how much acid, how long to filter and to dry?

Settling: the edge of the sinking blue falls at a steady speed and slows as the sediment packs; speed, sediment and
packing are fitted to the heights seen. Washing: each refill thins what is dissolved by sludge / (sludge + water).
Acid: two acids for each lime or calcite. Filtering: cloth and cake resist in series (Ruth). Drying: a stretched
exponential towards the end mass (Lewis, Page). Each fit is least squares with priors and its honest spread; with
little read, the priors alone answer, widely. Not here: how much blue there is (`pigment`), or how pure it is. What
may live here: one module a question, its record, and the priors they share.
"""
