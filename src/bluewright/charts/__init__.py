"""Charts as SVG text: pure functions from numbers to a drawing, used by the command line and the pages alike."""
