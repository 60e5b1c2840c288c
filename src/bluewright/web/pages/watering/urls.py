"""The water of one bed: its page, a note, why, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.watering import views

urlpatterns = [
    path("<uuid:key>/", views.show, name="watering.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="watering.why"),
    path("<uuid:key>/note/", views.note, name="watering.note"),
    path("<uuid:key>/<uuid:row>/delete/", views.delete, name="watering.delete"),
    path("<uuid:key>/<uuid:row>/restore/", views.restore, name="watering.restore"),
]
