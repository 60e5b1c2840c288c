"""How the tests run: one thread for linear algebra, property tests without a clock and, in CI, without chance."""

import os

# Before NumPy is imported: threads of its own would fight with the second test process.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("house")
