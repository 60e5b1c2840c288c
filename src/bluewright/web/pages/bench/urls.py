"""The bench: the list of calculators, and each of them."""

from django.urls import path

from bluewright.web.pages.bench import views

urlpatterns = [
    path("", views.index, name="bench.index"),
    path("<slug:calculator>/", views.show, name="bench.show"),
]
