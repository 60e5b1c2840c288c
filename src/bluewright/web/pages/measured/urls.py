"""Measured colours: the list, a photo to draw boxes on with its answer at once, one measurement, out and back."""

from django.urls import path

from bluewright.web.pages.measured import views

urlpatterns = [
    path("", views.index, name="measured.index"),
    path("photo/<uuid:photo>/", views.draw, name="measured.draw"),
    path("photo/<uuid:photo>/at-once/", views.live, name="measured.live"),
    path("<uuid:key>/", views.show, name="measured.show"),
    path("<uuid:key>/delete/", views.delete, name="measured.delete"),
    path("<uuid:key>/restore/", views.restore, name="measured.restore"),
]
