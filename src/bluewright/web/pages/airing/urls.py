"""Airing of one batch: its page, the way, the counter, looks, the end, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.airing import views

urlpatterns = [
    path("<uuid:key>/", views.show, name="airing.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="airing.why"),
    path("<uuid:key>/begin/", views.begin, name="airing.begin"),
    path("<uuid:key>/look/", views.look, name="airing.look"),
    path("<uuid:key>/looks/<uuid:row>/delete/", views.delete_look, name="airing.delete_look"),
    path("<uuid:key>/looks/<uuid:row>/restore/", views.restore_look, name="airing.restore_look"),
    path("<uuid:key>/<uuid:row>/change/", views.change, name="airing.change"),
    path("<uuid:key>/<uuid:row>/count/", views.count, name="airing.count"),
    path("<uuid:key>/<uuid:row>/end/", views.end, name="airing.end"),
    path("<uuid:key>/<uuid:row>/go-on/", views.go_on, name="airing.go_on"),
    path("<uuid:key>/<uuid:row>/delete/", views.delete, name="airing.delete"),
    path("<uuid:key>/<uuid:row>/restore/", views.restore, name="airing.restore"),
]
