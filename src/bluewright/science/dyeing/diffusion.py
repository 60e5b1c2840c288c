"""How far dye gets into a body that stands in liquor: Crank's solutions for a sheet, a cylinder and a sphere.

The surface is at equilibrium with the liquor from the start; diffusivity is constant. `fourier` is D t / r^2 of a
cylinder or sphere of radius r, or of a sheet of half thickness r. Source: Crank 1975, chapters 4 to 6 (from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats

Body = Literal["yarn", "sheet", "ball"]
"""A long cylinder; felt, paper or leather that both faces of are wet; a sphere."""
SIDES: Final[dict[Body, int]] = {"sheet": 1, "yarn": 2, "ball": 3}
"""Directions in which it is thin."""

TERMS: Final = 60
EARLY: Final = 1e-3
"""Fourier number below which the series would need more terms, and the dye stands in a skin at the surface."""
NODES: Final = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class _Modes:
    """Where each standing wave vanishes at the surface, and how much of the body's content it holds at first."""

    z: Floats
    weights: Floats


def uptake_frac(fourier: ArrayLike, *, body: Body = "yarn") -> Floats:
    """M(t) / M(infinity), the share of its equilibrium that a body has taken; the same shape.

    Series: 1 - sum 4/z^2 exp(-z^2 T) for a cylinder, z the zeros of J0; 2/z^2, z = (n - 1/2) pi, for a sheet; 6/z^2,
    z = n pi, for a sphere. Below T = 0.001 the skin: 2 d sqrt(T/pi) - d (d - 1) T / 2, d the directions it is thin in.
    """
    t = np.asarray(fourier, dtype=float)
    modes = _modes(body)
    late = 1.0 - np.exp(-(modes.z**2) * np.maximum(t, EARLY)[..., None]) @ modes.weights
    d = SIDES[body]
    early = 2.0 * d * np.sqrt(t / math.pi) - d * (d - 1) * t / 2.0
    return np.where(t < EARLY, early, late)


def outer_frac(fourier: ArrayLike, *, inner_radius_frac: float, body: Body = "yarn") -> Floats:
    """Mean concentration between `inner_radius_frac` of the way out and the surface, of that at equilibrium.

    What the whole took less what the core has. Below T = 0.001 all of it lies in the outer part.
    """
    t = np.asarray(fourier, dtype=float)
    d, a = SIDES[body], inner_radius_frac
    core = a**d
    if core == 0.0:
        return uptake_frac(t, body=body)
    modes = _modes(body)
    waves = np.exp(-(modes.z**2) * np.maximum(t, EARLY)[..., None])
    inside = np.maximum(core - waves @ (modes.weights * _content(a, body)), 0.0)
    held = np.where(t < EARLY, 0.0, inside)
    return np.asarray((uptake_frac(t, body=body) - held) / (1.0 - core))


def profile_frac(fourier: Floats, *, radius_frac: Floats, body: Body = "yarn") -> Floats:
    """Concentration at shares of the way from the middle (0) to the surface (1), over that at equilibrium: (n, k).

    A Fourier number below 0.001 counts as that: thinner skins are not drawn.
    """
    modes = _modes(body)
    amplitudes = modes.weights * modes.z / SIDES[body]
    shapes = np.stack([_shape(z * radius_frac, body) / _slope(z, body) for z in modes.z])
    waves = np.exp(-(modes.z**2) * np.maximum(fourier, EARLY)[:, None])
    return np.asarray(1.0 - (waves * amplitudes) @ shapes)


@cache
def bessel_zeros() -> Floats:
    """The first zeros of J0: McMahon's start (Abramowitz and Stegun 9.5.12), then Newton's method."""
    b = (np.arange(1, TERMS + 1) - 0.25) * math.pi
    z = b + 1.0 / (8.0 * b) - 124.0 / (3.0 * (8.0 * b) ** 3)
    for _ in range(3):
        z = z + bessel(0, z) / bessel(1, z)
    return np.asarray(z)


def bessel(order: int, at: ArrayLike) -> Floats:
    """J0 or J1 at arguments up to 300, by the mean of cos(n a - x sin a) over half a turn (A&S 9.1.21)."""
    angles = (np.arange(NODES) + 0.5) * math.pi / NODES
    x = np.asarray(at, dtype=float)
    return np.asarray(np.mean(np.cos(order * angles - x[..., None] * np.sin(angles)), axis=-1))


@cache
def _modes(body: Body) -> _Modes:
    n = np.arange(1, TERMS + 1)
    z = np.asarray({"yarn": bessel_zeros(), "sheet": (n - 0.5) * math.pi, "ball": n * math.pi}[body], dtype=float)
    return _Modes(z=z, weights=np.asarray(2.0 * SIDES[body] / z**2, dtype=float))


def _shape(zx: Floats, body: Body) -> Floats:
    """The standing wave: cos, J0, or sin(zx)/zx."""
    if body == "yarn":
        return bessel(0, zx)
    return np.cos(zx) if body == "sheet" else np.sinc(zx / math.pi)


def _slope(z: float, body: Body) -> float:
    """Minus the wave's slope at the surface, over z: its share of the flow out."""
    if body == "yarn":
        return float(bessel(1, z))
    return math.sin(z) if body == "sheet" else -math.cos(z) / z


@cache
def _content(a: float, body: Body) -> Floats:
    """What the part within `a` holds of each wave, over what the whole body holds."""
    modes = _modes(body)
    d = SIDES[body]
    inner = np.array([_flow(z, a, body) for z in modes.z])
    whole = np.array([_flow(z, 1.0, body) for z in modes.z])
    return np.asarray(a ** (d - 1) * inner / whole)


def _flow(z: float, a: float, body: Body) -> float:
    """Minus the slope of the wave at `a`: by the equation of diffusion its content is a^(d-1) times that, over z^2."""
    x = z * a
    if body == "yarn":
        return float(bessel(1, x))
    if body == "sheet":
        return math.sin(x)
    return 0.0 if x == 0 else (math.sin(x) - x * math.cos(x)) / x**2
