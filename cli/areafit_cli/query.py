"""The work of `areafit part`: one part at one place, judged by the engine that judges lists."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

import areafit
from areafit.facts.evidence import EvidenceType
from areafit.findings.report import Answers, BomReport, Judged, SubjectReport
from areafit.values import replace
from areafit.verdict import Basis, Verdict, worst
from areafit.version import __version__
from areafit_cli import one_part, render, terminal, words
from areafit_cli.errors import Exit
from areafit_cli.render import Run, Style, summarise

Strings = Sequence[str]

# The options, for a call that is read without typer: importing typer takes longer than judging.
MANY = (
    "area",
    "substance",
    "chemical",
    "kind",
    "material",
    "exposure",
    "listing",
    "certificate",
    "declaration",
    "control_drawing",
    "assessment",
    "accept_unproven",
)
ONE = (
    "ambient",
    "layer",
    "document",
    "code",
    "edition",
    "rated_ambient",
    "surface_temperature",
    "ingress",
    "electrical_content",
    "entries",
    "device",
    "least_basis",
    "format_",
)
FLAGS = ("materials_complete", "no_contacts", "bonded", "quiet", "exit_zero")
_CLOSED = MappingProxyType(
    {"least_basis": tuple(basis.value for basis in Basis), "format_": ("text", "json")}
)
_FIELDS = MappingProxyType(
    {"--" + name.strip("_").replace("_", "-"): name for name in (*MANY, *ONE, *FLAGS)}
)


def read_call(arguments: Sequence[str]) -> Mapping[str, object] | None:
    """What a usual call states, as arguments of `answer`; None where typer must look at it.

    What is not understood here, help and every mistake included, is left to typer; tests hold that
    both read the same call alike.
    """
    many: dict[str, list[str]] = {}
    one: dict[str, object] = {}
    rest = iter(arguments)
    for argument in rest:
        option, equals, value = argument.partition("=")
        name = _FIELDS.get(option)
        if not argument.startswith("-"):
            many.setdefault("marking", []).append(argument)
        elif name is None or (name in FLAGS and equals):
            return None
        elif name in FLAGS:
            one[name] = True
        else:
            text = value if equals else next(rest, None)
            if text is None or text not in _CLOSED.get(name, (text,)):
                return None
            if name in MANY:
                many.setdefault(name, []).append(text)
            else:
                one[name] = text
    return {**many, **one}


def answer(
    *,
    marking: Strings = (),
    area: Strings = (),
    substance: Strings = (),
    chemical: Strings = (),
    ambient: str | None = None,
    layer: str | None = None,
    document: str | None = None,
    code: str | None = None,
    edition: str | None = None,
    kind: Strings = (),
    material: Strings = (),
    exposure: Strings = (),
    materials_complete: bool = False,
    no_contacts: bool = False,
    rated_ambient: str | None = None,
    surface_temperature: str | None = None,
    ingress: str | None = None,
    electrical_content: str | None = None,
    entries: str | None = None,
    device: str | None = None,
    bonded: bool = False,
    listing: Strings = (),
    certificate: Strings = (),
    declaration: Strings = (),
    control_drawing: Strings = (),
    assessment: Strings = (),
    accept_unproven: Strings = (),
    least_basis: str = Basis.MEMORY.value,
    quiet: bool = False,
    exit_zero: bool = False,
    format_: str = "text",
) -> Exit:
    """Judge the part, print the report and return the status of the gate.

    Raises:
        CallError: something stated cannot be read.
    """
    documents = (
        (EvidenceType.LISTING, listing),
        (EvidenceType.CERTIFICATE, certificate),
        (EvidenceType.DECLARATION, declaration),
        (EvidenceType.CONTROL_DRAWING, control_drawing),
        (EvidenceType.ASSESSMENT, assessment),
    )
    bom = one_part.build(
        one_part.PartOptions(
            code=code,
            edition=edition,
            area=tuple(area),
            substances=tuple(substance),
            layer=layer,
            ambient=ambient,
            document=document,
            chemicals=tuple(chemical),
            markings=tuple(marking),
            kinds=tuple(kind),
            rated_ambient=rated_ambient,
            surface_temperature=surface_temperature,
            ingress=ingress,
            evidence=tuple((type_, text) for type_, texts in documents for text in texts),
            materials=tuple(material),
            exposures=tuple(exposure),
            materials_complete=materials_complete or None,
            no_contacts=no_contacts,
            electrical_content=electrical_content,
            entries=entries,
            device=device,
            bonded=bonded or None,
        )
    )
    options = words.options(accept_unproven=accept_unproven, least_basis=Basis(least_basis))
    tables = areafit.Tables.shipped()
    report = _without_assembly(areafit.judge(bom, tables, options))
    run = Run(__version__, tables.digest, (summarise(report),))
    paper = terminal.paper()
    style = Style(paper.width, paper.colour, quiet, brief=True)
    terminal.write(_whole(report, run, format_, style))
    return Exit.PASSED if exit_zero or report.passes else Exit.FAILED


def _whole(report: BomReport, run: Run, kind: str, style: Style) -> Iterator[str]:
    shape = render.find(kind)
    yield from shape.head(run, style)
    yield from shape.body(report, style)
    yield from shape.tail(run, style)


# What a question about a single part cannot be about: the machine that it goes into

_ASSEMBLY = "assembly-assessment"
_ELSEWHERE = (
    "A single part was asked about, so the assembly was not judged: `areafit check` judges it in "
    "a list."
)


def _without_assembly(report: BomReport) -> BomReport:
    """The report of one part, what holds for the assembly said to be not applicable.

    The finding stays in the report with its requirement, so that nobody takes it for met. The
    edition of the rules counts for a single part too.
    """
    own = report.own
    blocks = tuple(
        replace(block, judged=Answers(map(_not_asked, block.judged))) for block in own.blocks
    )
    found = SubjectReport(own.name, worst(block.verdict for block in blocks), blocks, own.bom)
    return replace(report, own=found)


def _not_asked(judged: Judged) -> Judged:
    if judged.rule.id != _ASSEMBLY:
        return judged
    judgement = replace(
        judged.judgement,
        verdict=Verdict.NOT_APPLICABLE,
        message=_ELSEWHERE,
        found="one part",
        reason=None,
    )
    return Judged(judged.rule, judged.ask, judgement)
