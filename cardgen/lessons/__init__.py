"""Working and teaching from a document."""
