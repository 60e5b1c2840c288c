"""What the garden's finished batches have taught, what is left out of it, and what could be given away."""
