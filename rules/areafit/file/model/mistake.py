"""What a field type says about a value that it cannot take."""


class Mistake(ValueError):  # noqa: N818 - it is one of many in a report, see InputErrors
    """A value that cannot be taken: what is wrong with it and what to write instead."""

    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy
