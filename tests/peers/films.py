"""Films in air by ht, conductivity, vapour and wet bulbs by CoolProp, as JSON for temperatures in °C."""

import json
import sys

import ht
from CoolProp.CoolProp import HAPropsSI, PropsSI, get_global_param_string

SEA_LEVEL_PA = 101325.0
GRAVITY = 9.80665
SIZE_M = 0.1
COMPONENTS = ["Water", "Protein", "Fat", "Carbohydrate", "Fiber", "Ash"]


def air(output, celsius):
    return PropsSI(output, "T", celsius + 273.15, "P", SEA_LEVEL_PA, "Air")


def film(between):
    """Conductivity, kinematic viscosity and Prandtl number of air."""
    return air("L", between), air("V", between) / air("D", between), air("PRANDTL", between)


def still(surface, around):
    between = 0.5 * (surface + around)
    k, nu, prandtl = film(between)

    def grashof(size):
        return GRAVITY / (between + 273.15) * abs(surface - around) * size**3 / nu**2

    return {
        "surface": surface,
        "air": around,
        "ball": ht.Nu_sphere_Churchill(prandtl, grashof(2.0 * SIZE_M)) * k / (2.0 * SIZE_M),
        "cylinder": ht.Nu_horizontal_cylinder_Churchill_Chu(prandtl, grashof(SIZE_M)) * k / SIZE_M,
        "plate": ht.Nu_vertical_plate_Churchill(prandtl, grashof(SIZE_M)) * k / SIZE_M,
    }


def blown(speed, celsius):
    k, nu, prandtl = film(celsius)
    return {"speed": speed, "film": ht.Nu_cylinder_Churchill_Bernstein(speed * SIZE_M / nu, prandtl) * k / SIZE_M}


def radiates(surface, walls):
    flow = ht.q_rad(0.9, walls + 273.15, surface + 273.15)
    return {"surface": surface, "walls": walls, "film": flow / (walls - surface)}


def steam(celsius):
    kelvin = celsius + 273.15
    return {
        "celsius": celsius,
        "pascal": PropsSI("P", "T", kelvin, "Q", 1, "Water"),
        "latent": PropsSI("H", "T", kelvin, "Q", 1, "Water") - PropsSI("H", "T", kelvin, "Q", 0, "Water"),
    }


json.dump(
    {
        "versions": {"ht": ht.__version__, "CoolProp": get_global_param_string("version")},
        "oven": [still(surface, 180.0) for surface in (30.0, 100.0, 140.0)],
        "room": [still(surface, 22.0) for surface in (35.0, 60.0, 95.0)],
        "cold": [still(surface, 4.0) for surface in (8.0, 15.0, 25.0)],
        "fan": [blown(speed, 140.0) for speed in (0.5, 1.0, 2.0, 3.0)],
        "radiation": [radiates(*pair) for pair in ((30.0, 180.0), (100.0, 180.0), (140.0, 220.0), (25.0, 4.0))],
        "air": [{"celsius": celsius, "k": air("L", celsius)} for celsius in (0.0, 25.0, 60.0, 95.0)],
        "steam": [steam(celsius) for celsius in (10.0, 25.0, 40.0, 60.0, 80.0, 95.0)],
        "wet_bulb": [
            {"celsius": celsius, "humid": humid, "wet": HAPropsSI("Twb", "T", celsius + 273.15, "R", humid, "P", SEA_LEVEL_PA) - 273.15}
            for celsius, humid in ((22.0, 0.5), (27.0, 0.7), (4.0, 0.8), (35.0, 0.3))
        ],
        "foods": [
            {"of": name.lower(), "celsius": celsius, "k": PropsSI("L", "T", celsius + 273.15, "P", SEA_LEVEL_PA, "INCOMP::Food" + name)}
            for name in COMPONENTS
            for celsius in (5.0, 25.0, 60.0, 95.0)
        ],
    },
    sys.stdout,
)
