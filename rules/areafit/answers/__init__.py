"""Answers built over demands or a report: purchase needs, open points, comparison of revisions."""
