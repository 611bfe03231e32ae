"""How materials stand what they meet: rows, exposure relief, and what would stand it better."""
