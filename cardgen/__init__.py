"""Airspeed reference cards and conversion tables from an aircraft's definition."""

__version__ = "0.2.0"
