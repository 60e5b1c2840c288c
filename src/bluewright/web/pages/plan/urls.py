"""The plan: its page, why, how the garden works, a new want, one want, its correction, its mark, out and back."""

from django.urls import path

from bluewright.web.pages.plan import views

urlpatterns = [
    path("", views.index, name="plan.index"),
    path("why/<str:figure>/", views.why, name="plan.why"),
    path("basis/", views.basis, name="plan.basis"),
    path("add/<str:what>/", views.add, name="plan.add"),
    path("<uuid:key>/", views.show, name="plan.show"),
    path("<uuid:key>/change/", views.change, name="plan.change"),
    path("<uuid:key>/mark/<str:state>/", views.mark, name="plan.mark"),
    path("<uuid:key>/delete/", views.delete, name="plan.delete"),
    path("<uuid:key>/restore/", views.restore, name="plan.restore"),
]
