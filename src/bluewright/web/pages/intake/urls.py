"""Intake: what was brought in, a new file, how to read it, what became of it, and the way out and back."""

from django.urls import path

from bluewright.web.pages.intake import views

urlpatterns = [
    path("", views.index, name="intake.index"),
    path("add/", views.add, name="intake.add"),
    path("<uuid:key>/preview/", views.preview, name="intake.preview"),
    path("<uuid:key>/", views.show, name="intake.show"),
    path("<uuid:key>/delete/", views.delete, name="intake.delete"),
    path("<uuid:key>/restore/", views.restore, name="intake.restore"),
]
