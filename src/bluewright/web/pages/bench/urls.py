"""The bench: the list of calculators, each of them, and why their figures are so."""

from django.urls import path

from bluewright.web.pages.bench import views

urlpatterns = [
    path("", views.index, name="bench.index"),
    path("<slug:calculator>/", views.show, name="bench.show"),
    path("<slug:calculator>/why/<str:figure>/", views.why, name="bench.why"),
]
