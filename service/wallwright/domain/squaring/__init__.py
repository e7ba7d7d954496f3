"""Squaring: what six measurements of a frame or a deck say, and what is to be done about it.

Lengths come in as grid integers and go out as grid integers. Between the two, the geometry of measurements is
reckoned in floats of grid units, since a measured figure closes only to the tape's error anyway.
"""
