"""What goes into a vat for this cloth and this jar, how does the vat stand, and what ails it?

A recipe (`recipe`) from stoichiometry and a balance of charge: pure indigo through the purity of the jar, reductant for
indigo and for oxygen, alkali until the pH of the fibre holds. The course of a vat (`state`): indigo reduced and not,
what is left of the reductant, alkali, by an ensemble that readings move. Faults (`faults`): from signs to causes, and
which test would tell them apart. Not here: how much blue goes onto cloth in a dip, nor shades. Masses of indigo are
pure unless they say powder.
"""
