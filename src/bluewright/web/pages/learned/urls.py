"""The garden's memory: what was learned, a tub left out with its reason and back, what could be given away."""

from django.urls import path

from bluewright.web.pages.learned import views

urlpatterns = [
    path("", views.index, name="learned.index"),
    path("leave-out/", views.leave_out, name="learned.leave_out"),
    path("why/<str:figure>/", views.why, name="learned.why"),
    path("share/", views.share, name="learned.share"),
    path("share/file/", views.share_file, name="learned.share_file"),
    path("<uuid:key>/delete/", views.delete, name="learned.delete"),
    path("<uuid:key>/restore/", views.restore, name="learned.restore"),
]
