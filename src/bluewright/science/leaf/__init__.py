"""How much blue can a basket of leaf give at most, and what have damage and waiting cost?

Precursor content (`media.precursor`) times the stoichiometry of its joining to indigo (`media.stoichiometry`): an upper
bound, set beside what is really got. Not here: steeping, which decides how much of it comes out. What concerns
the plant before the tub may live here.
"""
