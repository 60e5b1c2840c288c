"""Gardens: begin, open, correct, take out and bring in one; what was taken out of it."""

from django.urls import path

from bluewright.web.pages.gardens import views

urlpatterns = [
    path("", views.begin, name="gardens.begin"),
    path("<uuid:key>/open/", views.open_one, name="gardens.open"),
    path("<uuid:key>/take-out/", views.take_out, name="gardens.take_out"),
    path("<uuid:key>/change/", views.change, name="gardens.change"),
    path("taken-out/", views.taken_out, name="gardens.taken_out"),
    path("bring-in/", views.bring_in, name="gardens.bring_in"),
    path("demo/", views.demo, name="gardens.demo"),
]
