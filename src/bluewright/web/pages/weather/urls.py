"""The weather: the day's lowest, highest and rain, read or forecast; and the months as they usually are."""

from django.urls import path

from bluewright.web.pages.weather import views

urlpatterns = [
    path("", views.days, name="weather.days"),
    path("climate/", views.climate, name="weather.climate"),
]
