"""From what was typed to rows, each measure as typed beside its value."""

from __future__ import annotations

import secrets
from typing import Any

from bluewright.journal.actions.steeps import LeafIn
from bluewright.journal.models import Garden, Reading, Steep, Strain
from bluewright.journal.models.steep import SIGN_FIELDS


def new_steep(data: dict[str, Any], *, garden: Garden) -> Steep:
    """The tub of a valid begin form."""
    return Steep(
        garden=garden,
        name=data["name"],
        plant=data["plant"],
        method=data["method"],
        started_at=data["started_at"],
        water_l=data["water"].value,
        water_typed=data["water"].typed,
        cut=data["cut"],
        covered=data["covered"],
        insulated=data["insulated"],
        sun=data["sun"],
        can_strain=" ".join(data["can_strain"].split()),
        seed=1 + secrets.randbelow(2**31 - 1),
    )


def leaf_parts(data: dict[str, Any]) -> list[LeafIn]:
    """Which pickings went in, and how much of each: all of it, or the mass typed shared out by mass."""
    pickings = list(data["pickings"])
    typed = data.get("leaf")
    if typed is None:
        return [LeafIn(picking=p, leaf_kg=p.leaf_kg, leaf_typed=p.leaf_typed) for p in pickings]
    total_kg = sum(p.leaf_kg for p in pickings)
    shares = [p.leaf_kg / total_kg for p in pickings]
    words = typed.typed if len(pickings) == 1 else ""
    return [
        LeafIn(picking=p, leaf_kg=typed.value * share, leaf_typed=words or f"{typed.value * share:.3g} kg")
        for p, share in zip(pickings, shares, strict=True)
    ]


def new_reading(data: dict[str, Any], *, steep: Steep) -> Reading:
    """The look of a valid form."""
    temp = data.get("temp")
    return Reading(
        steep=steep,
        taken_at=data["taken_at"],
        ph=data.get("ph"),
        temp_c=temp.value if temp else None,
        temp_typed=temp.typed if temp else "",
        note=data.get("note", ""),
        **{name: data.get(name) for name in SIGN_FIELDS},
    )


def new_strain(data: dict[str, Any], *, steep: Steep) -> Strain:
    """The straining of a valid form."""
    liquor, rinse = data.get("liquor"), data.get("rinse")
    return Strain(
        steep=steep,
        strained_at=data["strained_at"],
        squeeze=data["squeeze"],
        liquor_out_l=liquor.value if liquor else None,
        liquor_typed=liquor.typed if liquor else "",
        rinse_l=rinse.value if rinse else 0.0,
        rinse_typed=rinse.typed if rinse else "",
        note=data.get("note", ""),
    )
