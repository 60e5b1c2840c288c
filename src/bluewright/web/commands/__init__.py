"""Commands of the journal beside the server: who may come in, backup, restore. Each module has `run(arguments)`."""
