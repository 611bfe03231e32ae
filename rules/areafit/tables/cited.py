"""A value with the place it was taken from."""

from typing import Generic, TypeVar

from areafit.values import Frozen
from areafit.verdict import Basis

T = TypeVar("T")


class Cited(Frozen, Generic[T]):
    """One value of a table and where it stands.

    `system` names the list that the value belongs to where two published lists stand side by
    side: `iec`, `nfpa` or `nec`; it is empty where there is only one.
    """

    value: T
    source_id: str
    locator: str
    basis: Basis
    note: str = ""
    system: str = ""


class Laxer(Frozen):
    """A company's own value that is laxer than the shipped one, and what becomes of it.

    It governs if `approved` says by which role and when; else it is not used, and reports say so.
    """

    key: str
    column: str
    value: str
    shipped: str
    where: str
    reason: str
    approved: str = ""


class Problem(Frozen):
    """One fault of a table file: where it is and what to do about it."""

    file: str
    line: int
    message: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.message} {self.remedy}"


class TableError(ValueError):
    """A table cannot be read. `problems` holds every fault found, in the order of the file."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems
