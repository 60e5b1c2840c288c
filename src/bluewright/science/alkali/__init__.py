"""Which dose of this alkali brings this liquor to the wanted pH, in which parts, and what else does it do?

The liquor is a closed solution of weak acids (lactic and acetic from fermenting, CO2, phosphate, two lumps of
phenolics) and strong ions; its charge balances. A thousand possible liquors are drawn from priors, all of them
with the pH that was read; readings of a jar titration or of the tub itself narrow them (Bayes). The dose of each
follows from the balance of charge at the wanted pH. Not here: CO2 and ammonia that escape while the liquor is
worked (`air`), and what the blue does at that pH (`steep`). A module may live here if it serves the dose.
"""
