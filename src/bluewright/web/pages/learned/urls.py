"""The garden's memory: what was learned, a tub left out and back, what could be given away, what others gave."""

from django.urls import path

from bluewright.web.pages.learned import views

urlpatterns = [
    path("", views.index, name="learned.index"),
    path("leave-out/", views.leave_out, name="learned.leave_out"),
    path("why/<str:figure>/", views.why, name="learned.why"),
    path("share/", views.share, name="learned.share"),
    path("share/file/", views.share_file, name="learned.share_file"),
    path("others/", views.others, name="learned.others"),
    path("others/look/", views.others_look, name="learned.others_look"),
    path("others/take-in/", views.take_in, name="learned.take_in"),
    path("others/<uuid:key>/delete/", views.others_delete, name="learned.others_delete"),
    path("others/<uuid:key>/restore/", views.others_restore, name="learned.others_restore"),
    path("<uuid:key>/delete/", views.delete, name="learned.delete"),
    path("<uuid:key>/restore/", views.restore, name="learned.restore"),
]
