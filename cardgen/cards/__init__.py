"""What is on a card: tables of cells that know where they come from. Knows no HTML."""
