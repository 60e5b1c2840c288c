"""Has the steep gone far enough: today or tomorrow, or too long already?

The model follows the blue from living leaf to dissolved indoxyl and to what is lost, driven by the tub's
temperature (`kinetics`). An ensemble of such tubs, drawn from what is believed beforehand (`priors`), is moved by
every reading through explicit likelihoods (`signs`, `numbers`) with a tempered sequential Monte Carlo (`smc`); the
decision (`decide`) weighs each time at which a person can strain by its expected loss, and `next_reading` says
which further look would lessen that loss most. `call` runs the whole.

Not here: where temperatures and leaf contents come from (`media`, `leaf`; composed in `science.thread`), and what
straining, alkali and air do afterwards.
"""
