"""Settings. One folder holds everything that is the grower's: `BLUEWRIGHT_HOME`, by default `garden` here."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

HOME = Path(os.environ.get("BLUEWRIGHT_HOME", "garden")).resolve()
HERE = Path(__file__).resolve().parent


def _secret(name: str) -> str:
    """A secret of this installation, which `serve` makes at the first start; without one a passing key.

    Reading the settings writes nothing: a linter or a test may do it anywhere.
    """
    path = HOME / name
    return path.read_text(encoding="utf-8") if path.exists() else secrets.token_urlsafe(50)


SECRET_KEY = _secret("secret.key")
DOOR = os.environ.get("BLUEWRIGHT_DOOR", "")
"""The address that phones in the house open; empty while this machine alone may ask."""
HOUSE_HOSTS = [name.lower() for name in os.environ.get("BLUEWRIGHT_HOSTS", "").split(",") if name]
"""This machine's names in the house. Whoever asks by one of them has to come in by passphrase; see `access`."""
DEBUG = False
ALLOWED_HOSTS = ["127.0.0.1", "localhost", "[::1]", *HOUSE_HOSTS]
ROOT_URLCONF = "bluewright.web.urls"
WSGI_APPLICATION = "bluewright.web.wsgi.application"
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django_htmx",
    "bluewright.journal",
    "bluewright.web",
]
MIDDLEWARE = [
    "bluewright.web.packing.Packed",
    "bluewright.web.policy.headers",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "bluewright.web.turns.in_turn",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "bluewright.web.tongue.speak",
    "bluewright.web.reading.dates_by_browser",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "bluewright.web.access.only_who_may",
    "bluewright.web.policy.limit_body",
    "bluewright.web.replanning.after_posts",
    "bluewright.web.trouble.InWords",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [HERE / "templates"],
        "APP_DIRS": False,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "bluewright.web.ui.context.garden",
                "bluewright.web.ui.context.standing",
            ],
            "libraries": {"ui": "bluewright.web.ui.tags"},
            "builtins": ["django.templatetags.i18n", "bluewright.web.ui.tags"],
        },
    }
]
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": HOME / "garden.sqlite3",
        "CONN_MAX_AGE": None,
        # Django's own default fails at once under contention; an immediate transaction waits its turn.
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": 10,
            # What was acknowledged is on the disk: docs/decisions/every-commit-to-disk.md
            "init_command": "PRAGMA journal_mode=WAL;PRAGMA synchronous=FULL;PRAGMA fullfsync=ON;"
            # What a statement may have to take back stands in memory: that each row counts costs 5 us, not 20.
            "PRAGMA foreign_keys=ON;PRAGMA cache_size=-8000;PRAGMA temp_store=MEMORY;",
        },
    }
}
STATIC_URL = "static/"
STATICFILES_DIRS = [HERE / "static"]
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {message}", "style": "{"}},
    "handlers": {
        "window": {"class": "logging.StreamHandler", "level": "ERROR", "formatter": "plain"},
        "file": {
            "class": "logging.handlers.RotatingFileHandler",
            "filename": HOME / "trouble.log",
            "level": "ERROR",
            "formatter": "plain",
            "maxBytes": 1_000_000,
            "backupCount": 1,
            "delay": True,
            "encoding": "utf-8",
        },
    },
    "loggers": {"django": {"handlers": ["window", "file"], "level": "WARNING", "propagate": False}},
}
USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en-gb"
LANGUAGES = [("en-gb", "English"), ("en-us", "English (US)")]
"""Those that are there. The browser's wish decides among them, and also how dates are written."""
LOCALE_PATHS = [HERE.parent / "locale"]
USE_I18N = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_CROSS_ORIGIN_OPENER_POLICY = None  # said by `policy`, where browsers heed it
X_FRAME_OPTIONS = "DENY"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}", "OPTIONS": options}
    for name, options in (
        ("MinimumLengthValidator", {"min_length": 10}),
        ("CommonPasswordValidator", {}),
        ("NumericPasswordValidator", {}),
        ("UserAttributeSimilarityValidator", {}),
    )
]
SESSION_COOKIE_NAME = "bluewright_session"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "bluewright.web.policy.stale"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 180
FORM_RENDERER = "django.forms.renderers.DjangoTemplates"
