"""How the docs are built: Sphinx with MyST, no page asks another host for anything."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent / "_ext"))

project = "Bluewright"
author = "The Bluewright developers"
copyright = "2026, the Bluewright developers"
extensions = ["myst_parser", "own_assets", "sign_pictures", "source_list"]
myst_heading_anchors = 3
myst_enable_extensions = ["colon_fence", "deflist"]
exclude_patterns = ["_build", "_ext", "conftest.py"]
html_theme = "furo"
html_title = "Bluewright"
html_static_path: list[str] = []
html_copy_source = False
html_show_sphinx = False
html_theme_options = {
    # Undyed linen and one blue; every text keeps 7:1 against its ground.
    "light_css_variables": {
        "color-background-primary": "#fbf8f0",
        "color-background-secondary": "#f7f1e3",
        "color-background-hover": "#efe7d3",
        "color-background-border": "#cfc5ac",
        "color-foreground-primary": "#16244a",
        "color-foreground-secondary": "#3a4567",
        "color-foreground-muted": "#3a4567",
        "color-foreground-border": "#8194c2",
        "color-brand-primary": "#2b427f",
        "color-brand-content": "#2b427f",
        "color-brand-visited": "#5c3a0c",
        "color-inline-code-background": "#f7f1e3",
        "color-code-background": "#f7f1e3",
        "color-code-foreground": "#16244a",
        "font-stack": "system-ui, 'Segoe UI', 'Helvetica Neue', 'DejaVu Sans', sans-serif",
    },
    "dark_css_variables": {
        "color-background-primary": "#0f1830",
        "color-background-secondary": "#131f3d",
        "color-background-hover": "#1b2a50",
        "color-background-border": "#2b427f",
        "color-foreground-primary": "#f7f1e3",
        "color-foreground-secondary": "#dbe1ee",
        "color-foreground-muted": "#b4c0dc",
        "color-foreground-border": "#8194c2",
        "color-brand-primary": "#b4c0dc",
        "color-brand-content": "#b4c0dc",
        "color-brand-visited": "#e4c99a",
        "color-inline-code-background": "#131f3d",
        "color-code-background": "#131f3d",
        "color-code-foreground": "#f7f1e3",
    },
}
