"""How it works, taught with an aircraft's own figures: lessons, and what each drawing comes to."""
