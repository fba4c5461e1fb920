"""What is said of an aircraft: one frozen, plain-data record, its JSON, and its rounding."""
