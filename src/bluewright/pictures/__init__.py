"""The bytes of a photo, and what is found in its points: decoding, what the camera noted, the printed card's markers.

What a colour means is not said here; that is `science/photo`.
"""
