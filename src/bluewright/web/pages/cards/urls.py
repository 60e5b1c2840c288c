"""Cards: list, a new one, one card with what it was registered as, registering it, and the way out and back."""

from django.urls import path

from bluewright.web.pages.cards import views

urlpatterns = [
    path("", views.index, name="cards.index"),
    path("add/", views.add, name="cards.add"),
    path("<uuid:key>/", views.show, name="cards.show"),
    path("<uuid:key>/register/", views.register, name="cards.register"),
    path("<uuid:key>/registrations/<uuid:row>/delete/", views.delete_registration, name="cards.delete_registration"),
    path("<uuid:key>/registrations/<uuid:row>/restore/", views.restore_registration, name="cards.restore_registration"),
    path("<uuid:key>/delete/", views.delete, name="cards.delete"),
    path("<uuid:key>/restore/", views.restore, name="cards.restore"),
]
