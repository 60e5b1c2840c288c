"""Every page's address; a name `noun.verb` is `pages/<noun>/views.<verb>`."""

from django.urls import include, path

urlpatterns = [
    path("door/", include("bluewright.web.pages.door.urls")),
    path("people/", include("bluewright.web.pages.people.urls")),
    path("", include("bluewright.web.pages.today.urls")),
    path("gardens/", include("bluewright.web.pages.gardens.urls")),
    path("beds/", include("bluewright.web.pages.beds.urls")),
    path("pickings/", include("bluewright.web.pages.pickings.urls")),
    path("tubs/", include("bluewright.web.pages.tubs.urls")),
    path("batches/", include("bluewright.web.pages.batches.urls")),
    path("book/", include("bluewright.web.pages.book.urls")),
    path("photos/", include("bluewright.web.pages.photos.urls")),
    path("measured/", include("bluewright.web.pages.measured.urls")),
    path("jarlooks/", include("bluewright.web.pages.jarlooks.urls")),
    path("jars/", include("bluewright.web.pages.jars.urls")),
    path("assays/", include("bluewright.web.pages.assays.urls")),
    path("threads/", include("bluewright.web.pages.threads.urls")),
    path("airing/", include("bluewright.web.pages.airing.urls")),
    path("alkali/", include("bluewright.web.pages.alkali.urls")),
    path("prints/", include("bluewright.web.pages.prints.urls")),
    path("settling/", include("bluewright.web.pages.settling.urls")),
    path("drying/", include("bluewright.web.pages.drying.urls")),
    path("washing/", include("bluewright.web.pages.washing.urls")),
    path("method/", include("bluewright.web.pages.method.urls")),
    path("bench/", include("bluewright.web.pages.bench.urls")),
    path("intake/", include("bluewright.web.pages.intake.urls")),
    path("swatches/", include("bluewright.web.pages.swatches.urls")),
    path("cards/", include("bluewright.web.pages.cards.urls")),
    path("watering/", include("bluewright.web.pages.watering.urls")),
    path("weather/", include("bluewright.web.pages.weather.urls")),
]
