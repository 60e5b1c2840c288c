"""Alkali: the cupboard, the dose at the tub, the jar titration, the card to print."""
