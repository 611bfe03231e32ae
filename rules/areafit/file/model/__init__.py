"""The format of a bill of materials as models; their fields are named like those of the facts."""
