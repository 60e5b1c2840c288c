"""What a plan of a season should not be trusted for, and what could hurt someone on the way."""

from __future__ import annotations

from bluewright.science.base.cautions import Caution
from bluewright.science.season.record import SeasonRecord

OLD_WEATHER_D = 3


def cautions(record: SeasonRecord) -> tuple[Caution, ...]:
    """Of the work that is planned, and of the figures."""
    found = [
        Caution(
            code="fermentation-gas",
            text="Steeping tubs give off carbon dioxide and, late, hydrogen sulphide. Keep them outdoors or in a "
            "draught, and never lean into a deep one.",
            source="common-practice",
        )
    ]
    if record.work.cut_h_per_kg is None or record.work.strain_h is None:
        text = "Hours of work are guesses until you give your own: time one cut and one straining."
        found.append(Caution(code="guessed-hours", text=text, source="common-practice"))
    if not record.weather.normals:
        text = "Without the garden's climate table every date is wide: give the twelve months."
        found.append(Caution(code="no-climate", text=text, source="common-practice"))
    read = [row.day for row in record.weather.days if not row.forecast]
    if read and (record.now - max(read)).days > OLD_WEATHER_D:
        text = f"The last day of weather is {max(read).isoformat()}: bring it up to date and plan again."
        found.append(Caution(code="old-weather", text=text, source="common-practice"))
    return tuple(found)
