"""Django for the tests that need it, with an empty folder as home. Tests of the science never import this."""

import atexit
import os
import tempfile

import django

_home = tempfile.TemporaryDirectory(prefix="bluewright-tests-")
atexit.register(_home.cleanup)
os.environ["BLUEWRIGHT_HOME"] = _home.name
os.environ["DJANGO_SETTINGS_MODULE"] = "bluewright.web.settings"
django.setup()
