"""How answers are said to people, the same on the command line and on the pages: numbers with their ranges, moments,
cautions, and the sentences of the strain call. Nothing here computes; nothing here knows of a terminal or a browser.
"""
