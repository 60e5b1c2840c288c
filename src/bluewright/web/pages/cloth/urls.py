"""Cloth: the list, a piece from its scour to its story, the dip timer, home tests, the ways out and back."""

from django.urls import path

from bluewright.web.pages.cloth.views import cost, dips, fastness, pieces, story

urlpatterns = [
    path("", pieces.index, name="cloth.index"),
    path("add/", pieces.add, name="cloth.add"),
    path("<uuid:key>/", pieces.show, name="cloth.show"),
    path("<uuid:key>/change/", pieces.change, name="cloth.change"),
    path("<uuid:key>/scour/", pieces.scour, name="cloth.scour"),
    path("<uuid:key>/finish/", pieces.finish, name="cloth.finish"),
    path("<uuid:key>/unfinish/", pieces.unfinish, name="cloth.unfinish"),
    path("<uuid:key>/delete/", pieces.delete, name="cloth.delete"),
    path("<uuid:key>/restore/", pieces.restore, name="cloth.restore"),
    path("<uuid:key>/cost/", cost.cost, name="cloth.cost"),
    path("<uuid:key>/why/<str:figure>/", cost.why, name="cloth.why"),
    path("<uuid:key>/story/", story.story, name="cloth.story"),
    path("<uuid:key>/dips/", dips.dips, name="cloth.dips"),
    path("<uuid:key>/dips/in/", dips.dip_in, name="cloth.dip_in"),
    path("<uuid:key>/dips/out/", dips.dip_out, name="cloth.dip_out"),
    path("<uuid:key>/dips/add/", dips.add_dip, name="cloth.add_dip"),
    path("<uuid:key>/dips/<uuid:row>/back-in/", dips.back_in, name="cloth.back_in"),
    path("<uuid:key>/dips/<uuid:row>/change/", dips.change_dip, name="cloth.change_dip"),
    path("<uuid:key>/dips/<uuid:row>/delete/", dips.delete_dip, name="cloth.delete_dip"),
    path("<uuid:key>/dips/<uuid:row>/restore/", dips.restore_dip, name="cloth.restore_dip"),
    path("<uuid:key>/tests/add/", fastness.test, name="cloth.test"),
    path("<uuid:key>/tests/<uuid:row>/change/", fastness.change_test, name="cloth.change_test"),
    path("<uuid:key>/tests/<uuid:row>/delete/", fastness.delete_test, name="cloth.delete_test"),
    path("<uuid:key>/tests/<uuid:row>/restore/", fastness.restore_test, name="cloth.restore_test"),
]
