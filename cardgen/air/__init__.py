"""Physics of air, airspeed and wind: pure functions on floats and numpy arrays, SI inside."""
