"""The International Standard Atmosphere, to 20 km, and what an altimeter makes of it.

Constants and layers are those of ICAO Doc 7488, Manual of the ICAO Standard
Atmosphere (3rd edition, 1993). Altitudes are geopotential.
"""

import numpy as np

from cardgen.air.bounds import require
from cardgen.units import Values

GRAVITY = 9.80665  # m/s2
GAS_CONSTANT = 287.05287  # J/(kg K), of dry air
HEAT_RATIO = 1.4  # of dry air

SEA_LEVEL_TEMPERATURE = 288.15  # K
SEA_LEVEL_PRESSURE = 101_325.0  # Pa
SEA_LEVEL_DENSITY = SEA_LEVEL_PRESSURE / (GAS_CONSTANT * SEA_LEVEL_TEMPERATURE)  # kg/m3
SEA_LEVEL_SPEED_OF_SOUND = (HEAT_RATIO * GAS_CONSTANT * SEA_LEVEL_TEMPERATURE) ** 0.5  # m/s

LOWEST_ALTITUDE = -5_000.0  # m
TROPOPAUSE = 11_000.0  # m
HIGHEST_ALTITUDE = 20_000.0  # m
LAPSE_RATE = 0.0065  # K/m, below the tropopause

TROPOPAUSE_TEMPERATURE = SEA_LEVEL_TEMPERATURE - LAPSE_RATE * TROPOPAUSE  # K
_EXPONENT = GRAVITY / (GAS_CONSTANT * LAPSE_RATE)
_SCALE_HEIGHT = GAS_CONSTANT * TROPOPAUSE_TEMPERATURE / GRAVITY  # m, above the tropopause
_TROPOPAUSE_PRESSURE_RATIO = (TROPOPAUSE_TEMPERATURE / SEA_LEVEL_TEMPERATURE) ** _EXPONENT
_TROPOPAUSE_DENSITY_RATIO = (TROPOPAUSE_TEMPERATURE / SEA_LEVEL_TEMPERATURE) ** (_EXPONENT - 1)


def temperature(altitude: Values) -> Values:
    """Temperature of the standard atmosphere.

    Parameters
    ----------
    altitude : float or array
        Pressure altitude, m, -5000 to 20 000.

    Returns
    -------
    float or array
        Temperature, K.

    Raises
    ------
    OutOfBoundsError
        Outside the altitudes given above.

    Notes
    -----
    ICAO Doc 7488: 288.15 K at sea level, falling 6.5 K each 1000 m to the
    tropopause at 11 000 m, constant from there to 20 000 m.

    Examples
    --------
    >>> float(temperature(2000.0))
    275.15
    """
    _require_altitude("pressure altitude", altitude)
    return SEA_LEVEL_TEMPERATURE - LAPSE_RATE * np.minimum(altitude, TROPOPAUSE)


def pressure(altitude: Values) -> Values:
    """Pressure of the standard atmosphere.

    Parameters
    ----------
    altitude : float or array
        Pressure altitude, m, -5000 to 20 000.

    Returns
    -------
    float or array
        Static pressure, Pa.

    Raises
    ------
    OutOfBoundsError
        Outside the altitudes given above.

    Notes
    -----
    ICAO Doc 7488: ``p = p0 (T / T0) ** (g / (R L))`` below the tropopause, an
    exponential of altitude above it.

    Examples
    --------
    >>> float(pressure(0.0))
    101325.0
    """
    theta = temperature(altitude) / SEA_LEVEL_TEMPERATURE
    above = np.maximum(altitude - TROPOPAUSE, 0.0)
    return SEA_LEVEL_PRESSURE * theta**_EXPONENT * np.exp(-above / _SCALE_HEIGHT)


def pressure_altitude(static_pressure: Values) -> Values:
    """Altitude at which the standard atmosphere has a given pressure.

    Parameters
    ----------
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Pressure altitude, m.

    Raises
    ------
    OutOfBoundsError
        If the altitude would lie outside -5000 to 20 000 m.

    Notes
    -----
    The inverse of `pressure`, ICAO Doc 7488.

    Examples
    --------
    >>> round(float(pressure_altitude(50000.0)), 1)
    5574.4
    """
    require("static pressure", static_pressure, "Pa", above=0.0)
    delta = static_pressure / SEA_LEVEL_PRESSURE
    altitude = _altitude_of_ratio(delta, _TROPOPAUSE_PRESSURE_RATIO, _EXPONENT)
    return _require_altitude("pressure altitude", altitude)


def pressure_altitude_from_setting(indicated_altitude: Values, altimeter_setting: Values) -> Values:
    """Pressure altitude of an altimeter that shows an altitude at a setting.

    Parameters
    ----------
    indicated_altitude : float or array
        What the altimeter shows, m.
    altimeter_setting : float or array
        QNH set on its scale, Pa, 80 000 to 110 000.

    Returns
    -------
    float or array
        Pressure altitude, m.

    Raises
    ------
    OutOfBoundsError
        If the setting is none that an altimeter could be given, or the
        pressure altitude lies outside -5000 to 20 000 m.

    Notes
    -----
    An altimeter shows the difference between two altitudes of the standard
    atmosphere: that of the static pressure and that of its setting. This is
    the barometric scale of 14 CFR Part 43, Appendix E, Table IV.

    Examples
    --------
    >>> float(pressure_altitude_from_setting(1000.0, 101325.0))
    1000.0
    """
    require("altimeter setting", altimeter_setting, "Pa", least=80_000.0, most=110_000.0)
    altitude = indicated_altitude + pressure_altitude(altimeter_setting)
    return _require_altitude("pressure altitude", altitude)


def indicated_altitude_from_pressure_altitude(
    altitude: Values, altimeter_setting: Values
) -> Values:
    """Return what an altimeter shows at a pressure altitude; inverse of the function above.

    Parameters
    ----------
    altitude : float or array
        Pressure altitude, m.
    altimeter_setting : float or array
        QNH, Pa, 80 000 to 110 000.

    Returns
    -------
    float or array
        Indicated altitude, m.

    Examples
    --------
    >>> float(indicated_altitude_from_pressure_altitude(1000.0, 101325.0))
    1000.0
    """
    require("altimeter setting", altimeter_setting, "Pa", least=80_000.0, most=110_000.0)
    return _require_altitude("pressure altitude", altitude) - pressure_altitude(altimeter_setting)


def density(static_pressure: Values, air_temperature: Values) -> Values:
    """Density of dry air, by the law of ideal gases.

    Parameters
    ----------
    static_pressure : float or array
        Pa, above zero.
    air_temperature : float or array
        K, above zero.

    Returns
    -------
    float or array
        kg/m3.

    Raises
    ------
    OutOfBoundsError
        If an input is not above zero.

    Notes
    -----
    ``rho = p / (R T)``, ICAO Doc 7488.

    Examples
    --------
    >>> round(float(density(101325.0, 288.15)), 4)
    1.225
    """
    require("static pressure", static_pressure, "Pa", above=0.0)
    require("air temperature", air_temperature, "K", above=0.0)
    return static_pressure / (GAS_CONSTANT * air_temperature)


def density_altitude(altitude: Values, air_temperature: Values) -> Values:
    """Altitude at which the standard atmosphere has the density of the air.

    Parameters
    ----------
    altitude : float or array
        Pressure altitude, m.
    air_temperature : float or array
        Outside air temperature, K.

    Returns
    -------
    float or array
        Density altitude, m.

    Raises
    ------
    OutOfBoundsError
        If either altitude lies outside -5000 to 20 000 m.

    Notes
    -----
    The density ratio of the standard atmosphere (ICAO Doc 7488), solved for
    altitude. Dry air: moisture makes the true density altitude a little higher.

    Examples
    --------
    >>> round(float(density_altitude(1000.0, 301.65)), 1)
    1692.9
    """
    ratio = density(pressure(altitude), air_temperature) / SEA_LEVEL_DENSITY
    found = _altitude_of_ratio(ratio, _TROPOPAUSE_DENSITY_RATIO, _EXPONENT - 1)
    return _require_altitude("density altitude", found)


def isa_deviation(altitude: Values, air_temperature: Values) -> Values:
    """Difference of the air's temperature from the standard atmosphere's.

    Parameters
    ----------
    altitude : float or array
        Pressure altitude, m.
    air_temperature : float or array
        K, above zero.

    Returns
    -------
    float or array
        K, positive where the air is warmer than standard.

    Examples
    --------
    >>> round(float(isa_deviation(2000.0, 285.15)), 6)
    10.0
    """
    require("air temperature", air_temperature, "K", above=0.0)
    return air_temperature - temperature(altitude)


def speed_of_sound(air_temperature: Values) -> Values:
    """Speed of sound in dry air.

    Parameters
    ----------
    air_temperature : float or array
        K, above zero.

    Returns
    -------
    float or array
        m/s.

    Raises
    ------
    OutOfBoundsError
        If the temperature is not above absolute zero.

    Notes
    -----
    ``a = sqrt(1.4 R T)``, ICAO Doc 7488.

    Examples
    --------
    >>> round(float(speed_of_sound(288.15)), 3)
    340.294
    """
    require("air temperature", air_temperature, "K", above=0.0)
    return np.sqrt(HEAT_RATIO * GAS_CONSTANT * air_temperature)


def _altitude_of_ratio(ratio: Values, at_tropopause: float, exponent: float) -> Values:
    """Solve a pressure or density ratio of the standard atmosphere for altitude."""
    below = (SEA_LEVEL_TEMPERATURE / LAPSE_RATE) * -np.expm1(np.log(ratio) / exponent)
    above = TROPOPAUSE - _SCALE_HEIGHT * np.log(ratio / at_tropopause)
    return np.where(ratio > at_tropopause, below, above)[()]


def _require_altitude(name: str, altitude: Values) -> Values:
    return require(name, altitude, "m", least=LOWEST_ALTITUDE, most=HIGHEST_ALTITUDE)
