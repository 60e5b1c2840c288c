"""The error tree. Every error says what is wrong, where, and what would be right."""

from __future__ import annotations

from collections.abc import Callable


class BluewrightError(Exception):
    """Anything Bluewright refuses or cannot do; catch this to catch them all."""


class InputError(BluewrightError, ValueError):
    """A value that cannot be: where it stands, what it is, and what would be right.

    `where` is the path of the field inside its record (`readings[3].ph`), so that a form, a command line and a
    script can all point at it.
    """

    def __init__(self, *, where: str, what: str, right: str) -> None:
        self.where = where
        self.what = what
        self.right = right
        super().__init__(f"{where}: {what}; {right}" if where else f"{what}; {right}")

    def __reduce__(self) -> tuple[Callable[[str, str, str], InputError], tuple[str, str, str]]:
        """How the error travels between processes: an exception's own way knows no keywords."""
        return _input_error, (self.where, self.what, self.right)

    def inside(self, path: str) -> InputError:
        """The same error seen from outside the part that raised it: `path` is put before `where`."""
        joint = "" if not self.where or self.where.startswith("[") else "."
        where = f"{path}{joint}{self.where}" if path else self.where
        return InputError(where=where, what=self.what, right=self.right)


class ModelError(BluewrightError):
    """Valid input that a model could not answer (a fit or a root that does not exist); says which and why."""


def _input_error(where: str, what: str, right: str) -> InputError:
    return InputError(where=where, what=what, right=right)
