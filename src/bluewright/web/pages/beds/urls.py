"""Beds: list with what was taken, and a new one."""

from django.urls import path

from bluewright.web.pages.beds import views

urlpatterns = [
    path("", views.index, name="beds.index"),
    path("add/", views.add, name="beds.add"),
]
