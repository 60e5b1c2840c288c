"""What grew in one bed: its page, a year, its correction, why, and the way back from a mistake."""

from django.urls import path

from bluewright.web.pages.past import views

urlpatterns = [
    path("<uuid:key>/", views.show, name="past.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="past.why"),
    path("<uuid:key>/year/", views.year, name="past.year"),
    path("<uuid:key>/<uuid:row>/change/", views.change, name="past.change"),
    path("<uuid:key>/<uuid:row>/delete/", views.delete, name="past.delete"),
    path("<uuid:key>/<uuid:row>/restore/", views.restore, name="past.restore"),
]
