"""The door: come in by name and passphrase, and leave."""

from django.urls import path

from bluewright.web.pages.door import views

urlpatterns = [
    path("", views.come_in, name="door.come_in"),
    path("leave/", views.leave, name="door.leave"),
]
