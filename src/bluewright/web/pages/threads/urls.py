"""The thread of a bed, a picking, a tub, a batch, a jar, a vat or a piece of cloth: what a jar's label leads to."""

from django.urls import path

from bluewright.web.pages.threads import views

urlpatterns = [
    path("<str:kind>/<uuid:key>/", views.show, name="threads.show"),
]
