"""Lots: the question with its answer, and why a figure is so."""

from django.urls import path

from bluewright.web.pages.lots import views

urlpatterns = [
    path("", views.index, name="lots.index"),
    path("why/<str:figure>/", views.why, name="lots.why"),
]
