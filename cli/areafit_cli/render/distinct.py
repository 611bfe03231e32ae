"""Names that are given out once: the second of the same name gets a number."""


class Distinct:
    """Keeps count of names, so that equal findings do not hide each other."""

    def __init__(self) -> None:
        self._seen: dict[str, int] = {}

    def of(self, name: str) -> str:
        """The name itself the first time, then with `-2`, `-3` and so on, in order."""
        count = self._seen[name] = self._seen.get(name, 0) + 1
        return name if count == 1 else f"{name}-{count}"
