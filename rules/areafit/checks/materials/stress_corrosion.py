"""Chloride stress corrosion: alloy, temperature, how the chloride concentrates, and stress."""

from collections.abc import Iterator

from areafit.checks.materials.several import called, most_severe
from areafit.checks.materials.strain import is_spring
from areafit.corrosion.chloride import brings_chloride, chloride_is_stated, frees_chlorine
from areafit.corrosion.cite import reasoned
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import WET, Exposure, MaterialUse
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
from areafit.tables.chemicals import Drying, Reaction
from areafit.tables.chlorides import CrackingLimit
from areafit.tables.lookup import Range
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_DRIES = frozenset({Exposure.SPLASH, Exposure.WASHDOWN, Exposure.FUME})
_ACIDS = (Reaction.STRONG_ACID, Reaction.WEAK_ACID)


class Case(Frozen):
    """An alloy in a chloride: temperatures in °C, `sharp` where it concentrates or is acid.

    `stressed` is True for springs and parts stated so, `welded` as stated. `chloride` says
    whether the content is certain.
    """

    material: str
    chemical: str
    heat: Range
    heat_certain: bool
    chloride: bool
    sharp: bool
    spring: bool
    stressed: bool | None
    welded: bool | None
    limit: CrackingLimit


class Question(Frozen):
    """Every material and chemical that the names may mean."""

    cases: tuple[Case, ...]


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[Question]]:
    candidates = demands.tables.materials(use.material)
    limits = [(material, limit_of(material, demands)) for material in candidates]
    known = [(material, limit) for material, limit in limits if limit is not None]
    if not known:
        return
    for meeting in meetings(use, demands):
        mets = [met for met in meeting.mets if _concerned(met)]
        if mets:
            cases = (
                _case(use, material, met, limit, demands)
                for material, limit in known
                for met in mets
            )
            yield Ask(Question(tuple(cases)), "", use.component)


def limit_of(material: Material, demands: Demands) -> CrackingLimit | None:
    """The limits of the alloy itself, else those of its family; None where none are known."""
    rows = demands.tables.rows("chloride_cracking", CrackingLimit)
    own = [row for row in rows if row.material == material.id]
    family = [row for row in rows if row.family == material.family and not row.material]
    return next(iter((*own, *family)), None)


def _concerned(met: Met) -> bool:
    """Wet with chloride, or in a room whose air carries free chlorine."""
    airborne = met.exposure is Exposure.ROOM and frees_chlorine(met.chemical)
    return brings_chloride(met) and (met.exposure in WET or airborne)


def _case(
    use: MaterialUse, material: Material, met: Met, limit: CrackingLimit, demands: Demands
) -> Case:
    stays = met.chemical.drying is Drying.NEVER_DRIES and met.exposure in _DRIES
    acid = met.chemical.reaction in _ACIDS
    return Case(
        called(use.material, material, demands.tables),
        met.name,
        met.heat,
        met.heat_certain,
        chloride_is_stated(met),
        stays or acid or frees_chlorine(met.chemical),
        is_spring(use, material),
        use.stressed,
        use.welded,
        limit,
    )


def _judge(question: Question) -> Judgement:
    return most_severe(_judge_case(case) for case in question.cases)


def _judge_case(case: Case) -> Judgement:
    limit, high = case.limit, case.heat.high
    rows = (_row(case),)
    found = f"{number(high)} °C, {case.chemical}" if case.heat_certain else case.chemical
    start = limit.lowest(sharp=case.sharp)
    if start is None:
        return passed(
            f"{case.material} is very resistant to chloride stress corrosion.",
            required="an alloy that chlorides do not crack",
            found=found,
            rows=rows,
        )
    required = f"below {number(start)} °C in this chloride, or no lasting stress"
    if high < start:
        return passed(
            f"{case.material} stays below the temperatures at which this chloride cracks it.",
            required=required,
            found=found,
            rows=rows,
        )
    if not case.heat_certain or not case.chloride:
        missing = "chloride content" if case.heat_certain else "temperature"
        return unproven(
            Reason.FACT_MISSING,
            f"Whether {case.chemical} may crack {case.material} depends on its {missing}, "
            "which is not stated.",
            required=f"the {missing} of {case.chemical}",
            found="not stated",
            rows=rows,
            remedy=f"State the {missing}.",
            answer_by=Role.PROCESS_OWNER,
        )
    if (limit.limit_c is not None and high >= limit.limit_c) or case.spring:
        return flagged(
            f"{case.chemical} cracks {case.material} at {number(high)} °C"
            f"{', a spring above all' if case.spring else ''}.",
            required=required,
            found=found,
            rows=rows,
        )
    return _by_stress(case, required, found, rows)


def _by_stress(case: Case, required: str, found: str, rows: tuple[Row, ...]) -> Judgement:
    if case.stressed is False and case.welded is False:
        why = "neither loaded nor welded"
        return passed(
            f"{case.material} is warm enough for {case.chemical} to crack it, but {why}.",
            required=required,
            found=f"{found}, {why}",
            rows=(*rows, reasoned("stress corrosion needs lasting tension", why)),
        )
    if case.stressed or case.welded:
        what = "loaded" if case.stressed else "welded"
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{case.material} is {what} and meets {case.chemical} in the range where it may crack.",
            required=required,
            found=f"{found}, {what}",
            rows=rows,
            remedy="Choose a duplex or higher alloy, relieve the stress, or keep it cooler.",
        )
    return unproven(
        Reason.FACT_MISSING,
        f"{case.material} may crack in {case.chemical} if it is loaded or welded, which is not "
        "stated.",
        required="`stressed` and `welded`",
        found=f"{found}; stress not stated",
        rows=rows,
        remedy="State `stressed` and `welded`; hangers and springs are stressed.",
    )


def _row(case: Case) -> Row:
    limit = case.limit
    marks = (("guide", limit.guide_c), ("fails", limit.limit_c), ("sharp", limit.drying_c))
    value = ", ".join(f"{word} {number(c)} °C" for word, c in marks if c is not None)
    key = limit.material or limit.family
    value = value or "resistant"
    return Row.of("chloride_cracking", key, limit, value)


_PLACE = "{chemicals: [{name: sodium chloride, concentration: 0.01 %%, temperature: %s}]}"


STRESS_CORROSION = Rule[Question](
    id="stress-corrosion",
    title="Chlorides do not crack the alloy",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Stainless association page on chloride stress corrosion (50-60 °C is a guide); "
    "MSFC-STD-3029A for hardened grades, from memory",
    why="A loaded stainless part breaks without warning and without visible loss where warm "
    "chloride concentrates on it.",
    remedy="Choose a ferritic, duplex or higher alloy, keep it cooler, or take the stress away.",
    answer_by=Role.DESIGNER,
    note="Chloride that never dries, is acid or frees chlorine cracks lower down: loaded 304 and "
    "316 break at 25-35 °C in pool-type air.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "304 in cool brine",
            Verdict.PASS,
            "kind: structural, materials: [{material: '304', exposure: immersed}]",
            _PLACE % "20 °C",
        ),
        Example(
            "304 in hot brine",
            Verdict.FLAG,
            "kind: structural, materials: [{material: '304', exposure: immersed}]",
            _PLACE % "70 °C",
        ),
        Example(
            "A hanger over bleach, its load not stated",
            Verdict.UNPROVEN,
            "kind: structural, materials: [{material: '316', exposure: room}]",
            "{chemicals: [{name: sodium hypochlorite, concentration: 5 %, temperature: 30 °C}]}",
        ),
    ),
)
