"""`bluewright stock left`: what is left in the jars and the cupboard."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.cost.stock import stock
from bluewright.science.cost.stock_record import StockRecord
from bluewright.words.stock import QUESTION, said

COMMAND = RecordCommand(
    words="stock left",
    question=QUESTION,
    record=StockRecord,
    compute=stock,
    said=said,
    example="stock-left",
)
run = COMMAND.run
