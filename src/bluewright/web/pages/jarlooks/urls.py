"""Looks at jars of a tub or a batch: the series, a photo for it, its boxes with the answer at once, out and back."""

from django.urls import path

from bluewright.web.pages.jarlooks import views

urlpatterns = [
    path("how/jar/", views.how_jar, name="jarlooks.how_jar"),
    path("how/light/", views.how_light, name="jarlooks.how_light"),
    path("<slug:kind>/<uuid:key>/", views.show, name="jarlooks.show"),
    path("<slug:kind>/<uuid:key>/why/<str:figure>/", views.why, name="jarlooks.why"),
    path("<slug:kind>/<uuid:key>/photo/", views.add, name="jarlooks.add"),
    path("<slug:kind>/<uuid:key>/photo/<uuid:photo>/", views.draw, name="jarlooks.draw"),
    path("<slug:kind>/<uuid:key>/photo/<uuid:photo>/at-once/", views.live, name="jarlooks.live"),
    path("<slug:kind>/<uuid:key>/<uuid:row>/delete/", views.delete, name="jarlooks.delete"),
    path("<slug:kind>/<uuid:key>/<uuid:row>/restore/", views.restore, name="jarlooks.restore"),
]
