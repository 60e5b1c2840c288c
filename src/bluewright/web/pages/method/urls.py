"""Method: the list of pages, and each of them."""

from django.urls import path

from bluewright.web.pages.method import views

urlpatterns = [
    path("", views.index, name="method.index"),
    path("<slug:name>/", views.show, name="method.show"),
]
