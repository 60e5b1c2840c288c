"""Photos: from the bytes that a phone sent to pictures that can be shown, and the files that hold them.

How does it look upright and small, and what of it is kept? Whether it is a photo at all is decided in
`pictures/opening.py`. `preparing` makes what is kept, `stripping` takes out of the original all that tells place or
person, `store` writes the files, `kinds` says what a photo can be of, `carrying` takes photos along in a garden's file.
Nothing here judges a picture or measures a colour.
"""
