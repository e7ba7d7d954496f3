"""Buying and cutting: the cheapest boards and sheets that yield every piece, with proof of how cheap a plan can be.

`asked` and `plan` hold the values, `patterns` the ways to cut one board, `solver` the linear and integer programmes,
`cutting` the plan for one section, `ties` the choice among equally cheap plans.
"""
