"""Tubs: list, begin, one tub and why its figures are so, look, strain, their corrections, the way out and back."""

from django.urls import path

from bluewright.web.pages.tubs import views

urlpatterns = [
    path("", views.index, name="tubs.index"),
    path("begin/", views.begin, name="tubs.begin"),
    path("<uuid:key>/", views.show, name="tubs.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="tubs.why"),
    path("<uuid:key>/change/", views.change, name="tubs.change"),
    path("<uuid:key>/delete/", views.delete, name="tubs.delete"),
    path("<uuid:key>/restore/", views.restore, name="tubs.restore"),
    path("<uuid:key>/look/", views.look, name="tubs.look"),
    path("<uuid:key>/strain/", views.strain, name="tubs.strain"),
    path("<uuid:key>/readings/<uuid:reading>/change/", views.change_reading, name="tubs.change_reading"),
    path("<uuid:key>/readings/<uuid:reading>/delete/", views.delete_reading, name="tubs.delete_reading"),
    path("<uuid:key>/readings/<uuid:reading>/restore/", views.restore_reading, name="tubs.restore_reading"),
    path("<uuid:key>/strain/<uuid:straining>/change/", views.change_strain, name="tubs.change_strain"),
    path("<uuid:key>/strain/<uuid:straining>/delete/", views.delete_strain, name="tubs.delete_strain"),
    path("<uuid:key>/strain/<uuid:straining>/restore/", views.restore_strain, name="tubs.restore_strain"),
]
