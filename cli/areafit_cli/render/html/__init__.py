"""The dossier for a design review: one self-contained page without scripts."""
