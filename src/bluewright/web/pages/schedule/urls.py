"""The schedule: its page, why, reckoning it again, its limits, days away, and the calendar."""

from django.urls import path

from bluewright.web.pages.schedule import views

urlpatterns = [
    path("", views.index, name="schedule.index"),
    path("why/<str:figure>/", views.why, name="schedule.why"),
    path("again/", views.again, name="schedule.again"),
    path("limits/", views.limits, name="schedule.limits"),
    path("away/", views.away, name="schedule.away"),
    path("away/<uuid:row>/delete/", views.delete, name="schedule.delete"),
    path("away/<uuid:row>/restore/", views.restore, name="schedule.restore"),
    path("season.ics", views.calendar, name="schedule.calendar"),
]
