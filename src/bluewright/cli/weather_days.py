"""`bluewright weather days`: degree-days, rain and evaporation of a season with gaps."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.media.weather.days import weather_days
from bluewright.science.media.weather.days_record import WeatherRecord
from bluewright.words.weather import QUESTION, said

COMMAND = RecordCommand(
    words="weather days",
    question=QUESTION,
    record=WeatherRecord,
    compute=weather_days,
    said=said,
    example="weather-days",
)
run = COMMAND.run
