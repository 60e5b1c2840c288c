"""`python -m bluewright` is the command line."""

import sys

from bluewright.cli.main import main

sys.exit(main())
