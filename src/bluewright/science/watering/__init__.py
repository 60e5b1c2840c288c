"""When does a bed want water, and how many litres on each square metre?

The root zone is one bucket: rain and watering fill it, plants and bare ground empty it at the pace of the weather, and
what overflows is lost below. Draw by draw, with weather that was read, forecast or filled, a soil whose store is known
within a range, and roots of a likely depth. Not here: the weather itself (`media.weather`), nor what thirst costs in
leaf.
"""
