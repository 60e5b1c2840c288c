"""Possible records of any command, made from the types of its fields: ordinary values, the ends of every range, and
anything between. Lists that stand in an order are put in it, so that most records pass the checks across fields."""

import dataclasses
import random
import types
from datetime import UTC, date, datetime, time, timedelta
from math import exp, log
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from annotated_types import Ge, Gt, Le, Lt, MaxLen, MinLen
from pydantic import AwareDatetime
from pydantic.fields import FieldInfo

RISING = ("after_h", "after_min", "wash", "time", "day", "added_ml", "added_g", "filtrate_l", "wavelength_nm")
FALLING = ("interface_mm", "total_g")
START = datetime(2026, 7, 3, 10, tzinfo=UTC)


def any_record(kind: type, like: dict[str, Any], dice: random.Random) -> dict[str, Any]:
    """A record of `kind` as plain JSON values, `like` an example with some, many or all of its values thrown anew."""
    return _object(kind, like if dice.random() < 0.85 else None, dice, dice.choice([0.1, 0.2, 0.35, 0.6, 1.0]))


def _object(kind: type, like: dict[str, Any] | None, dice: random.Random, anew: float) -> dict[str, Any]:
    hints, found = get_type_hints(kind, include_extras=True), {}
    for field in dataclasses.fields(kind):
        given = None if like is None else like.get(field.name)
        required = field.default is dataclasses.MISSING
        if not required and dice.random() > (0.95 if given is not None else 0.5 * (anew if like else 1.0)):
            continue
        if field.name in {"version", "seed"}:
            found[field.name] = 1
        else:
            found[field.name] = _value(hints[field.name], given, dice, anew if given is not None else 1.0)
    return {name: value for name, value in found.items() if value is not None}


def _value(kind: Any, given: Any, dice: random.Random, anew: float) -> Any:
    origin, inner = get_origin(kind), get_args(kind)
    if dataclasses.is_dataclass(kind) and isinstance(kind, type):
        return _object(kind, given, dice, anew)
    if given is not None and dice.random() > anew:
        return given
    if origin in (Union, types.UnionType):
        return _value(dice.choice([each for each in inner if each is not type(None)]), given, dice, 1.0)
    if origin is Annotated:
        limits = [found for each in inner[1:] for found in (each.metadata if isinstance(each, FieldInfo) else [each])]
        return _limited(inner[0], limits, given, dice, anew)
    if origin is tuple:
        return _limited(kind, [], given, dice, anew)
    return dice.choice(inner) if origin is Literal else _plain(kind, dice)


def _plain(kind: Any, dice: random.Random) -> Any:
    hours = timedelta(hours=dice.choice([0, 1, 5, 24, 48, dice.uniform(-50, 300)]))
    thrown = {
        bool: dice.random() < 0.5,
        float: dice.uniform(0.0, 1000.0),
        str: "x",
        time: f"{dice.randint(0, 23):02d}:00",
        date: (date(2026, 1, 1) + timedelta(days=dice.randint(0, 364))).isoformat(),
        datetime: (START + hours).isoformat(),
        AwareDatetime: (START + hours).isoformat(),
    }
    return {} if get_origin(kind) is dict else thrown[kind]


def _limited(kind: Any, limits: list[Any], given: Any, dice: random.Random, anew: float) -> Any:
    least = next((each.ge if isinstance(each, Ge) else each.gt for each in limits if isinstance(each, Ge | Gt)), 0)
    most = next((each.le if isinstance(each, Le) else each.lt for each in limits if isinstance(each, Le | Lt)), 1000)
    if get_origin(kind) is tuple:
        few = next((each.min_length for each in limits if isinstance(each, MinLen)), 0)
        many = next((each.max_length for each in limits if isinstance(each, MaxLen)), 6)
        given = given or [None]
        count = dice.randint(few, max(few, min(many, 6)))
        return _in_order([_value(get_args(kind)[0], dice.choice(given), dice, anew) for _ in range(count)])
    if kind is int:
        return dice.randint(int(least), int(min(most, least + 1000)))
    if kind is not float:
        return _value(kind, given, dice, anew)
    strict = any(isinstance(each, Gt | Lt) for each in limits)
    if not strict and dice.random() < 0.24:
        return float(dice.choice([least, most]))
    if least >= 0 and dice.random() < 0.5:
        return min(exp(dice.uniform(log(max(least, 1e-6)), log(most))), float(most))
    return dice.uniform(least, most)


def _in_order(items: list[Any]) -> list[Any]:
    for name in (*RISING, *FALLING):
        if items and all(isinstance(item, dict) and name in item for item in items):
            ranked = sorted((item[name] for item in items), reverse=name in FALLING)
            for item, value in zip(items, ranked, strict=True):
                item[name] = value
    return items
