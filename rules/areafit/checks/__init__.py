"""The rules, one module each; families do not import each other."""
