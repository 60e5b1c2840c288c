"""Pickings: list, and a new one."""

from django.urls import path

from bluewright.web.pages.pickings import views

urlpatterns = [
    path("", views.index, name="pickings.index"),
    path("add/", views.add, name="pickings.add"),
]
