"""How deep does cloth get in an indigo vat: from dips, time, strength and fibre to the blue on it and its colour.

Each dip gives the cloth what its fibres take from the liquor (an isotherm, approached by diffusion into the yarn) and
what they carry out in the liquor between them; excess reductant takes some of the earlier blue off again. The blue that
is seen makes a reflectance spectrum by Kubelka and Munk, and that a colour. What is believed of all this before one's
own cloth is judgement, and is said to be; a ladder of dips learns it. Not here: making and keeping a vat, cloth planned
back to leaf.
"""
