{# The formulas of cardgen/air and cardgen/units.py, in SI, to which tests hold them: the standard
atmosphere to 20 km (ICAO Doc 7488), the exact relations of subsonic airspeeds (NASA RP-1046),
load factor (FAA-H-8083-25B, chapter 5), and the wind triangle by the law of sines. #}
"use strict";
const air = (() => {
  const GRAVITY = 9.80665; // m/s2
  const GAS_CONSTANT = 287.05287; // J/(kg K), of dry air
  const SEA_LEVEL_TEMPERATURE = 288.15; // K
  const SEA_LEVEL_PRESSURE = 101325; // Pa
  const SEA_LEVEL_DENSITY = SEA_LEVEL_PRESSURE / (GAS_CONSTANT * SEA_LEVEL_TEMPERATURE);
  const SEA_LEVEL_SPEED_OF_SOUND = (1.4 * GAS_CONSTANT * SEA_LEVEL_TEMPERATURE) ** 0.5;
  const LOWEST_ALTITUDE = -5000; // m
  const TROPOPAUSE = 11000;
  const HIGHEST_ALTITUDE = 20000;
  const LAPSE_RATE = 0.0065; // K/m, below the tropopause
  const TROPOPAUSE_TEMPERATURE = SEA_LEVEL_TEMPERATURE - LAPSE_RATE * TROPOPAUSE;
  const EXPONENT = GRAVITY / (GAS_CONSTANT * LAPSE_RATE);
  const SCALE_HEIGHT = (GAS_CONSTANT * TROPOPAUSE_TEMPERATURE) / GRAVITY; // m, above it
  const THETA = TROPOPAUSE_TEMPERATURE / SEA_LEVEL_TEMPERATURE;

  class OutOfBounds extends Error {}

  const within = (value, { least = -Infinity, most = Infinity, above = -Infinity, below = Infinity }) => {
    if (value >= least && value <= most && value > above && value < below) return value;
    throw new OutOfBounds();
  };
  const atAltitude = (altitude) => within(altitude, { least: LOWEST_ALTITUDE, most: HIGHEST_ALTITUDE });
  const subsonic = (mach) => within(mach, { least: 0, below: 1 });

  {# -- units: what to multiply with and to divide by, as Python has them, and an offset #}

  const INCH = 3386.389; // Pa, of mercury at 0 C, NIST SP 811
  const UNITS = {
    "m/s": [1, 1], kt: [463, 900], mph: [1397, 3125], "km/h": [5, 18],
    m: [1, 1], ft: [381, 1250], C: [1, 1, 273.15], F: [5, 9, 459.67], deg: [176855943800711, 10133099161583616],
    hPa: [100, 1], inHg: [INCH, 1], kg: [1, 1], lb: [45359237, 100000000],
  };
  const toSi = (value, unit) => {
    const [times, by, offset = 0] = UNITS[unit];
    return ((value + offset) * times) / by;
  };
  const fromSi = (value, unit) => {
    const [times, by, offset = 0] = UNITS[unit];
    return (value * by) / times - offset;
  };
  const divisor = (a, b) => (b ? divisor(b, a % b) : a);
  {# Between units of speed, or of weight, by one ratio of whole numbers. #}
  const isUnit = (unit) => unit in UNITS;
  const convert = (value, from, to) => {
    if (from === to) return value;
    const times = UNITS[from][0] * UNITS[to][1];
    const by = UNITS[from][1] * UNITS[to][0];
    const common = divisor(times, by);
    return (value * (times / common)) / (by / common);
  };
  const degreesOf = (kelvin, unit) => (unit === "F" ? (kelvin * 9) / 5 : kelvin); // of a difference

  {# -- the atmosphere #}

  const temperature = (altitude) =>
    SEA_LEVEL_TEMPERATURE - LAPSE_RATE * Math.min(atAltitude(altitude), TROPOPAUSE);

  const pressure = (altitude) => {
    const theta = temperature(altitude) / SEA_LEVEL_TEMPERATURE;
    const above = Math.max(altitude - TROPOPAUSE, 0);
    return SEA_LEVEL_PRESSURE * theta ** EXPONENT * Math.exp(-above / SCALE_HEIGHT);
  };

  const altitudeOfRatio = (ratio, exponent) => {
    const atTropopause = THETA ** exponent;
    if (ratio > atTropopause) {
      return (SEA_LEVEL_TEMPERATURE / LAPSE_RATE) * -Math.expm1(Math.log(ratio) / exponent);
    }
    return TROPOPAUSE - SCALE_HEIGHT * Math.log(ratio / atTropopause);
  };

  const pressureAltitude = (pascals) =>
    atAltitude(altitudeOfRatio(within(pascals, { above: 0 }) / SEA_LEVEL_PRESSURE, EXPONENT));

  const pressureAltitudeFromSetting = (shown, setting) =>
    atAltitude(shown + pressureAltitude(within(setting, { least: 80000, most: 110000 })));

  const densityAltitude = (altitude, kelvin) => {
    const density = pressure(altitude) / (GAS_CONSTANT * within(kelvin, { above: 0 }));
    return atAltitude(altitudeOfRatio(density / SEA_LEVEL_DENSITY, EXPONENT - 1));
  };

  const isaDeviation = (altitude, kelvin) => within(kelvin, { above: 0 }) - temperature(altitude);

  const speedOfSound = (kelvin) => Math.sqrt(1.4 * GAS_CONSTANT * within(kelvin, { above: 0 }));

  {# -- airspeeds: all roads lead through Mach number and impact pressure #}

  const impactOfMach = (mach, pascals) => pascals * Math.expm1(3.5 * Math.log1p(0.2 * subsonic(mach) ** 2));
  const ratioOfImpact = (impact, pascals) => Math.sqrt(5 * Math.expm1(Math.log1p(impact / pascals) / 3.5));

  const machFromCas = (cas, pascals) => {
    const impact = impactOfMach(cas / SEA_LEVEL_SPEED_OF_SOUND, SEA_LEVEL_PRESSURE);
    return subsonic(ratioOfImpact(impact, pascals));
  };
  const casFromMach = (mach, pascals) =>
    within(SEA_LEVEL_SPEED_OF_SOUND * ratioOfImpact(impactOfMach(mach, pascals), SEA_LEVEL_PRESSURE), {
      below: SEA_LEVEL_SPEED_OF_SOUND,
    });
  const easFromMach = (mach, pascals) =>
    SEA_LEVEL_SPEED_OF_SOUND * subsonic(mach) * Math.sqrt(pascals / SEA_LEVEL_PRESSURE);
  const impactOfCas = (cas) => impactOfMach(cas / SEA_LEVEL_SPEED_OF_SOUND, SEA_LEVEL_PRESSURE);
  const casOfImpact = (impact) => SEA_LEVEL_SPEED_OF_SOUND * subsonic(ratioOfImpact(impact, SEA_LEVEL_PRESSURE));
  const casWithBlockedStatic = (cas, pascals, shutIn) => casOfImpact(Math.max(impactOfCas(cas) + pascals - shutIn, 0));
  const tasFromMach = (mach, kelvin) => subsonic(mach) * speedOfSound(kelvin);
  const machFromTas = (tas, kelvin) => subsonic(within(tas, { least: 0 }) / speedOfSound(kelvin));
  const casFromTas = (tas, pascals, kelvin) => casFromMach(machFromTas(tas, kelvin), pascals);

  {# -- load and wind #}

  const loadFactor = (bank) => 1 / Math.cos(within(bank, { least: 0, below: Math.PI / 2 }));
  const speedRatio = (weights, load) =>
    Math.sqrt(within(weights, { above: 0 }) * within(load, { above: 0 }));

  const windComponents = (from, speed, course) => {
    const angle = from - course;
    return [within(speed, { least: 0 }) * Math.cos(angle), speed * Math.sin(angle)];
  };

  {# Heading and ground speed; null where the wind leaves no way along the course. #}
  const windTriangle = (tas, course, from, speed) => {
    const [headwind, crosswind] = windComponents(from, speed, course);
    if (Math.abs(crosswind) > within(tas, { least: 0 })) return null;
    const groundSpeed = Math.sqrt(tas ** 2 - crosswind ** 2) - headwind;
    if (groundSpeed <= 0) return null;
    const whole = 2 * Math.PI;
    const heading = (course + (tas && Math.asin(crosswind / tas))) % whole;
    return [heading < 0 ? (heading + whole) % whole : heading, groundSpeed];
  };

  return {
    OutOfBounds, toSi, fromSi, convert, isUnit, degreesOf, temperature, pressure,
    pressureAltitudeFromSetting, densityAltitude, isaDeviation, machFromCas, casFromMach,
    easFromMach, tasFromMach, casFromTas, impactOfCas, casOfImpact, casWithBlockedStatic, loadFactor, speedRatio, windComponents, windTriangle,
  };
})();
