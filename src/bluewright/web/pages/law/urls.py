"""The law of the place: what to mind, a check written down, and the way out and back."""

from django.urls import path

from bluewright.web.pages.law import views

urlpatterns = [
    path("", views.index, name="law.index"),
    path("check/", views.check, name="law.check"),
    path("<uuid:key>/delete/", views.delete, name="law.delete"),
    path("<uuid:key>/restore/", views.restore, name="law.restore"),
]
