"""What must be sown, cut and steeped for the cloth and the pigment that are wanted, by when, and on which days?

The chain runs back from pure indigo on cloth to what is drawn from the vat, what is put into it, the jars at hand, the
leaf, the tubs, the area and the days (`chain*.py`), and forward from the beds that stand (`chain_forward.py`). Every
factor is a distribution; doubts that all wants share are drawn once. How leaf grows, and what a kilogram of it gives,
is told by `thread`. The schedule of a season (`schedule*.py`) chooses cuts, tubs and days under limits by a
mixed-integer program; `season` hands in growth and steeps. Not here: the recipe of the vat, the dyeing itself.
"""
