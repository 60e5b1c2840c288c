"""The season book: the page, the same as a table to take out, and all looks."""

from django.urls import path

from bluewright.web.pages.book import views

urlpatterns = [
    path("", views.index, name="book.index"),
    path("batches.csv", views.csv, name="book.csv"),
    path("looks.csv", views.looks, name="book.looks"),
]
