"""Airspeed reference cards and conversion tables from an aircraft's definition."""
