"""Indigo on fibre to colour: against the full tables of the CIE, published hues, and the sense of it."""

import dataclasses

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.colour.depth import reflectance_of_k_over_s
from bluewright.science.colour.observer import WAVELENGTHS_NM
from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab, lab_of_xyz
from bluewright.science.colour.spectrum import xyz_of_spectrum
from bluewright.science.dyeing.scores import SIZE, believed
from bluewright.science.dyeing.spectrum import (
    ground_of_lab,
    k_over_s_of_seen,
    lab_of_ground,
    lab_of_seen,
    shape,
    usual_ground,
)
from tests.published import rows

Z = np.random.default_rng(3).standard_normal((400, SIZE))
HELD = believed(Z, fibre="cotton", after_dip="squeezed", run="well_run")
SEEN = np.geomspace(0.3, 100.0, 40) * np.ones((400, 1))
COTTON = usual_ground("cotton")


def test_few_wavelengths_give_the_colour_of_the_full_tables():
    whole = (
        COTTON.k_over_s(WAVELENGTHS_NM)
        + (HELD.yield_kg_per_g[:, None] * SEEN)[..., None]
        * shape(HELD.turn_nm, HELD.blue_frac, at_nm=WAVELENGTHS_NM)[:, None, :]
    )
    bare = HELD.surface_frac[:, None, None]
    full = lab_of_xyz(xyz_of_spectrum(bare + (1 - bare) * reflectance_of_k_over_s(whole)))
    assert lab_of_seen(SEEN, HELD, ground=COTTON) == pytest.approx(full, abs=0.05)


def test_published_hues_of_natural_indigo_on_cotton_cross_ours_at_each_lightness():
    lab = lab_of_seen(SEEN, HELD, ground=COTTON)
    hue, light = hue_deg_of_lab(lab), lab[..., 0]
    for least, most in zip(
        rows("indigo-munsell", "h_ab of 3.5 PB"), rows("indigo-munsell", "h_ab of 5.6 PB"), strict=True
    ):
        near = hue[np.abs(light - least.given["l_star"]) < 1.5]
        low, high = np.quantile(near, [0.05, 0.95])
        assert low < most.value
        assert high > least.value


def test_cloth_gets_darker_and_its_chroma_peaks_with_more_indigo():
    one = dataclasses.replace(HELD, **{f.name: getattr(HELD, f.name)[:1] for f in dataclasses.fields(HELD)})
    lab = lab_of_seen(SEEN[:1], one, ground=COTTON)[0]
    assert np.all(np.diff(lab[:, 0]) < 0)
    chroma = chroma_of_lab(lab)
    assert 0 < int(np.argmax(chroma)) < len(chroma) - 1
    depth = k_over_s_of_seen(SEEN[:1], one, ground=COTTON)[0]
    assert np.all(np.diff(depth) > 0)
    assert depth[-1] - depth[-2] < (SEEN[0, -1] - SEEN[0, -2]) * float(one.yield_kg_per_g[0])  # it stops growing


def test_without_indigo_it_is_the_undyed_cloth():
    plain = dataclasses.replace(HELD, surface_frac=np.zeros(400))
    assert lab_of_seen(np.zeros((400, 1)), plain, ground=COTTON)[0, 0] == pytest.approx(lab_of_ground(COTTON))


def test_a_measured_ground_is_met_in_lightness_and_yellowness():
    for lab in ((92.0, 0.0, 4.0), (78.0, 2.0, 16.0), (94.0, 1.0, -6.0)):
        found = lab_of_ground(ground_of_lab(lab))
        assert found[[0, 2]] == pytest.approx([lab[0], lab[2]], abs=1e-5)


def test_dyed_cloth_is_no_ground():
    with pytest.raises(InputError, match="no undyed cloth"):
        ground_of_lab((35.0, -2.0, -22.0))
