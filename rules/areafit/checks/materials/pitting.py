"""Pitting of stainless steel: its resistance number against chloride, warmth and crevices."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.several import called, most_severe
from areafit.corrosion.chloride import brings_chloride, chloride_content, content_row
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import LIQUID, Exposure, MaterialUse
from areafit.facts.quantity import number
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.tables.chemicals import Medium, Presence, Reaction
from areafit.tables.chlorides import ChlorideContent, PittingLimit
from areafit.tables.families import is_stainless
from areafit.tables.lookup import Range
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_NEAR_NEUTRAL = (Reaction.NEUTRAL, Reaction.WEAK_ACID, Reaction.WEAK_ALKALI)
_DRIES = frozenset({Exposure.SPLASH, Exposure.WASHDOWN})
_CREVICE = Decimal(10)  # a crevice or a deposit takes the chloride down about tenfold
# Sulphides, or chromium tied up by carbon: the number overstates these.
_OVERSTATED = frozenset({"303", "416", "440C"})


class Case(Frozen):
    """A stainless steel in a water: chloride in mg/L, temperatures in °C.

    `deposit` says that drops dry on it and are not rinsed off before.
    """

    material: str
    pren: Decimal
    overstated: bool
    chemical: str
    neutral: bool
    chloride: Range | None
    content: ChlorideContent | None
    heat: Range
    heat_certain: bool
    crevice: bool | None
    deposit: bool
    limit: PittingLimit | None


class Question(Frozen):
    """Every material and chemical that the names may mean."""

    cases: tuple[Case, ...]


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    candidates = [m for m in demands.tables.materials(use.material) if is_stainless(m)]
    if not candidates:
        return
    for meeting in meetings(use, demands):
        mets = [met for met in meeting.mets if _concerned(met)]
        cases = tuple(
            _case(use, material, met, demands)
            for material in candidates
            if material.pren is not None
            for met in mets
        )
        if cases:
            yield Ask(Question(cases), "", use.component)


def _concerned(met: Met) -> bool:
    """Waters with chloride; acids, alkalis and oxidisers only where their chloride is stated."""
    if met.exposure not in LIQUID or not brings_chloride(met):
        return False
    liquid = met.chemical.medium in (Medium.LIQUID, Medium.SOLUTION)
    return liquid and (_neutral(met) or met.stated.chloride is not None)


def _neutral(met: Met) -> bool:
    chemical = met.chemical
    return chemical.reaction in _NEAR_NEUTRAL and chemical.oxidising is Presence.NO


def _case(use: MaterialUse, material: Material, met: Met, demands: Demands) -> Case:
    pren = material.pren or Decimal(0)
    overstated = material.id in _OVERSTATED
    content = content_row(met.chemical, demands.tables)
    return Case(
        called(use.material, material, demands.tables),
        pren,
        overstated,
        met.name,
        _neutral(met),
        chloride_content(met, content),
        content,
        met.heat,
        met.heat_certain,
        use.crevice,
        met.exposure in _DRIES and not met.rinsed,
        None if overstated else _limit(pren, demands),
    )


def _limit(pren: Decimal, demands: Demands) -> PittingLimit | None:
    rows = demands.tables.rows("pitting_limits", PittingLimit)
    reached = [row for row in rows if row.pren_min <= pren]
    return max(reached, key=lambda row: row.pren_min, default=None)


def _judge(question: Question) -> Judgement:
    return most_severe(_judge_case(case) for case in question.cases)


def _judge_case(case: Case) -> Judgement:
    if case.chloride is None:
        return _open(
            Reason.FACT_MISSING,
            f"Whether {case.chemical} pits {case.material} depends on its chloride, which is not "
            "stated.",
            case,
            "State `chloride`, in mg/L.",
            Role.PROCESS_OWNER,
        )
    if not case.neutral:
        return _open(
            Reason.NOT_JUDGED,
            f"A pitting resistance number says nothing of chloride in {case.chemical}.",
            case,
            "Have a corrosion engineer judge it.",
            Role.DESIGNER,
        )
    limit = case.limit
    if limit is None:
        why = "its sulphides or carbides pit first" if case.overstated else "none is known"
        return _open(
            Reason.NO_DATA,
            f"No chloride limit holds for {case.material}: {why}.",
            case,
            "Choose a grade with a higher resistance number.",
            Role.DESIGNER,
        )
    return _compare(case, case.chloride.high, limit)


def _compare(case: Case, chloride: Decimal, limit: PittingLimit) -> Judgement:
    where = "in its crevices" if case.crevice else "where drops dry on it" if case.deposit else ""
    factor = _CREVICE if where else Decimal(1)
    stands = number(limit.most_mg_l / factor)
    word = "below" if limit.most_mg_l == limit.fails_mg_l else "at most"
    required = f"{word} {stands} mg/L"
    only_dries = case.deposit and not case.crevice and limit.withstands(chloride)
    if limit.pits(chloride * factor) and not only_dries:
        return flagged(
            f"{number(chloride)} mg/L chloride pits {case.material}{where and f' {where}'}.",
            required=required,
            found=_found(case),
            rows=_rows(case),
        )
    if not limit.withstands(chloride * factor):
        return _open(
            Reason.NO_MARGIN,
            f"{case.material} stands about {stands} mg/L chloride"
            f"{where and f' {where}'}; here are {number(chloride)}.",
            case,
            "Choose a grade with a higher resistance number, or have it accepted"
            f"{'; state `rinsed: true` where it is washed before it dries' * case.deposit}.",
            Role.DESIGNER,
        )
    if not case.heat_certain or case.heat.high > limit.temp_max_c:
        return _open(
            Reason.NO_DATA if case.heat_certain else Reason.FACT_MISSING,
            f"The chloride limit of {case.material} holds to {number(limit.temp_max_c)} °C only.",
            case,
            "State the temperature, or have it judged for the warmth.",
            Role.DESIGNER,
        )
    if case.crevice is None and not case.deposit and not limit.withstands(chloride * _CREVICE):
        return _open(
            Reason.FACT_MISSING,
            f"A crevice would let {number(chloride)} mg/L chloride pit {case.material}; whether "
            "there is one is not stated.",
            case,
            "State `crevice`: gaskets, threads, washers and deposits make one.",
            Role.DESIGNER,
        )
    return passed(
        f"{case.material} (resistance number {number(case.pren)}) stands the chloride.",
        required=required,
        found=_found(case),
        rows=_rows(case),
    )


def _open(reason: Reason, message: str, case: Case, remedy: str, role: Role) -> Judgement:
    return unproven(
        reason,
        message,
        required="chloride below what the resistance number withstands",
        found=_found(case),
        rows=_rows(case),
        remedy=remedy,
        answer_by=role,
    )


def _found(case: Case) -> str:
    if case.chloride is None:
        return "chloride not stated"
    return f"{number(case.chloride.high)} mg/L chloride, resistance number {number(case.pren)}"


def _rows(case: Case) -> tuple[Row, ...]:
    rows = []
    if case.limit is not None:
        row = case.limit
        value = f"{number(row.chloride_mg_l)} mg/L"
        key = f"resistance number from {number(row.pren_min)}"
        rows.append(Row.of("pitting_limits", key, row, value))
    if case.content is not None:
        one = case.content
        rows.append(Row.of("chloride_content", one.chemical, one))
    return tuple(rows)


_PART = "kind: structural, materials: [{{material: '{}', exposure: immersed, crevice: {}}}]"
_WATER = "{{chemicals: [{{name: tap water, chloride: {} mg/L, temperature: 20 °C}}]}}"

PITTING = Rule[Question](
    id="pitting",
    title="Stainless steel stands the chloride",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Resistance number Cr + 3.3 Mo + 16 N (stainless association); chloride limits by "
    "practice, from memory",
    why="Below a gasket or a deposit chloride eats through a wall that looks untouched.",
    remedy="Choose a grade with a higher pitting resistance number, or lower the chloride.",
    answer_by=Role.DESIGNER,
    note="The number ranks neutral chloride only; acids are judged by `chemical-resistance`. Where "
    "drops dry and are not rinsed off a tenth of the chloride is allowed, as in a crevice (own "
    "reasoning), however the chloride is stated.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("316 in town water", Verdict.PASS, _PART.format("316", "true"), _WATER.format(80)),
        Example(
            "304 in brackish water", Verdict.FLAG, _PART.format("304", "false"), _WATER.format(2000)
        ),
        Example(
            "Chloride not stated",
            Verdict.UNPROVEN,
            _PART.format("304", "false"),
            "{chemicals: [{name: tap water, temperature: 20 °C}]}",
        ),
    ),
)
