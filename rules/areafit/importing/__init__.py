"""Exports of other systems to a list: cells are copied, and nothing is guessed from them."""
