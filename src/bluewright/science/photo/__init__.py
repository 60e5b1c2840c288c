"""What colour is this in a photo, and how far can that be trusted?

A camera records light; what a colour was is learned from something in the same picture whose colour is known: white
paper, greys, a black hole, a printed card that was registered. Boxes of pixels are averaged in linear light, freed of
veil and of uneven lighting, and brought to CIELAB (D65, 2 degree observer) by the simplest correction that the known
patches bear. A picture is an array here: its bytes are decoded in `pictures`. Not here: what a colour says about
indigo (`steep`, `assay`), how colours differ (`colour`).
"""
