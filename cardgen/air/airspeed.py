"""Calibrated, equivalent and true airspeed and Mach number, each from each.

The exact relations of subsonic isentropic flow, as NASA Reference Publication
1046, Measurement of Aircraft Speed and Altitude (Gracey, 1980), gives them,
with a ratio of specific heats of 1.4. All roads lead through Mach number and
the impact pressure, which is total less static pressure.
"""

import numpy as np
from numpy.typing import NDArray

from cardgen.air.atmosphere import (
    SEA_LEVEL_PRESSURE,
    SEA_LEVEL_SPEED_OF_SOUND,
    pressure_altitude,
    speed_of_sound,
)
from cardgen.air.bounds import require
from cardgen.units import Values

_SONIC = 1.2**3.5 - 1.0  # impact to static pressure at Mach 1


def impact_pressure_from_mach(mach: Values, static_pressure: Values) -> Values:
    """Impact pressure of air that flows at a Mach number.

    Parameters
    ----------
    mach : float or array
        0 to below 1.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Impact pressure, Pa.

    Raises
    ------
    OutOfBoundsError
        If the Mach number is negative, or 1 or above, or the pressure is not
        above zero.

    Notes
    -----
    ``qc = p ((1 + 0.2 M**2) ** 3.5 - 1)``, NASA RP-1046.

    Examples
    --------
    >>> round(float(impact_pressure_from_mach(0.5, 101325.0)), 1)
    18868.0
    """
    require("Mach number", mach, "", least=0.0, below=1.0)
    require("static pressure", static_pressure, "Pa", above=0.0)
    return static_pressure * np.expm1(3.5 * np.log1p(0.2 * mach**2))


def mach_from_impact_pressure(impact_pressure: Values, static_pressure: Values) -> Values:
    """Mach number at which air has an impact pressure; inverse of the function above.

    Parameters
    ----------
    impact_pressure : float or array
        Pa, not negative.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Mach number.

    Raises
    ------
    OutOfBoundsError
        If a pressure is out of bounds, or the flow would reach Mach 1.

    Examples
    --------
    >>> round(float(mach_from_impact_pressure(18868.0, 101325.0)), 5)
    0.5
    """
    require("impact pressure", impact_pressure, "Pa", least=0.0)
    require("static pressure", static_pressure, "Pa", above=0.0)
    mach = np.sqrt(5.0 * np.expm1(np.log1p(impact_pressure / static_pressure) / 3.5))
    return require("Mach number", mach, "", below=1.0)


def mach_from_cas(cas: Values, static_pressure: Values) -> Values:
    """Mach number at a calibrated airspeed.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s, not negative and subsonic at sea level.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Mach number.

    Raises
    ------
    OutOfBoundsError
        If the speed is negative or the flow would reach Mach 1.

    Notes
    -----
    Calibrated airspeed is, by definition (14 CFR 1.1), the true airspeed that
    has the same impact pressure in standard air at sea level.

    Examples
    --------
    >>> round(float(mach_from_cas(100.0, 101325.0)), 5)
    0.29386
    """
    require("calibrated airspeed", cas, "m/s", least=0.0, below=SEA_LEVEL_SPEED_OF_SOUND)
    impact = impact_pressure_from_mach(cas / SEA_LEVEL_SPEED_OF_SOUND, SEA_LEVEL_PRESSURE)
    return mach_from_impact_pressure(impact, static_pressure)


def cas_from_mach(mach: Values, static_pressure: Values) -> Values:
    """Calibrated airspeed at a Mach number; inverse of `mach_from_cas`.

    Parameters
    ----------
    mach : float or array
        0 to below 1.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Calibrated airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds, or the calibrated airspeed would be
        supersonic at sea level.
    """
    impact = impact_pressure_from_mach(mach, static_pressure)
    ratio = np.sqrt(5.0 * np.expm1(np.log1p(impact / SEA_LEVEL_PRESSURE) / 3.5))
    cas = SEA_LEVEL_SPEED_OF_SOUND * ratio
    return require("calibrated airspeed", cas, "m/s", below=SEA_LEVEL_SPEED_OF_SOUND)


def is_subsonic(cas: Values, static_pressure: Values) -> NDArray[np.bool_]:
    """Whether a calibrated airspeed is slower than sound, there and at sea level.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s, zero or above, or not a number, which is not.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    array of bool
        True where all functions of this module have a value.

    Notes
    -----
    Impact pressure below ``p (1.2 ** 3.5 - 1)``, that of Mach 1 (NASA RP-1046),
    by more than a part in a billion.

    Examples
    --------
    >>> bool(is_subsonic(300.0, 101325.0)), bool(is_subsonic(300.0, 50000.0))
    (True, False)
    """
    slow = np.asarray(cas < SEA_LEVEL_SPEED_OF_SOUND)
    mach = np.where(slow, cas, 0.0) / SEA_LEVEL_SPEED_OF_SOUND
    impact = impact_pressure_from_mach(mach, SEA_LEVEL_PRESSURE)
    return slow & (impact < _SONIC * static_pressure * (1 - 1e-9))


def tas_from_mach(mach: Values, air_temperature: Values) -> Values:
    """True airspeed at a Mach number.

    Parameters
    ----------
    mach : float or array
        0 to below 1.
    air_temperature : float or array
        Outside (static) air temperature, K, above zero.

    Returns
    -------
    float or array
        True airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds.
    """
    require("Mach number", mach, "", least=0.0, below=1.0)
    return mach * speed_of_sound(air_temperature)


def mach_from_tas(tas: Values, air_temperature: Values) -> Values:
    """Mach number at a true airspeed; inverse of `tas_from_mach`.

    Parameters
    ----------
    tas : float or array
        True airspeed, m/s, not negative.
    air_temperature : float or array
        Outside (static) air temperature, K, above zero.

    Returns
    -------
    float or array
        Mach number.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds or the speed reaches that of sound.
    """
    require("true airspeed", tas, "m/s", least=0.0)
    return require("Mach number", tas / speed_of_sound(air_temperature), "", below=1.0)


def eas_from_mach(mach: Values, static_pressure: Values) -> Values:
    """Equivalent airspeed at a Mach number.

    Parameters
    ----------
    mach : float or array
        0 to below 1.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Equivalent airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds.

    Notes
    -----
    Equal dynamic pressure: ``rho0 EAS**2 = 1.4 p M**2``, NASA RP-1046.
    """
    require("Mach number", mach, "", least=0.0, below=1.0)
    require("static pressure", static_pressure, "Pa", above=0.0)
    return SEA_LEVEL_SPEED_OF_SOUND * mach * np.sqrt(static_pressure / SEA_LEVEL_PRESSURE)


def mach_from_eas(eas: Values, static_pressure: Values) -> Values:
    """Mach number at an equivalent airspeed; inverse of `eas_from_mach`.

    Parameters
    ----------
    eas : float or array
        Equivalent airspeed, m/s, not negative.
    static_pressure : float or array
        Pa, above zero.

    Returns
    -------
    float or array
        Mach number.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds or the flow would reach Mach 1.
    """
    require("equivalent airspeed", eas, "m/s", least=0.0)
    require("static pressure", static_pressure, "Pa", above=0.0)
    mach = eas / (SEA_LEVEL_SPEED_OF_SOUND * np.sqrt(static_pressure / SEA_LEVEL_PRESSURE))
    return require("Mach number", mach, "", below=1.0)


def tas_from_cas(cas: Values, static_pressure: Values, air_temperature: Values) -> Values:
    """True airspeed at a calibrated airspeed.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s.
    static_pressure : float or array
        Pa.
    air_temperature : float or array
        Outside (static) air temperature, K.

    Returns
    -------
    float or array
        True airspeed, m/s, of the shape that the inputs broadcast to.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds or the flow would reach Mach 1.

    Examples
    --------
    In standard air at sea level the two are equal, which is what 14 CFR 1.1
    says of calibrated airspeed.

    >>> round(float(tas_from_cas(60.0, 101325.0, 288.15)), 9)
    60.0
    """
    return tas_from_mach(mach_from_cas(cas, static_pressure), air_temperature)


def cas_from_tas(tas: Values, static_pressure: Values, air_temperature: Values) -> Values:
    """Calibrated airspeed at a true airspeed; inverse of `tas_from_cas`.

    Parameters
    ----------
    tas : float or array
        True airspeed, m/s.
    static_pressure : float or array
        Pa.
    air_temperature : float or array
        Outside (static) air temperature, K.

    Returns
    -------
    float or array
        Calibrated airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds or the flow would reach Mach 1.
    """
    return cas_from_mach(mach_from_tas(tas, air_temperature), static_pressure)


def eas_from_cas(cas: Values, static_pressure: Values) -> Values:
    """Equivalent airspeed at a calibrated airspeed: the compressibility correction.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s.
    static_pressure : float or array
        Pa.

    Returns
    -------
    float or array
        Equivalent airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds or the flow would reach Mach 1.
    """
    return eas_from_mach(mach_from_cas(cas, static_pressure), static_pressure)


def cas_from_eas(eas: Values, static_pressure: Values) -> Values:
    """Calibrated airspeed at an equivalent airspeed; inverse of `eas_from_cas`.

    Parameters
    ----------
    eas : float or array
        Equivalent airspeed, m/s.
    static_pressure : float or array
        Pa.

    Returns
    -------
    float or array
        Calibrated airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds or the flow would reach Mach 1.
    """
    return cas_from_mach(mach_from_eas(eas, static_pressure), static_pressure)


def impact_pressure_from_cas(cas: Values) -> Values:
    """Impact pressure that a calibrated airspeed stands for, whatever the air.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s, not negative and subsonic at sea level.

    Returns
    -------
    float or array
        Impact pressure, Pa.

    Raises
    ------
    OutOfBoundsError
        If the speed is out of bounds.

    Examples
    --------
    >>> round(float(impact_pressure_from_cas(50.0)), 1)
    1539.5
    """
    require("calibrated airspeed", cas, "m/s", least=0.0, below=SEA_LEVEL_SPEED_OF_SOUND)
    return impact_pressure_from_mach(cas / SEA_LEVEL_SPEED_OF_SOUND, SEA_LEVEL_PRESSURE)


def cas_from_impact_pressure(impact_pressure: Values) -> Values:
    """Calibrated airspeed that an impact pressure stands for; inverse of the function above.

    Parameters
    ----------
    impact_pressure : float or array
        Pa, not negative.

    Returns
    -------
    float or array
        Calibrated airspeed, m/s.

    Raises
    ------
    OutOfBoundsError
        If the pressure is out of bounds.

    Examples
    --------
    >>> round(float(cas_from_impact_pressure(1539.5)), 2)
    50.0
    """
    return SEA_LEVEL_SPEED_OF_SOUND * mach_from_impact_pressure(impact_pressure, SEA_LEVEL_PRESSURE)


def cas_with_blocked_static(cas: Values, static_pressure: Values, shut_in: Values) -> Values:
    """Airspeed that a faultless indicator shows whose static opening is blocked.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s.
    static_pressure : float or array
        Of the air outside, Pa, above zero.
    shut_in : float or array
        The static pressure that was shut in, Pa, above zero.

    Returns
    -------
    float or array
        m/s; zero where the pressure shut in is above the total pressure, as the pointer rests then.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds.

    Notes
    -----
    The capsule feels the total pressure, static and impact pressure together, the case around it
    what was shut in; the pointer shows the difference (FAA-H-8083-25B, chapter 8).

    Examples
    --------
    >>> round(float(cas_with_blocked_static(50.0, 84000.0, 84500.0)), 1)
    41.1
    """
    require("static pressure", static_pressure, "Pa", above=0.0)
    require("static pressure shut in", shut_in, "Pa", above=0.0)
    difference = impact_pressure_from_cas(cas) + static_pressure - shut_in
    return cas_from_impact_pressure(np.maximum(difference, 0.0))


def crossover_altitude(cas: Values, mach: Values) -> Values:
    """Pressure altitude at which a calibrated airspeed and a Mach number are the same speed.

    Parameters
    ----------
    cas : float or array
        Calibrated airspeed, m/s, above zero and subsonic at sea level.
    mach : float or array
        Above 0 and below 1.

    Returns
    -------
    float or array
        Pressure altitude, m. Below it the calibrated airspeed is the slower
        of the two, above it the Mach number.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds, or the two meet outside the standard
        atmosphere from -5000 to 20 000 m.

    Notes
    -----
    The static pressure at which the Mach number has the impact pressure of the
    calibrated airspeed (NASA RP-1046), as an altitude of ICAO Doc 7488.

    Examples
    --------
    >>> round(float(crossover_altitude(150.0, 0.7)))
    7664
    """
    require("calibrated airspeed", cas, "m/s", above=0.0, below=SEA_LEVEL_SPEED_OF_SOUND)
    require("Mach number", mach, "", above=0.0)
    impact = impact_pressure_from_mach(cas / SEA_LEVEL_SPEED_OF_SOUND, SEA_LEVEL_PRESSURE)
    return pressure_altitude(impact / impact_pressure_from_mach(mach, 1.0))


def total_temperature(air_temperature: Values, mach: Values) -> Values:
    """Temperature of the air brought to rest against the aircraft.

    Parameters
    ----------
    air_temperature : float or array
        Outside (static) air temperature, K, above zero.
    mach : float or array
        0 to below 1.

    Returns
    -------
    float or array
        Total air temperature, K; what a perfect probe measures.

    Raises
    ------
    OutOfBoundsError
        If an input is out of bounds.

    Notes
    -----
    ``Tt = T (1 + 0.2 M**2)``, NASA RP-1046.

    Examples
    --------
    >>> float(total_temperature(250.0, 0.5))
    262.5
    """
    require("air temperature", air_temperature, "K", above=0.0)
    require("Mach number", mach, "", least=0.0, below=1.0)
    return air_temperature * (1.0 + 0.2 * mach**2)
