"""What is printed, by what it is of; with `?as=pdf` as a PDF."""

from django.urls import path

from bluewright.web.pages.prints import views

urlpatterns = [
    path("batch/<uuid:key>/", views.batch, name="prints.batch"),
    path("alkali/<uuid:key>/", views.alkali, name="prints.alkali"),
    path("jar/<uuid:key>/", views.jar, name="prints.jar"),
    path("cloth/<uuid:key>/", views.cloth, name="prints.cloth"),
    path("card/<uuid:key>/", views.card, name="prints.card"),
    path("vat/<uuid:key>/", views.vat, name="prints.vat"),
    path("trial/<uuid:key>/", views.trial, name="prints.trial"),
    path("plan/", views.plan, name="prints.plan"),
]
