"""Vats: list, recipe and making, one vat and why, looks, additions, faults, end, and the ways back."""

from django.urls import path

from bluewright.web.pages.vats.views import additions, cost, faults, looks, plans, poured, vats

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
    path("<uuid:key>/cost/", cost.cost, name="vats.cost"),
    path("<uuid:key>/fault/", faults.fault, name="vats.fault"),
    path("<uuid:key>/look/", looks.look, name="vats.look"),
    path("<uuid:key>/add/", additions.add, name="vats.add"),
    path("<uuid:key>/sharpen/", additions.sharpen, name="vats.sharpen"),
    path("<uuid:key>/pour/", poured.pour, name="vats.pour"),
    path("<uuid:key>/poured/<uuid:row>/change/", poured.change_poured, name="vats.change_poured"),
    path("<uuid:key>/poured/<uuid:row>/delete/", poured.delete_poured, name="vats.delete_poured"),
    path("<uuid:key>/poured/<uuid:row>/restore/", poured.restore_poured, name="vats.restore_poured"),
    path("<uuid:key>/readings/<uuid:row>/change/", looks.change_reading, name="vats.change_reading"),
    path("<uuid:key>/readings/<uuid:row>/delete/", looks.delete_reading, name="vats.delete_reading"),
    path("<uuid:key>/readings/<uuid:row>/restore/", looks.restore_reading, name="vats.restore_reading"),
    path("<uuid:key>/additions/<uuid:row>/change/", additions.change_addition, name="vats.change_addition"),
    path("<uuid:key>/additions/<uuid:row>/delete/", additions.delete_addition, name="vats.delete_addition"),
    path("<uuid:key>/additions/<uuid:row>/delete-together/", additions.delete_together, name="vats.delete_together"),
    path("<uuid:key>/additions/<uuid:row>/restore-together/", additions.restore_together, name="vats.restore_together"),
    path("<uuid:key>/additions/<uuid:row>/restore/", additions.restore_addition, name="vats.restore_addition"),
]
