"""JUnit XML: one suite a list, one case a subject; open findings are failures, waived are skipped."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format
from areafit_cli.render.walk import Subject, subjects, told
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Counts, Finding
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_ILLEGAL = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """The root with its totals."""
    tests = sum(_cases(each.counts) for each in run.boms)
    yield '<?xml version="1.0" encoding="UTF-8"?>\n'
    yield f'<testsuites name="areafit" tests="{tests + len(run.faults)}">\n'
    if run.faults:
        count = len(run.faults)
        yield f'<testsuite name="input" tests="{count}" failures="0" errors="{count}" skipped="0">\n'
        for fault in run.faults:
            where = _attribute(f"{fault.path}:{fault.line}:{fault.column}")
            yield f'<testcase classname="input" name={where}>'
            yield f"<error message={_attribute(fault.message)}>{_text(fault.remedy)}</error>"
            yield "</testcase>\n"
        yield "</testsuite>\n"


def _cases(counts: "Counts") -> int:
    verdicts = (counts.parts, counts.places, counts.loops)
    return 1 + sum(sum(each.values()) for each in verdicts)


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """One list as a suite."""
    every = list(subjects(report))
    failures = sum(not each.report.verdict.passes for each in every)
    skipped = sum(each.report.verdict is Verdict.WAIVED for each in every)
    yield (
        f'<testsuite name={_attribute(report.bom.name)} tests="{len(every)}" '
        f'failures="{failures}" errors="0" skipped="{skipped}">\n'
    )
    yield f'<properties><property name="gate" value={_attribute(report.gate)}/></properties>\n'
    for subject in every:
        yield from _case(subject, report.bom.name)
    yield "</testsuite>\n"


def _case(subject: Subject, path: str) -> Iterator[str]:
    name = _attribute(subject.title)
    yield f"<testcase classname={_attribute(path)} name={name}>"
    if not subject.report.verdict.passes:
        findings = [one for one in subject.report.findings() if not one.verdict.passes]
        kind = _attribute(subject.report.verdict.value)
        message = _attribute("; ".join(f"{one.rule.id}: {one.message}" for one in findings))
        yield f"<failure type={kind} message={message}>"
        yield _text("\n".join(_line(subject, one) for one in findings))
        yield "</failure>"
    elif subject.report.verdict is Verdict.WAIVED:
        yield f"<skipped message={_attribute('waived: somebody answers for it')}/>"
    yield "</testcase>\n"


def _line(subject: Subject, finding: "Finding") -> str:
    position = finding.position
    where = f"{position.file}:{position.line}:{position.column}"
    return f"{where}: {finding.verdict.value} {finding.rule.id}: {told(subject, finding)}"


def tail(_run: "Run", _look: "Look") -> Iterator[str]:
    """The cautions and the end of the root."""
    yield f"<!-- {_text(' '.join(CAUTIONS)).replace('--', '- -')} -->\n</testsuites>\n"


def _text(text: str) -> str:
    return escape(_ILLEGAL.sub("\ufffd", "\n".join(map(clean, text.split("\n")))))


def _attribute(text: str) -> str:
    return quoteattr(_ILLEGAL.sub("\ufffd", clean(text)))


FORMAT = Format(head=head, body=body, tail=tail)
