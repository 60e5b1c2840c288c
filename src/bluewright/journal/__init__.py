"""The journal: what was observed and what was decided, in a database that belongs to the grower.

`models` hold rows, `queries` read them, `actions` write them (one verb, one transaction), `bridge` turns rows into
the records of the science and answers into what a page shows. Nothing that can be computed is stored, except a dated
copy of each forecast that a person saw.
"""
