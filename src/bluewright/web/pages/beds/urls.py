"""Beds: list with what was taken, a new one, one bed, its correction, and the way out and back."""

from django.urls import path

from bluewright.web.pages.beds import views

urlpatterns = [
    path("", views.index, name="beds.index"),
    path("add/", views.add, name="beds.add"),
    path("<uuid:key>/", views.show, name="beds.show"),
    path("<uuid:key>/change/", views.change, name="beds.change"),
    path("<uuid:key>/delete/", views.delete, name="beds.delete"),
    path("<uuid:key>/restore/", views.restore, name="beds.restore"),
]
