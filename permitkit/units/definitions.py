"""The units people write on site, defined in Pint's own words.

Pint's full list of some thousand units takes most of a second to read; these few take
milliseconds. A test holds every one of them to the full list.
"""

from __future__ import annotations

__all__ = ["DEFINITIONS"]

DEFINITIONS = """
kilo- = 1000
hecto- = 100
centi- = 1/100
milli- = 1/1000
mega- = 1000000
meter = [length] = m = metre
second = [time] = s
gram = [mass] = g
kelvin = [temperature]; offset: 0 = K
radian = []
percent = 1/100 = %
degree = 3.141592653589793238462643383279502884197 / 180 * radian
minute = 60 * second
hour = 60 * minute
inch = 2.54 * centimeter
foot = 12 * inch
yard = 3 * foot
mile = 5280 * foot
are = 100 * meter ** 2
hectare = 100 * are
liter = 1/1000 * meter ** 3
gallon = 231 * inch ** 3
pound = 0.45359237 * kilogram
short_ton = 2000 * pound
newton = kilogram * meter / second ** 2
pascal = newton / meter ** 2
force_pound = 9.80665 * meter / second ** 2 * pound
psi = force_pound / inch ** 2
ksi = 1000 * psi
degree_Celsius = kelvin; offset: 273.15
degree_Fahrenheit = 5/9 * kelvin; offset: 233.15 + 200/9
"""
