"""How thick does the stand grow, how sick is it, may it follow what grew here, and when is the next cut?

Counts in a frame (`stand`), scored leaves (`disease`), the ground's past (`rotation`), and growth by warmth
since sowing or the last cut (`growth`), learned from the bed's own cuts. Not here: what a picked basket holds (`leaf`).
What concerns the plants in the ground, before the knife, may live here.
"""
