"""Photos: add to a thing, one photo, its pictures, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.photos import views

urlpatterns = [
    path("add/<slug:kind>/<uuid:thing>/", views.add, name="photos.add"),
    path("<uuid:key>/", views.show, name="photos.show"),
    path("<uuid:key>/<int:size>.jpg", views.image, name="photos.image"),
    path("<uuid:key>/delete/", views.delete, name="photos.delete"),
    path("<uuid:key>/restore/", views.restore, name="photos.restore"),
]
