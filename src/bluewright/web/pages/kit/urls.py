"""The kit: its list with what is typed, one thing corrected, out and back."""

from django.urls import path

from bluewright.web.pages.kit import views

urlpatterns = [
    path("", views.index, name="kit.index"),
    path("<uuid:key>/", views.change, name="kit.change"),
    path("<uuid:key>/delete/", views.delete, name="kit.delete"),
    path("<uuid:key>/restore/", views.restore, name="kit.restore"),
]
