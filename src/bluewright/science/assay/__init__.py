"""How much of a pigment is indigo?

Each way of finding out is a module with its own record and answer: the spectrum of a solution (`spectrum`), a one-band
meter with its own calibration (`led`), test dyeing beside a standard (`dyeing`, planned by `design`), titration and
nitrogen (`titration`), moisture, ash and acid wash (`ash`), and the colour of the powder by a rule that its owner
fitted to pigments of known purity (`powder`). `combine` puts results together, but only if they agree.

Not here: what stands in a jar and where the rest of the leaf's blue went (`pigment`), and how a colour is read off a
photo (`photo`). What may live here: what turns readings of a pigment into its share of indigo.
"""
