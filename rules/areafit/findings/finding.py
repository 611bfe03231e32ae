"""A judged answer tied to its line: position, citation and fingerprint."""

from areafit.facts.bom import Bom
from areafit.findings.fingerprint import fingerprint
from areafit.findings.report import Block, Finding, Judged
from areafit.rule import Row
from areafit.tables.limits import binding
from areafit.verdict import Verdict


def expand(judged: Judged, block: Block, bom: Bom, subject: str) -> Finding:
    """The finding that a judged answer makes for one subject at one place."""
    rule, ask, judgement = judged.rule, judged.ask, judged.judgement
    waiver = judged.waiver
    path = bom.path(block.prefix, ask.path)
    return Finding(
        rule=rule,
        verdict=judgement.verdict,
        message=judgement.message,
        required=judgement.required,
        found=judgement.found,
        clause="; ".join(binding(judgement.clause or rule.clause, bom.law)),
        sources=tuple(dict.fromkeys(cite(row) for row in judgement.rows)),
        rows=judgement.rows,
        basis=judgement.basis,
        reason=judgement.reason,
        remedy=judgement.remedy or rule.remedy,
        answer_by=judgement.answer_by or rule.answer_by,
        location=block.place,
        component=ask.component,
        path=path,
        position=bom.locate(path),
        fingerprint=waiver.fingerprint
        if waiver
        else fingerprint(judged, block.place, subject, bom),
        waiver=waiver,
        stated_by=bom.stated_by(path),
        proposed=bom.proposed_at(path) if judgement.verdict is Verdict.FLAG else (),
    )


def cite(row: Row) -> str:
    """A table row as a report cites it: table, key, value, source and locator."""
    if row.table == "incompatible":  # the message names both in words; its codes stand in the table
        return f"{row.table}: what these give together ({row.source_id}; {row.basis.value})"
    value = f" = {row.value}" if row.value else ""
    aside = "" if row.governs else "; disputed, the stricter row governs"
    return (
        f"{row.table}: {row.key}{value} ({row.source_id}, {row.locator}; {row.basis.value}{aside})"
    )
