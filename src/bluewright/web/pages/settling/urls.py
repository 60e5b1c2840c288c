"""Settling of one batch: its page, leaving to stand, the edge, decanting, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.settling import views

urlpatterns = [
    path("<uuid:key>/", views.show, name="settling.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="settling.why"),
    path("<uuid:key>/stand/", views.stand, name="settling.stand"),
    path("<uuid:key>/<uuid:row>/change/", views.change, name="settling.change"),
    path("<uuid:key>/<uuid:row>/edge/", views.edge, name="settling.edge"),
    path("<uuid:key>/edges/<uuid:row>/delete/", views.delete_edge, name="settling.delete_edge"),
    path("<uuid:key>/edges/<uuid:row>/restore/", views.restore_edge, name="settling.restore_edge"),
    path("<uuid:key>/<uuid:row>/decant/", views.decant, name="settling.decant"),
    path("<uuid:key>/<uuid:row>/undecant/", views.undecant, name="settling.undecant"),
    path("<uuid:key>/<uuid:row>/redecant/", views.redecant, name="settling.redecant"),
    path("<uuid:key>/<uuid:row>/delete/", views.delete, name="settling.delete"),
    path("<uuid:key>/<uuid:row>/restore/", views.restore, name="settling.restore"),
]
