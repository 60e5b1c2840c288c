"""The growth of one bed: its page, a look, why, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.growing import views

urlpatterns = [
    path("<uuid:key>/", views.show, name="growing.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="growing.why"),
    path("<uuid:key>/look/", views.look, name="growing.look"),
    path("<uuid:key>/<uuid:row>/delete/", views.delete, name="growing.delete"),
    path("<uuid:key>/<uuid:row>/restore/", views.restore, name="growing.restore"),
]
