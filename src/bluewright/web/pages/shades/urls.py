"""Shades: what can be asked, a piece's forecast, the way to a swatch, and why their figures are so."""

from django.urls import path

from bluewright.web.pages.shades import views

urlpatterns = [
    path("", views.index, name="shades.index"),
    path("<uuid:key>/", views.show, name="shades.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="shades.why"),
    path("swatch/<uuid:key>/", views.match, name="shades.match"),
    path("swatch/<uuid:key>/why/<str:figure>/", views.match_why, name="shades.match_why"),
]
