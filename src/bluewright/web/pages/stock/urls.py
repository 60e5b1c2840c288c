"""Stock: its page, and a table to take out."""

from django.urls import path

from bluewright.web.pages.stock import views

urlpatterns = [
    path("", views.index, name="stock.index"),
    path("why/<str:figure>/", views.why, name="stock.why"),
    path("stock.csv", views.csv, name="stock.csv"),
]
