"""Phones and people."""

from django.urls import path

from bluewright.web.pages.people import views

urlpatterns = [
    path("", views.index, name="people.index"),
    path("add/", views.add, name="people.add"),
    path("<int:key>/change/", views.change, name="people.change"),
    path("<int:key>/passphrase/", views.passphrase, name="people.passphrase"),
    path("<int:key>/shut-out/", views.shut_out, name="people.shut_out"),
]
