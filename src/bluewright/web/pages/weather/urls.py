"""The weather: the day's lowest and highest, read or forecast."""

from django.urls import path

from bluewright.web.pages.weather import views

urlpatterns = [path("", views.days, name="weather.days")]
