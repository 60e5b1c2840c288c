"""Airing: the way, the pours and minutes counted with wet hands, the looks, and whether it is done."""
