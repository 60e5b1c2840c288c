"""The Python blocks of the docs are run as tests, each page from top to bottom."""

from sybil import Sybil
from sybil.parsers.markdown import PythonCodeBlockParser

pytest_collect_file = Sybil(parsers=[PythonCodeBlockParser()], patterns=["*.md"]).pytest()
