"""Drying of one batch: its page, a new dish, weighings, the end, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.drying import views

urlpatterns = [
    path("<uuid:key>/", views.show, name="drying.show"),
    path("<uuid:key>/<uuid:row>/why/<str:figure>/", views.why, name="drying.why"),
    path("<uuid:key>/begin/", views.begin, name="drying.begin"),
    path("<uuid:key>/<uuid:row>/change/", views.change, name="drying.change"),
    path("<uuid:key>/<uuid:row>/weigh/", views.weigh, name="drying.weigh"),
    path("<uuid:key>/weighings/<uuid:row>/delete/", views.delete_weighing, name="drying.delete_weighing"),
    path("<uuid:key>/weighings/<uuid:row>/restore/", views.restore_weighing, name="drying.restore_weighing"),
    path("<uuid:key>/<uuid:row>/end/", views.end, name="drying.end"),
    path("<uuid:key>/<uuid:row>/go-on/", views.go_on, name="drying.go_on"),
    path("<uuid:key>/<uuid:row>/delete/", views.delete, name="drying.delete"),
    path("<uuid:key>/<uuid:row>/restore/", views.restore, name="drying.restore"),
]
