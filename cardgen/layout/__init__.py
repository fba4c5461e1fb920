"""Where everything stands on printed sheets, and in which size of type, before they are made."""
