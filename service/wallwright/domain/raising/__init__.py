"""Raising: what a wall weighs, what it takes to tilt it up, and what keeps it up.

Lengths come in and go out as grid integers; volumes and moments are summed exactly. Forces, angles and winds are floats,
in pounds, degrees from the floor and miles an hour.
"""
