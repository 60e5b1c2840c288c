"""Washing of one batch: the tap water, and acid for limed pigment. The rounds themselves stand with the settling."""

from django.urls import path

from bluewright.web.pages.washing import views

urlpatterns = [
    path("tap/", views.tap, name="washing.tap"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="washing.why"),
    path("<uuid:key>/acid/", views.acid, name="washing.acid"),
]
