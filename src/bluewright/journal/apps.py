"""The Django application that holds the models."""

from django.apps import AppConfig


class JournalConfig(AppConfig):
    """The journal's models and migrations."""

    name = "bluewright.journal"
    label = "journal"
    default_auto_field = "django.db.models.BigAutoField"
