"""The bench: every calculator by itself, without any record. All that is typed stands in the address.

`tree` reads from a record class what can be typed; `labels` says it in plain words; `calculators` is the table of them;
`form` makes the form and reads it; `typed` turns it into the record; `page` shows the answer.
"""
