"""Density of moist air by the CIPM-2007 equation; see air-density.md."""

from math import exp


def density(kelvin, pa, humidity):
    t = kelvin - 273.15
    saturation_pa = exp(1.2378847e-5 * kelvin**2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin)
    enhancement = 1.00062 + 3.14e-8 * pa + 5.6e-7 * t**2
    xv = humidity * enhancement * saturation_pa / pa
    first = (
        1.58123e-6
        - 2.9331e-8 * t
        + 1.1043e-10 * t**2
        + (5.707e-6 - 2.051e-8 * t) * xv
        + (1.9898e-4 - 2.376e-6 * t) * xv**2
    )
    ratio = pa / kelvin
    z = 1 - ratio * first + ratio**2 * (1.83e-11 - 0.765e-8 * xv**2)
    return 3.483740e-3 * pa / (z * kelvin) * (1 - 0.3780 * xv)


def gas_constant(kelvin, pa):
    return pa / (density(kelvin, pa, 0) * kelvin)


def cases():
    return {
        "dryGasConstantJPerKgK": {
            "15C100kPa": gas_constant(288.15, 100e3),
            "20C100kPa": gas_constant(293.15, 100e3),
            "27C100kPa": gas_constant(300.15, 100e3),
            "20C60kPa": gas_constant(293.15, 60e3),
        },
        "iso6358ReferenceKgPerM3": density(293.15, 100e3, 0.65),
        "dry20C100kPaKgPerM3": density(293.15, 100e3, 0),
    }
