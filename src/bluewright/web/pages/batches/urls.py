"""Batches: list, begin or join, one batch, change it, give it up, and the ways back."""

from django.urls import path

from bluewright.web.pages.batches import views

urlpatterns = [
    path("", views.index, name="batches.index"),
    path("begin/", views.begin, name="batches.begin"),
    path("<uuid:key>/", views.show, name="batches.show"),
    path("<uuid:key>/change/", views.change, name="batches.change"),
    path("<uuid:key>/end/", views.end, name="batches.end"),
    path("<uuid:key>/go-on/", views.go_on, name="batches.go_on"),
    path("<uuid:key>/delete/", views.delete, name="batches.delete"),
    path("<uuid:key>/restore/", views.restore, name="batches.restore"),
]
