"""How is an answer drawn, so that it is read in sunlight, on a phone, in print and by a screen reader?

Charts are SVG text: pure functions from numbers to a drawing, used by the command line and by pages alike. Every
chart answers one question, carries it as its title, and says the same in words (`<desc>`). Nothing is told by
colour alone: bands are pale with a dashed edge, middles are solid, ranges are hatched, and each is named in the key
or beside itself. A drawing has no style sheet, script or font of its own, so that it looks the same everywhere.

`palette` (inks and sizes), `svg` (elements and escaping), `scale` (ticks), `parts` (panel, axes, labels that do not
collide) are shared; then one file a kind of chart. Pictures of things (`signs_drawn`: a sign at a level; `tub_drawn`: a
tub as it looks now) are drawn with `pen`; they ask no question; their title says what they show. What may live here:
drawing. What a number means, and what a person should do, comes from the caller as text.
"""
