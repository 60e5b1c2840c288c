"""The weather: the day's lowest and highest, read or forecast."""

from django.urls import path

from bluewright.web.pages.air import views

urlpatterns = [path("", views.days, name="air.days")]
