"""Costs of a season: its page, notes of work and the clock, prices, a table to take out."""

from django.urls import path

from bluewright.web.pages.costs import views

urlpatterns = [
    path("", views.index, name="costs.index"),
    path("prices/", views.prices, name="costs.prices"),
    path("costs.csv", views.csv, name="costs.csv"),
    path("note/", views.note, name="costs.note"),
    path("start/", views.start, name="costs.start"),
    path("<uuid:key>/stop/", views.stop, name="costs.stop"),
    path("<uuid:key>/change/", views.change, name="costs.change"),
    path("<uuid:key>/delete/", views.delete, name="costs.delete"),
    path("<uuid:key>/restore/", views.restore, name="costs.restore"),
    path("<int:year>/why/<str:figure>/", views.why, name="costs.why"),
]
