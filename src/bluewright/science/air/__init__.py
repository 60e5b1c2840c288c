"""How long must the liquor be aired, is it done, and what does going on cost?

Air brings oxygen into the liquor at a rate set by the way of airing (pouring, whisking, bubbling, paddling) and by
how far the liquor is from holding all it can. Indoxyl takes oxygen and becomes indigo, the faster the more alkaline
and the warmer the liquor; other matter (phenolics, sugars, microbes) takes oxygen beside it. While the demand lasts
dissolved oxygen stays low; when it is spent, oxygen climbs: that rebound, the foam, the look of the liquor and the pH
are readings that narrow an ensemble of batches drawn from what is known beforehand.

Not here: how much alkali to add and what its fumes do in a room (`alkali`), nor settling (`settle`). A module may
live here if it serves one of the questions above; properties of water, oxygen and ammonia stand in `media`.
"""
