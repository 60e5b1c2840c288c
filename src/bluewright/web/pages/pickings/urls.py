"""Pickings: list, a new one, one picking, its correction, and the way out and back."""

from django.urls import path

from bluewright.web.pages.pickings import views

urlpatterns = [
    path("", views.index, name="pickings.index"),
    path("add/", views.add, name="pickings.add"),
    path("<uuid:key>/", views.show, name="pickings.show"),
    path("<uuid:key>/change/", views.change, name="pickings.change"),
    path("<uuid:key>/delete/", views.delete, name="pickings.delete"),
    path("<uuid:key>/restore/", views.restore, name="pickings.restore"),
]
