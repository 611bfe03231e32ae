"""Judgements gathered into one immutable report."""
