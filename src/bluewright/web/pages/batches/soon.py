"""Addresses of pages that are being built: until they are there a link leads back to the batch's list."""

from typing import Any

from django.urls import NoReverseMatch
from django.urls import reverse as address


def reverse(name: str, kwargs: dict[str, Any] | None = None) -> str:
    """The address of a name, or the list of batches."""
    try:
        return address(name, kwargs=kwargs)
    except NoReverseMatch:
        return address("batches.index")
