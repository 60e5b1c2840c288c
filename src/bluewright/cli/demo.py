"""`bluewright demo`: one invented steep, day by day, from the basket to the weighed jar, with every call and chart."""

from __future__ import annotations

import argparse
import json
import sys
import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any

import numpy as np

from bluewright.charts import answers as charts
from bluewright.cli import (
    air_time,
    alkali_dose,
    dry_curve,
    jar_yield,
    leaf_potential,
    settle_time,
    steep_call,
    strain_balance,
    tub_temp,
    wash_plan,
)
from bluewright.cli.record_command import RecordCommand, example_text
from bluewright.science import thread
from bluewright.science.alkali.dose import titration
from bluewright.science.base.bands import sd_of
from bluewright.science.base.records import read
from bluewright.science.leaf.record import PotentialAnswer
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.record import SteepRecord
from bluewright.science.steep.signs import SIGNS
from bluewright.science.strain.record import StrainAnswer
from bluewright.words.numbers import figure, moment, sentence
from bluewright.words.steep import headline, telling

WIDTH = 100
DEFAULT_OUT = "demo-out"


@dataclass(slots=True)
class Walk:
    """The demo under way: the invented garden's data, where charts go, and what was printed so far."""

    garden: dict[str, Any]
    out: Path
    say: Callable[[str], None]
    saved: list[str]
    warned: set[str]
    """Codes of cautions that were told already: each is told once."""

    def scene(self, when: str, title: str) -> None:
        """A heading."""
        self.say(f"\n== {when}: {title}\n")

    def tell(self, text: str) -> None:
        """Text, wrapped; tables and lists keep their lines."""
        for line in text.splitlines():
            self.say(line if line.startswith("  ") else textwrap.fill(line, WIDTH))

    def chart(self, name: str, svg: str) -> None:
        """Save a chart."""
        (self.out / f"{name}.svg").write_text(svg, encoding="utf-8")
        self.saved.append(f"{name}.svg")

    def ask(self, command: RecordCommand[Any, Any], record: dict[str, Any]) -> tuple[Any, list[str]]:
        """The answer of a command to a record, told in full; returned with its lines."""
        found = command.answer(json.dumps(record))
        return found, self.answer(command, found)

    def answer(self, command: RecordCommand[Any, Any], found: Any) -> list[str]:
        """Tell an answer, with those of its cautions that were not told before; returns its lines."""
        new = tuple(c for c in found.cautions if c.code not in self.warned)
        self.warned |= {c.code for c in new}
        said = command.say(replace(found, cautions=new))
        self.tell(said)
        return said.splitlines()


def run(arguments: Sequence[str]) -> int:
    """Walk the demo; charts are saved in the folder named by `--out`."""
    parser = argparse.ArgumentParser(
        prog="bluewright demo",
        description="One invented steep, day by day, from the basket to the weighed jar, with every call.",
        epilog="example: bluewright demo --out charts",
    )
    parser.add_argument("--out", default=DEFAULT_OUT, help=f"folder for the charts (default: {DEFAULT_OUT})")
    out = Path(parser.parse_args(arguments).out)
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        print(f"bluewright demo: cannot make the folder {out}: {error.strerror}", file=sys.stderr)
        return 2
    walk = Walk(garden=json.loads(example_text("demo-garden")), out=out, say=print, saved=[], warned=set())
    walk.say(f"Bluewright demo: {walk.garden['garden']}.")
    walk.tell(walk.garden["invented"])
    potential = basket(walk)
    heat(walk)
    call = steep(walk)
    strained = straining(walk)
    alkali(walk)
    airing(walk, call)
    settling(walk)
    drying(walk)
    jar(walk, potential, call, strained)
    walk.say(f"\nCharts saved in {out}: {', '.join(walk.saved)}")
    walk.say("Your own tub: python3 run.py steep call --example > tub.json")
    walk.say("change it, then:  python3 run.py steep call tub.json")
    return 0


def basket(walk: Walk) -> PotentialAnswer:
    """What the basket could give."""
    walk.scene("Fri 3 Jul 10:00", "6 kg of young woad leaf; what could it give?")
    found: PotentialAnswer = walk.ask(leaf_potential.COMMAND, walk.garden["basket"])[0]
    return found


def heat(walk: Walk) -> None:
    """How warm the tub will be, by the weather forecast."""
    walk.scene("Fri 3 Jul 11:00", "40 L of water at 14.5 C and the leaf are in the tub; how warm will it get?")
    found, said = walk.ask(tub_temp.COMMAND, walk.garden["heat"])
    walk.chart("tub-temp", charts.tub_chart(found, answer=said[0]))


def steep(walk: Walk) -> SteepAnswer:
    """Every look at the tub until the advice is to strain; returns the last call."""
    for record, look in records(walk.garden):
        fresh = record.now == record.started
        walk.scene(moment(record.now), "leaf and water meet" if fresh else "a look at the tub")
        walk.tell(f"Seen: {seen(look)}.")
        found = thread.strain_call(record, rng=np.random.default_rng(record.seed))
        if found.advice != "wait":
            break
        walk.tell(f"Call: {headline(found)}")
        walk.tell(telling(found))
    walk.tell("Call, in full:")
    walk.answer(steep_call.COMMAND, found)
    walk.chart("strain-call", charts.strain_chart(found, answer=sentence(headline(found))))
    return found


def records(garden: dict[str, Any]) -> Iterator[tuple[SteepRecord, dict[str, Any]]]:
    """The steep record as it stood at each look: air seen up to then, forecast beyond."""
    looks = garden["looks"]
    for count, look in enumerate(looks, start=1):
        now = datetime.fromisoformat(look["time"])
        air = [
            {"time": row["time"], "where": "air", "temp_c": row["seen_c"]}
            if datetime.fromisoformat(row["time"]) <= now
            else {"time": row["time"], "where": "air", "temp_c": row["forecast_c"], "forecast": True}
            for row in garden["air"]
        ]
        yield (
            read(SteepRecord, garden["steep"] | {"now": look["time"], "temps": air, "readings": looks[:count]}),
            look,
        )


def seen(look: dict[str, Any]) -> str:
    """What was noticed at a look, in words."""
    words = [f"tub {look['temp_c']:g} C"]
    words += [f"pH {look['ph']:g}"] if "ph" in look else []
    words += [f"{name.replace('_', ' ')}: {SIGNS[name].levels[level]}" for name, level in look.get("signs", {}).items()]
    return "; ".join(words)


def straining(walk: Walk) -> StrainAnswer:
    """Where the liquor is after straining."""
    walk.scene("Mon 6 Jul 09:00", "strained, wrung by hand, 39 L measured")
    found: StrainAnswer = walk.ask(strain_balance.COMMAND, walk.garden["strain"])[0]
    return found


def alkali(walk: Walk) -> None:
    """A jar titration, the first part of the dose, and the corrected rest."""
    liquor = walk.garden["liquor"]
    walk.scene("Mon 6 Jul 09:30", "half a litre titrated in a jar; how much ammonia for the tub?")
    first, said = walk.ask(alkali_dose.COMMAND, liquor)
    along = titration(first.inputs, until_amount=1.3 * first.dose.p95, rng=np.random.default_rng(first.inputs.seed))
    walk.chart("dose", charts.dose_chart(first, along, answer=said[0]))
    part_ml, ph = first.first_part, walk.garden["added"]["ph"]
    walk.scene("Mon 6 Jul 09:40", f"{figure(part_ml)} mL are in, stirred; the tub reads pH {ph:g}; the rest?")
    walk.ask(alkali_dose.COMMAND, liquor | {"added_so_far": [{"added_ml": part_ml, "ph": ph}]})


def airing(walk: Walk, call: SteepAnswer) -> None:
    """Pouring for air, with each look at foam and liquor, until it is done."""
    grams = call.recoverable_g.now
    record = walk.garden["airing"] | {"indigo_g": grams.p50, "indigo_sd_g": sd_of(grams)}
    looks = walk.garden["airing_looks"]
    for count, look in enumerate(looks, start=1):
        walk.scene("Mon 6 Jul", f"poured for {look['after_min']} minutes; enough?")
        found, said = walk.ask(air_time.COMMAND, record | {"done_min": look["after_min"], "readings": looks[:count]})
    walk.chart("airing", charts.air_chart(found, answer=said[0]))


def settling(walk: Walk) -> None:
    """The blue settles; decant and wash."""
    walk.scene("Mon 6 Jul 17:00", "the edge between clear and blue was read three times; when to decant?")
    found, said = walk.ask(settle_time.COMMAND, walk.garden["settle"])
    walk.chart("settling", charts.settle_chart(found, answer=said[0]))
    walk.scene("Tue 7 Jul 10:00", "decanted, washed once; how many more?")
    walk.ask(wash_plan.COMMAND, walk.garden["wash"])


def drying(walk: Walk) -> None:
    """The paste dries; first with three weighings, then with all."""
    dish = walk.garden["dry"]
    walk.scene("Fri 10 Jul", "the paste lies in a dish; three weighings; when will it be dry?")
    found, said = walk.ask(dry_curve.COMMAND, dish | {"weighings": dish["weighings"][:3]})
    walk.chart("drying", charts.dry_chart(found, answer=said[0]))
    walk.scene("Mon 13 Jul", "weighed again; dry?")
    walk.ask(dry_curve.COMMAND, dish)


def jar(walk: Walk, potential: PotentialAnswer, call: SteepAnswer, strained: StrainAnswer) -> None:
    """The jar: what it holds and where the rest went, with what the whole thread has said."""
    walk.scene("Mon 13 Jul", f"{walk.garden['jar']['pigment_g']:g} g in the jar; where did the rest go?")
    command = jar_yield.COMMAND
    alone = read(command.record, walk.garden["jar"])
    whole = thread.jar_record(alone, tubs=[thread.TubThread(potential=potential, call=call, strained=strained)])
    found = command.compute(whole, rng=np.random.default_rng(whole.seed))
    said = walk.answer(command, found)
    walk.chart("losses", charts.loss_chart(found, answer=said[2]))
