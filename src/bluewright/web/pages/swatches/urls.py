"""Swatches: the library, a new one, one swatch, its correction, two beside each other, and the way out and back."""

from django.urls import path

from bluewright.web.pages.swatches import views

urlpatterns = [
    path("", views.index, name="swatches.index"),
    path("add/", views.add, name="swatches.add"),
    path("compare/", views.compare, name="swatches.compare"),
    path("<uuid:key>/", views.show, name="swatches.show"),
    path("<uuid:key>/change/", views.change, name="swatches.change"),
    path("<uuid:key>/beside/<uuid:other>/why/<str:figure>/", views.why, name="swatches.why"),
    path("<uuid:key>/delete/", views.delete, name="swatches.delete"),
    path("<uuid:key>/restore/", views.restore, name="swatches.restore"),
]
