"""The cautions in plain text: all of them under a report, one paragraph under an answer."""

from collections.abc import Iterator

from areafit.findings.cautions import CAUTIONS
from areafit_cli.render.paper import Paper

# The answer to a question is shorter than the full cautions; it defers to the same people.
BRIEF = (
    "Cautions: areafit compares stated facts with tables and clauses; it certifies nothing. The "
    "locally adopted code, the authority having jurisdiction and, where the law asks for it, a "
    "licensed or otherwise competent person decide. Confirm a pass on the delivered part; site "
    "data, the current standard and the safety data sheet outrank the tables. Conforming parts "
    "alone do not make a conforming machine."
)


def lines(paper: Paper, *, brief: bool = False) -> Iterator[str]:
    """The cautions after an empty line."""
    if brief:
        yield "\n"
        yield from paper.wrap(BRIEF)
        return
    yield paper.heading("Cautions")
    for caution in CAUTIONS:
        yield from paper.wrap(caution, "- ", "  ")
