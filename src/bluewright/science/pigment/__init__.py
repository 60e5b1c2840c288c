"""What is in the jar, how much of the leaf's blue is that, and where did the rest probably go?

The jar holds mass * (1 - moisture) * purity of pure indigo. That is the leaf's potential times five shares kept, one a
step: steep, strain, conversion (alkali and air), wash (settle, decant, filter), dry (and grind, move). Each share and
the potential have a prior; what was seen at a step moves its prior; the weighed jar ties them together (Bayes). The
leaf's own potential is the least known of all and takes its part of the blame. Not here: the potential itself
(`leaf`) and purity by measurement. What may live here: what is known of a jar of pigment.
"""
