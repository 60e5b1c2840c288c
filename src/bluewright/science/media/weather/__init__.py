"""The weather of a season day by day: read, forecast, or filled from its neighbours and the climate, with its spread.

What several stages ask of the weather lives here: degree-days, the sun above the air, the evaporation of a grass field
(reference evapotranspiration), rain. Not here: what a plant does with it, nor the hours of a day (`media.air_temp`).
"""
