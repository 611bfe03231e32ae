"""Copper with acetylene (an explosive salt) and with ammonia, amines and their kin (cracking)."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.materials.ambiguous import EveryMeaning, ask_each, called, worst_of
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.facts.part import WET, Exposure, MaterialUse
from areafit.facts.quantity import Dimension, number
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables import Tables
from areafit.tables.chemicals import PropertyState
from areafit.tables.limits import figure
from areafit.tables.materials import COPPER, Material
from areafit.values import Frozen, Term
from areafit.verdict import Reason, Role, Verdict

_FORMS_ACETYLIDE = frozenset({"silver"})
_AMINES = "7"  # EPA reactivity group
_CRACKS_TOO = frozenset({"sulfur-dioxide"})


class Harm(Term):
    """What the chemical does to copper."""

    ACETYLIDE = "explosive acetylide"
    CRACKING = "season cracking"


class OnCopper(Frozen):
    """A material, the most copper it may hold in mass %, and the chemical that harms it.

    `sheltered` says that the part is enclosed; `breathes` whether its enclosure takes in air.
    """

    material: str
    copper: Decimal
    silver: bool
    chemical: str
    harm: Harm
    sheltered: bool
    breathes: bool | None
    row: Row


def _ask(use: MaterialUse, demands: Demands) -> Iterator[Ask[EveryMeaning[OnCopper]]]:
    tables = demands.tables
    held = (*tables.materials(use.material), *tables.fillers(use.material))
    metals = [each for each in held if _holds_copper(use, each)]
    if not metals:
        return

    def cases(mets: tuple[Met, ...]) -> Iterator[OnCopper]:
        for met in mets:
            for metal in metals:
                harm = _harm(metal, met)
                if harm is not None:
                    yield _on_copper(use, metal, met, harm, tables)

    yield from ask_each(use, demands, cases)


def _copper(use: MaterialUse, material: Material) -> Decimal:
    """The most copper: of the grade, or what the list states if that is more."""
    stated = [share for element, share in use.composition or () if element == "Cu"]
    return max([material.cu_pct_max or Decimal(0), *stated])


def _holds_copper(use: MaterialUse, material: Material) -> bool:
    counts = figure("copper that counts").amount(Dimension.FRACTION)
    return _copper(use, material) > counts or material.id in _FORMS_ACETYLIDE


def _harm(metal: Material, met: Met) -> Harm | None:
    if met.chemical.id == "acetylene":
        return Harm.ACETYLIDE
    if metal.family in COPPER and _cracks(met) and (met.exposure in WET or met.rises):
        return Harm.CRACKING
    return None


def _cracks(met: Met) -> bool:
    chemical = met.chemical
    complexing = chemical.copper_complexing is PropertyState.YES
    return complexing or _AMINES in chemical.epa_groups or chemical.id in _CRACKS_TOO


def _on_copper(use: MaterialUse, metal: Material, met: Met, harm: Harm, tables: Tables) -> OnCopper:
    copper = _copper(use, metal)
    return OnCopper(
        called(use.material, metal, tables),
        copper,
        metal.id in _FORMS_ACETYLIDE,
        met.name,
        harm,
        met.exposure is Exposure.ENCLOSED,
        use.breathes,
        Row.of("materials", f"{metal.id} copper", metal, f"{number(copper)} %"),
    )


def _judge(case: OnCopper) -> Judgement:
    return _acetylide(case) if case.harm is Harm.ACETYLIDE else _cracking(case)


def _acetylide(case: OnCopper) -> Judgement:
    share = f"{number(case.copper)} % copper"
    limit = figure("copper against acetylene")
    answer = Answer(
        f"below {limit.value} copper, and no silver",
        case.material if case.silver else share,
        (case.row, Row.of_figure(limit)),
    )
    if case.silver:
        return answer.flagged(
            f"{case.material} forms an explosive salt with acetylene, as copper does.",
            remedy=f"Choose a `material` without silver and below {limit.value} copper.",
        )
    if case.copper >= limit.amount(Dimension.FRACTION):
        return answer.flagged(
            f"{case.material} may hold {share} and forms explosive acetylide.",
            remedy=f"Choose a `material` below {limit.value} copper, or stainless steel.",
        )
    return answer.passed(f"{case.material} stays below {limit.value} copper.")


def _cracking(case: OnCopper) -> Judgement:
    required = "no copper alloy in ammonia, amines, sulfides, cyanides or sulfur dioxide"
    if not case.sheltered or case.breathes is True:
        found = f"{case.material} meets {case.chemical}"
        practice = Row.of_figure(figure("season cracking by sulfur dioxide"))
        return Answer(required, found, (case.row, practice)).flagged(
            f"{case.chemical} cracks or eats {case.material}; traces in the air are enough."
        )
    if case.breathes is False:
        return Answer(required, "an enclosure that does not breathe", (case.row,)).passed(
            f"{case.material} is sealed off from {case.chemical}."
        )
    return Answer(required, "enclosed, breathing not stated", (case.row,)).unproven(
        Reason.FACT_MISSING,
        f"Whether the enclosure of {case.material} takes in {case.chemical} as it cools is not "
        "stated.",
        remedy="State `breathes`, or use stainless steel.",
    )


def _part(material: str, exposure: str) -> str:
    return f"kind: structural, materials: [{{material: {material}, exposure: {exposure}}}]"


_ACETYLENE = "{chemicals: [{name: acetylene, temperature: 25 °C}]}"

COPPER_ALLOY = Rule[EveryMeaning[OnCopper]](
    id="copper-alloy",
    title="Copper keeps away from acetylene, ammonia and amines",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="46 CFR 56.50-103 (acetylene, below 65 % copper); season cracking by practice",
    why="Copper acetylide explodes when touched; brass under stress cracks in traces of ammonia.",
    remedy="Choose stainless steel, or another `material` without copper.",
    answer_by=Role.DESIGNER,
    note="Some codes say 70 % copper; the lower figure holds. Silver solder that bears copper "
    "counts, and the grade's maximum counts.",
    ask=_ask,
    judge=worst_of(_judge),
    examples=(
        Example(
            "Turning brass in acetylene", Verdict.PASS, _part("CW614N", "immersed"), _ACETYLENE
        ),
        Example("Copper in acetylene", Verdict.FLAG, _part("copper", "room"), _ACETYLENE),
        Example(
            "Brass in a room with ammonia",
            Verdict.FLAG,
            _part("CW614N", "room"),
            "{chemicals: [{name: ammonia gas, temperature: 25 °C}]}",
        ),
        Example(
            "Brass in a cabinet that may breathe",
            Verdict.UNPROVEN,
            _part("CW614N", "enclosed"),
            "{chemicals: [{name: ammonia gas, temperature: 25 °C}]}",
        ),
    ),
)
