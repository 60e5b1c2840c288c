"""Assays: those of a jar, a new one by its method, one of them, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.assays import views

urlpatterns = [
    path("jar/<uuid:key>/", views.index, name="assays.index"),
    path("jar/<uuid:key>/why/<str:figure>/", views.jar_why, name="assays.jar_why"),
    path("jar/<uuid:key>/add/<str:method>/", views.add, name="assays.add"),
    path("<uuid:row>/", views.show, name="assays.show"),
    path("<uuid:row>/why/<str:figure>/", views.why, name="assays.why"),
    path("<uuid:row>/change/", views.change, name="assays.change"),
    path("<uuid:row>/delete/", views.delete, name="assays.delete"),
    path("<uuid:row>/restore/", views.restore, name="assays.restore"),
]
