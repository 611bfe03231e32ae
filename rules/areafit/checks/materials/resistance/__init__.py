"""The rule `chemical-resistance`: its questions, its answers, its words."""
