"""Alkali: the cupboard, the dose of a batch, its parts and looks, its jar titrations, the card."""

from django.urls import path

from bluewright.web.pages.alkali.views import cupboard, dose, jars, parts

urlpatterns = [
    path("", cupboard.index, name="alkali.index"),
    path("add/", cupboard.add, name="alkali.add"),
    path("shelf/<uuid:alkali>/change/", cupboard.change, name="alkali.change"),
    path("shelf/<uuid:alkali>/delete/", cupboard.delete, name="alkali.delete"),
    path("shelf/<uuid:alkali>/restore/", cupboard.restore, name="alkali.restore"),
    path("shelf/<uuid:alkali>/used-up/", cupboard.use_up, name="alkali.use_up"),
    path("shelf/<uuid:alkali>/put-back/", cupboard.put_back, name="alkali.put_back"),
    path("<uuid:key>/dose/", dose.dose, name="alkali.dose"),
    path("<uuid:key>/why/<str:figure>/", dose.why, name="alkali.why"),
    path("<uuid:key>/aim/", dose.aim, name="alkali.aim"),
    path("<uuid:key>/look/", dose.look, name="alkali.look"),
    path("<uuid:key>/card/", dose.card, name="alkali.card"),
    path("<uuid:key>/parts/<uuid:row>/change/", parts.change_part, name="alkali.change_part"),
    path("<uuid:key>/parts/<uuid:row>/delete/", parts.delete_part, name="alkali.delete_part"),
    path("<uuid:key>/parts/<uuid:row>/restore/", parts.restore_part, name="alkali.restore_part"),
    path("<uuid:key>/looks/<uuid:row>/change/", parts.change_look, name="alkali.change_look"),
    path("<uuid:key>/looks/<uuid:row>/delete/", parts.delete_look, name="alkali.delete_look"),
    path("<uuid:key>/looks/<uuid:row>/restore/", parts.restore_look, name="alkali.restore_look"),
    path("<uuid:key>/jar/", jars.jar_test, name="alkali.jar_test"),
    path("<uuid:key>/jar/<uuid:test>/", jars.jar, name="alkali.jar"),
    path("<uuid:key>/jar/<uuid:test>/delete/", jars.delete_jar, name="alkali.delete_jar"),
    path("<uuid:key>/jar/<uuid:test>/restore/", jars.restore_jar, name="alkali.restore_jar"),
    path("<uuid:key>/jar/<uuid:test>/steps/<uuid:step>/delete/", jars.delete_step, name="alkali.delete_step"),
    path("<uuid:key>/jar/<uuid:test>/steps/<uuid:step>/restore/", jars.restore_step, name="alkali.restore_step"),
]
