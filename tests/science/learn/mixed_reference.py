"""Batches made up with a seed, and what statsmodels 0.15 (restricted maximum likelihood) finds in them.

Made with the same draws by

    import pandas as pd, statsmodels.formula.api as smf
    data = pd.DataFrame(made_up()).assign(y=lambda d: np.log(d.value), step=lambda d: d.temp_c / 5, one=1)
    fit = smf.mixedlm("y ~ way + step", data, groups="one", vc_formula={"bed": "0 + C(bed)", "day": "0 + C(day)"}).fit()
    print(fit.params, fit.bse, fit.vcomp ** 0.5, fit.scale ** 0.5)

It believes nothing beforehand; with 150 batches our priors move little.
"""

from typing import Any

import numpy as np

WAY = (0.0743, 0.0377)
WARMTH = (0.0951, 0.0272)
"""Log ratio of way b to way a, and of 5 C more, each with its standard error."""
SPREADS = {"bed": 0.2424, "day": 0.0857, "rest": 0.2034}


def made_up(n: int = 150, seed: int = 3) -> list[dict[str, Any]]:
    """Batches of two ways from six beds, two a day."""
    rng = np.random.default_rng(seed)
    beds, days = rng.normal(0, 0.15, 6), rng.normal(0, 0.12, n // 2 + 1)
    found = []
    for k in range(n):
        bed, way, temp_c = int(rng.integers(6)), int(rng.integers(2)), float(rng.uniform(12, 24))
        log_value = 0.3 + 0.14 * way + 0.02 * (temp_c - 18) + beds[bed] + days[k // 2] + rng.normal(0, 0.2)
        day = f"2026-{1 + k // 2 // 28:02d}-{1 + k // 2 % 28:02d}"
        found.append(
            {"way": "ab"[way], "value": float(np.exp(log_value)), "bed": f"bed {bed}", "day": day, "temp_c": temp_c}
        )
    return found
