"""Jar tests by photo: how to stand the jars, boxes on the photo, the series, and what the forecasts read of it."""
