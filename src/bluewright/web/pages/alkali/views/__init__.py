"""Alkali, view by view: the cupboard, the dose of a batch, its parts, its jar titrations."""
