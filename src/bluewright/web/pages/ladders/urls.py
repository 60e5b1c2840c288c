"""Ladders: the list, a plan, one ladder with its fit, the checklist at the vat, its strips and their colours."""

from django.urls import path

from bluewright.web.pages.ladders.views import at_the_vat, measured, plain

urlpatterns = [
    path("", plain.index, name="ladders.index"),
    path("add/", plain.add, name="ladders.add"),
    path("<uuid:key>/", plain.show, name="ladders.show"),
    path("<uuid:key>/why/<str:figure>/", plain.why, name="ladders.why"),
    path("<uuid:key>/change/", plain.change, name="ladders.change"),
    path("<uuid:key>/delete/", plain.delete, name="ladders.delete"),
    path("<uuid:key>/restore/", plain.restore, name="ladders.restore"),
    path("<uuid:key>/dips/", at_the_vat.dips, name="ladders.dips"),
    path("<uuid:key>/dips/in/", at_the_vat.dip_in, name="ladders.dip_in"),
    path("<uuid:key>/dips/out/", at_the_vat.dip_out, name="ladders.dip_out"),
    path("<uuid:key>/dips/add/", at_the_vat.add_dip, name="ladders.add_dip"),
    path("<uuid:key>/dips/<uuid:row>/back-in/", at_the_vat.back_in, name="ladders.back_in"),
    path("<uuid:key>/dips/<uuid:row>/change/", at_the_vat.change_dip, name="ladders.change_dip"),
    path("<uuid:key>/dips/<uuid:row>/delete/", at_the_vat.delete_dip, name="ladders.delete_dip"),
    path("<uuid:key>/dips/<uuid:row>/restore/", at_the_vat.restore_dip, name="ladders.restore_dip"),
    path("<uuid:key>/strips/", measured.strips, name="ladders.strips"),
    path("<uuid:key>/strips/add/", measured.add_strip, name="ladders.add_strip"),
    path("<uuid:key>/strips/<uuid:row>/delete/", measured.delete_strip, name="ladders.delete_strip"),
    path("<uuid:key>/strips/<uuid:row>/restore/", measured.restore_strip, name="ladders.restore_strip"),
    path("<uuid:key>/colours/<uuid:photo>/", measured.colours, name="ladders.colours"),
    path("<uuid:key>/done/", measured.done, name="ladders.done"),
]
