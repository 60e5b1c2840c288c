"""The start page."""

from django.urls import path

from bluewright.web.pages.today import views

urlpatterns = [path("", views.today, name="today")]
