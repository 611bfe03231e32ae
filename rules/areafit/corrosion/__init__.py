"""How materials stand what they meet: rows, relief, and what would stand it better."""
