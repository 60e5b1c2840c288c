"""How much liquor comes out, how much stays in the leaves, and what squeezing or a rinse would gain?

The tub is one well-mixed liquid: the water put in and the sap of the killed leaves. At straining the leaf mass
keeps some litres for each kilogram of leaf; the rest runs out with its share of the blue. A rinse mixes with what
was kept and carries part of it away. Not here: how much blue the liquor holds (`steep`), nor what alkali does.
"""
