"""Building a whole site, all or nothing."""
