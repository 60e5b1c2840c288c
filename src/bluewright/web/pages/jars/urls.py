"""Jars: list, fill, one jar, change it, take pigment out, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.jars import views

urlpatterns = [
    path("", views.index, name="jars.index"),
    path("reckon/", views.reckon, name="jars.reckon"),
    path("fill/", views.fill, name="jars.fill"),
    path("<uuid:key>/", views.show, name="jars.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="jars.why"),
    path("<uuid:key>/change/", views.change, name="jars.change"),
    path("<uuid:key>/take/", views.take, name="jars.take"),
    path("<uuid:key>/weigh/", views.weigh, name="jars.weigh"),
    path("<uuid:key>/taken/<uuid:taken>/delete/", views.put_back, name="jars.put_back"),
    path("<uuid:key>/taken/<uuid:taken>/restore/", views.take_again, name="jars.take_again"),
    path("<uuid:key>/delete/", views.delete, name="jars.delete"),
    path("<uuid:key>/restore/", views.restore, name="jars.restore"),
]
