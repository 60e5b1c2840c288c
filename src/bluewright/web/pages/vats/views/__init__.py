"""What is answered for vats: list and one vat, recipes, rows, faults."""
