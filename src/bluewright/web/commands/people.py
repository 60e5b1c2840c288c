"""`bluewright people`: who may come in from a phone: add, list, role, passphrase, shut-out."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from getpass import getpass
from pathlib import Path

from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.web import home

ROLES = ("owner", "helper", "onlooker")


def run(arguments: Sequence[str]) -> int:
    """Do what is asked with the people of the garden in `--home`."""
    asked = _parser().parse_args(arguments)
    folder = Path(asked.home).resolve()
    try:
        home.use(folder)
    except OSError as error:
        print(f"bluewright people: cannot write in the folder {asked.home}: {error.strerror}", file=sys.stderr)
        return 2
    try:
        home.migrate(folder)
        return _do(asked)
    except BluewrightError as error:
        print(f"bluewright people: {error}", file=sys.stderr)
        return 2


def let_in(name: str, role: str) -> None:
    """Ask for a passphrase, or make one and show it; then write the person. Raises InputError as the action does."""
    from bluewright.journal.actions import people as actions

    chosen = _asked_passphrase()
    passphrase = chosen or actions.made_passphrase()
    person = actions.add_person(name, role=role, passphrase=passphrase)
    _tell(person.user.get_username(), None if chosen else passphrase)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="bluewright people",
        description="Who may come in from a phone: owner (everything), helper (writes work), onlooker (looks on).",
        epilog="example: bluewright people add Rowan --role helper --home my-garden",
    )
    verbs = parser.add_subparsers(dest="verb", required=True, metavar="VERB")
    told = {
        "list": "who may come in",
        "add": "let somebody in; without a terminal a passphrase is made and shown",
        "role": "give somebody another role",
        "passphrase": "give somebody another passphrase; let somebody in again",
        "shut-out": "let somebody in no more",
    }
    for verb, help_text in told.items():
        one = verbs.add_parser(verb, help=help_text)
        home.add_home(one)
        if verb != "list":
            one.add_argument("name", metavar="NAME")
        if verb in {"add", "role"}:
            one.add_argument(
                "--role", choices=ROLES, default="helper" if verb == "add" else None, required=verb == "role"
            )
    return parser


def _do(asked: argparse.Namespace) -> int:
    from bluewright.journal.actions import people as actions
    from bluewright.journal.queries import people

    if asked.verb == "list":
        for one in people.people():
            print(f"{one.user.get_username()}: {one.role}{', shut out' if one.shut_out_at else ''}")
        return 0
    if asked.verb == "add":
        let_in(asked.name, asked.role)
        return 0
    person = people.person(asked.name)
    if person is None:
        raise InputError(where="name", what=f"there is nobody called {asked.name}", right="see bluewright people list")
    name = person.user.get_username()
    if asked.verb == "role":
        actions.change_role(person, asked.role)
        print(f"{name} is {asked.role} now.")
    elif asked.verb == "shut-out":
        actions.shut_out(person)
        print(f"{name} is shut out. What they wrote stays.")
    else:
        chosen = _asked_passphrase()
        passphrase = chosen or actions.made_passphrase()
        actions.give_passphrase(person, passphrase)
        _tell(name, None if chosen else passphrase)
    return 0


def _asked_passphrase() -> str:
    """What was typed at the terminal; nothing if nobody can be asked, or nothing was typed.

    Raises InputError if it is not the same a second time.
    """
    typed = getpass("Passphrase (empty: one is made): ") if home.has_terminal() else ""
    if typed and getpass("The same again: ") != typed:
        raise InputError(where="passphrase", what="that was not the same", right="type it twice alike")
    return typed


def _tell(name: str, made: str | None) -> None:
    print(f"{name} may come in now." if made is None else f"{name} may come in now, by this passphrase:\n\n  {made}\n")
    if made is not None:
        print("Hand it on now: it is not kept and cannot be shown again.")
