"""Compare: trials laid down, set tub by tub, told."""
