"""Compare: trials laid down, set and told; what many batches say; the print."""

from django.urls import path

from bluewright.web.pages.compare import views

urlpatterns = [
    path("", views.index, name="compare.index"),
    path("batches/", views.batches, name="compare.batches"),
    path("batches/why/<str:figure>/", views.batches_why, name="compare.batches_why"),
    path("add/", views.add, name="compare.add"),
    path("<uuid:key>/", views.show, name="compare.show"),
    path("<uuid:key>/why/<str:figure>/", views.why, name="compare.why"),
    path("<uuid:key>/change/", views.change, name="compare.change"),
    path("<uuid:key>/open/", views.open, name="compare.open"),
    path("<uuid:key>/look/", views.look, name="compare.look"),
    path("<uuid:key>/end/", views.end, name="compare.end"),
    path("<uuid:key>/lots/<uuid:row>/", views.lot, name="compare.lot"),
    path("<uuid:key>/delete/", views.delete, name="compare.delete"),
    path("<uuid:key>/restore/", views.restore, name="compare.restore"),
]
