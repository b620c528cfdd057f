"""Prints specific heats, densities and boiling points from CoolProp as JSON, for temperatures in °C."""

import json
import sys

from CoolProp.CoolProp import PropsSI, get_global_param_string

SEA_LEVEL_PA = 101325.0
COMPONENTS = ["Water", "Protein", "Fat", "Carbohydrate", "Fiber", "Ash"]
CELSIUS = [-10.0, 5.0, 25.0, 45.0, 60.0, 90.0]
HEIGHTS_PA = [101325.0, 94210.0, 84310.0, 79680.0, 69680.0]


def at(fluid, output, celsius):
    return PropsSI(output, "T", celsius + 273.15, "P", SEA_LEVEL_PA, fluid)


foods = [
    {
        "of": name.lower(),
        "celsius": celsius,
        "c": at("INCOMP::Food" + name, "C", celsius),
        "rho": at("INCOMP::Food" + name, "D", celsius),
    }
    for name in COMPONENTS
    for celsius in CELSIUS
]
# Water by the formulation of Wagner and Pruss (IAPWS-95), which shares nothing with the food relation.
water = [
    {"celsius": celsius, "c": at("Water", "C", celsius), "rho": at("Water", "D", celsius)}
    for celsius in CELSIUS
    if celsius > 0.0
]
boiling = [
    {"pascal": pascal, "celsius": PropsSI("T", "P", pascal, "Q", 0, "Water") - 273.15}
    for pascal in HEIGHTS_PA
]
json.dump(
    {
        "version": get_global_param_string("version"),
        "foods": foods,
        "water": water,
        "boiling": boiling,
    },
    sys.stdout,
)
