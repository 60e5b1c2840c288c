"""The command line. One file a command; the science is imported only by the command that needs it."""
