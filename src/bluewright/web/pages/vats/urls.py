"""Vats: list, recipe and making, one vat and why, looks, additions, faults, end, and the ways back."""

from django.urls import path

from bluewright.web.pages.vats.views import faults, plans, rows, vats

urlpatterns = [
    path("", vats.index, name="vats.index"),
    path("plan/", plans.plan, name="vats.plan"),
    path("<uuid:key>/", vats.show, name="vats.show"),
    path("<uuid:key>/why/<str:figure>/", vats.why, name="vats.why"),
    path("<uuid:key>/change/", vats.change, name="vats.change"),
    path("<uuid:key>/delete/", vats.delete, name="vats.delete"),
    path("<uuid:key>/restore/", vats.restore, name="vats.restore"),
    path("<uuid:key>/end/", vats.end, name="vats.end"),
    path("<uuid:key>/go-on/", vats.go_on, name="vats.go_on"),
    path("<uuid:key>/fault/", faults.fault, name="vats.fault"),
    path("<uuid:key>/look/", rows.look, name="vats.look"),
    path("<uuid:key>/add/", rows.add, name="vats.add"),
    path("<uuid:key>/sharpen/", rows.sharpen, name="vats.sharpen"),
    path("<uuid:key>/readings/<uuid:row>/change/", rows.change_reading, name="vats.change_reading"),
    path("<uuid:key>/readings/<uuid:row>/delete/", rows.delete_reading, name="vats.delete_reading"),
    path("<uuid:key>/readings/<uuid:row>/restore/", rows.restore_reading, name="vats.restore_reading"),
    path("<uuid:key>/additions/<uuid:row>/change/", rows.change_addition, name="vats.change_addition"),
    path("<uuid:key>/additions/<uuid:row>/delete/", rows.delete_addition, name="vats.delete_addition"),
    path("<uuid:key>/additions/<uuid:row>/restore/", rows.restore_addition, name="vats.restore_addition"),
]
