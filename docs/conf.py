"""How the docs are built: Sphinx with MyST, no page asks another host for anything."""

project = "Bluewright"
author = "The Bluewright developers"
copyright = "2026, the Bluewright developers"  # noqa: A001
extensions = ["myst_parser"]
myst_heading_anchors = 3
myst_enable_extensions = ["colon_fence", "deflist"]
exclude_patterns = ["_build", "conftest.py"]
html_theme = "furo"
html_title = "Bluewright"
html_static_path: list[str] = []
