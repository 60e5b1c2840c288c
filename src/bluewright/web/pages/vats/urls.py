"""Vats: list, recipe and making, one vat and why, looks, additions, faults, end, and the ways back."""

from django.urls import path

from bluewright.web.pages.vats import fault_views, plan_views, row_views, views

urlpatterns = [
    path("", views.index, name="vats.index"),
    path("plan/", plan_views.plan, name="vats.plan"),
    path("<uuid:key>/", views.show, name="vats.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="vats.why"),
    path("<uuid:key>/change/", views.change, name="vats.change"),
    path("<uuid:key>/delete/", views.delete, name="vats.delete"),
    path("<uuid:key>/restore/", views.restore, name="vats.restore"),
    path("<uuid:key>/end/", views.end, name="vats.end"),
    path("<uuid:key>/go-on/", views.go_on, name="vats.go_on"),
    path("<uuid:key>/fault/", fault_views.fault, name="vats.fault"),
    path("<uuid:key>/look/", row_views.look, name="vats.look"),
    path("<uuid:key>/add/", row_views.add, name="vats.add"),
    path("<uuid:key>/sharpen/", row_views.sharpen, name="vats.sharpen"),
    path("<uuid:key>/readings/<uuid:row>/change/", row_views.change_reading, name="vats.change_reading"),
    path("<uuid:key>/readings/<uuid:row>/delete/", row_views.delete_reading, name="vats.delete_reading"),
    path("<uuid:key>/readings/<uuid:row>/restore/", row_views.restore_reading, name="vats.restore_reading"),
    path("<uuid:key>/additions/<uuid:row>/change/", row_views.change_addition, name="vats.change_addition"),
    path("<uuid:key>/additions/<uuid:row>/delete/", row_views.delete_addition, name="vats.delete_addition"),
    path("<uuid:key>/additions/<uuid:row>/restore/", row_views.restore_addition, name="vats.restore_addition"),
]
