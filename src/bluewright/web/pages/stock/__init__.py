"""Stock: what is left in the jars and the cupboard, what went where, and whether scale and book agree."""
