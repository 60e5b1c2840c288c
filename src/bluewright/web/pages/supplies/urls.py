"""Supplies: their list with what is typed, one pack corrected, out and back."""

from django.urls import path

from bluewright.web.pages.supplies import views

urlpatterns = [
    path("", views.index, name="supplies.index"),
    path("<uuid:key>/", views.change, name="supplies.change"),
    path("<uuid:key>/delete/", views.delete, name="supplies.delete"),
    path("<uuid:key>/restore/", views.restore, name="supplies.restore"),
]
