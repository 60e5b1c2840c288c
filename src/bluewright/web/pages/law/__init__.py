"""Whether a plant may be grown here: what to mind, and whom one asked."""
