"""JUnit XML: one suite a list, one case a subject; open findings are failures, waived are skipped.

There is no official schema. What consumers agree on is written: no times, since the same list must
give the same bytes.
"""

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from areafit.findings.cautions import CAUTIONS
from areafit.pattern import pattern
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
from areafit_cli.render.subjects import NamedReport, subjects
from areafit_cli.safe_text import clean, obeyed

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.findings.report import BomReport, Finding
    from areafit_cli.render import Run, Style, Summary

_ILLEGAL = pattern("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """The root with its totals, and what could not be read."""
    verdicts = [verdict for bom in run.boms for verdict in _verdicts(bom)]
    errors = len(run.errors)
    failures, skipped = _failed(verdicts)
    yield '<?xml version="1.0" encoding="UTF-8"?>\n'
    yield (
        f'<testsuites name="areafit" tests="{len(verdicts) + errors}" '
        f'failures="{failures}" errors="{errors}" skipped="{skipped}">\n'
    )
    if run.errors:
        yield (
            f'<testsuite name="input" tests="{errors}" failures="0" errors="{errors}" '
            'skipped="0">\n'
        )
        for error in run.errors:
            where = _attribute(_where(error.position))
            yield f'<testcase classname="input" name={where}>'
            yield f'<error type="input" message={_attribute(error.message)}>{_text(error.remedy)}'
            yield "</error></testcase>\n"
        yield "</testsuite>\n"


def _verdicts(bom: "Summary") -> Iterator[Verdict]:
    """The verdict of every case of a list's suite."""
    yield bom.own
    for counted in (bom.counts.parts, bom.counts.places, bom.counts.loops):
        for verdict, number in counted.items():
            yield from (verdict for _ in range(number))


def _failed(verdicts: Iterable[Verdict]) -> tuple[int, int]:
    """How many failed, and how many were waived."""
    every = list(verdicts)
    return sum(not v.passes for v in every), sum(v is Verdict.WAIVED for v in every)


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """One list as a suite."""
    every = list(subjects(report))
    failures, skipped = _failed(each.report.verdict for each in every)
    yield (
        f'<testsuite name={_attribute(report.bom.name)} tests="{len(every)}" '
        f'failures="{failures}" errors="0" skipped="{skipped}">\n<properties>'
    )
    for name, value in (("gate", report.gate), ("scope", report.scope)):
        yield f'<property name="{name}" value={_attribute(value)}/>'
    yield "</properties>\n"
    for subject in every:
        yield from _case(subject, report.bom.name)
    void = "\n".join(map(wording.waiver_words, wording.void_waivers(report)))
    if void:
        yield f"<system-out>{_text(void)}</system-out>\n"
    yield "</testsuite>\n"


def _case(subject: NamedReport, path: str) -> Iterator[str]:
    verdict = subject.report.verdict
    yield f"<testcase classname={_attribute(path)} name={_attribute(subject.title)}>"
    if not verdict.passes:
        findings = list(subject.report.open_findings())
        message = _attribute("; ".join(f"{one.rule.id}: {one.message}" for one in findings))
        yield f"<failure type={_attribute(verdict.value)} message={message}>"
        yield _text("\n".join(_line(subject, one) for one in findings))
        yield "</failure>"
    elif verdict is Verdict.WAIVED:
        waived = [one for one in subject.report.findings() if one.waiver]
        said = "; ".join(f"{w.rule.id}: {wording.granted(w.waiver)}" for w in waived if w.waiver)
        yield f"<skipped message={_attribute(f'waived: {said}')}/>"
    yield "</testcase>\n"


def _line(subject: NamedReport, finding: "Finding") -> str:
    found = f"{finding.verdict.value} {finding.rule.id}"
    return f"{_where(finding.position)}: {found}: {wording.described(subject, finding)}"


def tail(run: "Run", _style: "Style") -> Iterator[str]:
    """What a reader must know, as a comment, and the end of the root."""
    said = (f"Gate: {run.gate}.", *wording.notices(run), *CAUTIONS)
    text = re.sub("-(?=-)", "- ", _text("\n".join(said)))  # two hyphens would end it
    yield f"<!--\n{text}\n-->\n</testsuites>\n"


def _where(position: "Position") -> str:
    return f"{position.file}:{position.line}:{position.column}"


def _text(text: str) -> str:
    """Element text; lines stay lines, all else that is not plain is made visible."""
    lines = (f"· {line}" if obeyed(line) else line for line in map(clean, text.split("\n")))
    return escape(_ILLEGAL.sub("\ufffd", "\n".join(lines)))


def _attribute(text: str) -> str:
    return quoteattr(_ILLEGAL.sub("\ufffd", clean(text)))


FORMAT = Format(head=head, body=body, tail=tail)
