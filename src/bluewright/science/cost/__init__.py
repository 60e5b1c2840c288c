"""What did the blue cost, and what is left of it and of the alkali?

Hours, water, alkali and money of the batches of a season are drawn once each and added up; the pure blue of the jars
is drawn once, and everything is divided by it in the same draw (a ratio of uncertain quantities). Work that nobody
noted is estimated from the grower's own notes of the same work and from priors. Stock: what was put in, less what was
taken, or as weighed again; alkali with what an opened pack loses. Not here: tax, exchange of currencies, sales. What
may live here: hours, money, kit, stock.
"""
