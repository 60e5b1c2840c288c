"""Photos of what the journal holds."""
