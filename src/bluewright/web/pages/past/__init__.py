"""What grew in a bed before, and whether its plant may follow."""
