"""Stainless steel in salt-laden air: its resistance number, and places that no rain washes."""

from collections.abc import Iterator
from itertools import groupby

from areafit.checks.materials.several import called, most_severe
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.quantity import number
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.tables.chemicals import Medium, Presence
from areafit.tables.chlorides import PittingLimit, SaltAir
from areafit.tables.families import is_stainless
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Case(Frozen):
    """A stainless steel in salt air; `limit` is None where its resistance number is too low."""

    material: str
    air: str
    crevice: bool | None
    limit: PittingLimit | None


class Question(Frozen):
    """Every material and air that the names may mean, and what the classes of steel stand."""

    cases: tuple[Case, ...]
    required: str


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    steels = [m for m in demands.tables.materials(use.material) if is_stainless(m)]
    if not steels or use.exposure is Exposure.ENCLOSED:
        return
    limits = _limits(demands)
    for meeting in meetings(use, demands):
        cases = tuple(
            Case(called(use.material, steel, demands.tables), met.name, use.crevice, limit)
            for steel in steels
            for limit in (_limit(steel, limits),)
            for met in filter(_salty, meeting.mets)
        )
        if cases:
            yield Ask(Question(cases, _required(limits)), "", use.component)


def _salty(met: Met) -> bool:
    atmosphere = met.chemical.medium is Medium.ATMOSPHERE
    return atmosphere and met.chemical.chloride is Presence.YES


def _limits(demands: Demands) -> tuple[PittingLimit, ...]:
    """The classes of steel, from the lowest resistance number on; own rows come in any order."""
    rows = demands.tables.rows("pitting_limits", PittingLimit)
    return tuple(sorted(rows, key=lambda row: row.pren_min))


def _limit(steel: Material, limits: tuple[PittingLimit, ...]) -> PittingLimit | None:
    if steel.pren is None:
        return None
    return next((row for row in reversed(limits) if row.pren_min <= steel.pren), None)


def _required(limits: tuple[PittingLimit, ...]) -> str:
    open_surfaces = _numbers(limits, {SaltAir.OPEN_SURFACES, SaltAir.HOLDS})
    crevices = _numbers(limits, {SaltAir.HOLDS})
    return f"a resistance number {open_surfaces} on open surfaces, {crevices} with crevices"


def _numbers(limits: tuple[PittingLimit, ...], enough: set[SaltAir]) -> str:
    """`from 23`; `from 23 to below 33 and from 40` where an own row lets a class between fail."""
    spans: list[str] = []
    ends = (*(number(row.pren_min) for row in limits[1:]), None)
    for ok, rows in groupby(zip(limits, ends, strict=True), lambda at: at[0].salt_air in enough):
        if ok:
            listed = list(rows)
            low, end = number(listed[0][0].pren_min), listed[-1][1]
            spans.append(f"from {low}" if end is None else f"from {low} to below {end}")
    return " and ".join(spans) or "that no class has"


def _judge(question: Question) -> Judgement:
    return most_severe(_judge_case(case, question.required) for case in question.cases)


def _judge_case(case: Case, required: str) -> Judgement:
    limit = case.limit
    if limit is None or limit.salt_air is SaltAir.STAINS:
        return _open(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} stains and pits in {case.air}, on open surfaces too.",
            case,
            required,
            "Choose a grade of higher resistance number, coat it, or have stains accepted and "
            "washing planned.",
        )
    if limit.salt_air is SaltAir.OPEN_SURFACES and case.crevice is not False:
        if case.crevice is None:
            return _open(
                Reason.FACT_MISSING,
                f"{case.material} holds in {case.air} on open surfaces only; whether there is a "
                "crevice is not stated.",
                case,
                required,
                "State `crevice`: gaskets, threads, washers and deposits make one.",
            )
        return _open(
            Reason.CONDITION_TO_ACCEPT,
            f"Salt from {case.air} stays in the crevices of {case.material}, where no rain washes "
            "it off, and pits it there.",
            case,
            required,
            "Choose a duplex or higher grade, seal the crevice, or have washing planned and "
            "accept this.",
        )
    where = " on open surfaces" if limit.salt_air is SaltAir.OPEN_SURFACES else ""
    return passed(
        f"{case.material} holds in {case.air}{where}; brown stains do it no harm.",
        required=required,
        found=_found(case),
        rows=_rows(case),
    )


def _open(reason: Reason, message: str, case: Case, required: str, remedy: str) -> Judgement:
    return unproven(
        reason,
        message,
        required=required,
        found=_found(case),
        rows=_rows(case),
        remedy=remedy,
        answer_by=Role.DESIGNER,
    )


def _found(case: Case) -> str:
    crevice = {True: "crevices", False: "no crevice", None: "crevices not stated"}[case.crevice]
    number_of = "no class known" if case.limit is None else f"from {number(case.limit.pren_min)}"
    return f"resistance number {number_of}, {crevice}"


def _rows(case: Case) -> tuple[Row, ...]:
    row = case.limit
    if row is None:
        return ()
    key = f"resistance number from {number(row.pren_min)}"
    value = f"salt air: {row.salt_air.value}"
    return (Row.of("pitting_limits", key, row, value),)


_PART = "kind: structural, materials: [{{material: '{}', exposure: immersed, crevice: {}}}]"
_COAST = "{chemicals: [marine air], ambient: 0..35 °C}"

SALT_AIR = Rule[Question](
    id="salt-air",
    title="Stainless steel stands salt-laden air",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Stainless association guidance on staining by the sea, from memory; resistance number "
    "Cr + 3.3 Mo + 16 N",
    why="Salt that settles in a gap is not washed off by rain: it draws water from the air and "
    "pits steel that stays bright beside it.",
    remedy="Choose a grade of higher resistance number, close the gaps, or plan washing.",
    answer_by=Role.DESIGNER,
    note="The film of salt is judged by the grade alone; how far the sea is, and how sheltered "
    "from rain the part stands, is not.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("316 without gaps", Verdict.PASS, _PART.format("316", "false"), _COAST),
        Example("316 with gaps", Verdict.UNPROVEN, _PART.format("316", "true"), _COAST),
        Example("Duplex with gaps", Verdict.PASS, _PART.format("2205", "true"), _COAST),
        Example("304", Verdict.UNPROVEN, _PART.format("304", "false"), _COAST),
    ),
)
