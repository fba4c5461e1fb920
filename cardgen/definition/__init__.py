"""What a school's YAML files say: read with line and column, typed, and merged."""
