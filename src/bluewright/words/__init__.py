"""How answers are said to people, the same on the command line and on the pages: numbers with their ranges, moments,
cautions, and for each answer the question and its sentences (`said`). Nothing here computes; nothing here knows of a
terminal or a browser.
"""
