"""What a changed comparison, a dropped condition or a swapped verdict would get past other tests.

Each of these was found by changing one expression of a rule: no other test had noticed. The
answers are those of the rules' own clauses; common practice, no further source.
"""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.checks.materials.ambiguous import EveryMeaning
from areafit.checks.materials.cracking import STRESS_CORROSION as CRACKING
from areafit.checks.materials.limits import MATERIALS_LISTED
from areafit.checks.materials.stainless import PITTING
from areafit.corrosion.relief import is_spring, piece_of
from areafit.demands import derive
from areafit.facts.part import MaterialUse
from areafit.rule import Rule
from areafit.tables import Tables
from areafit.values import replace
from areafit.verdict import Reason, Verdict

F, U, P, N = Verdict.FLAG, Verdict.UNPROVEN, Verdict.PASS, Verdict.NOT_APPLICABLE
Judge = Callable[..., Any]
BRINE = {"chemicals": [{"name": "brine", "temperature": "20 °C"}]}
ACID = {"chemicals": [{"name": "sulfuric acid", "concentration": "10 %", "temperature": "20 °C"}]}
LYE = {"name": "sodium hydroxide", "concentration": "2 %", "temperature": "25 °C"}


def question_of(rule: Rule[Any], verdict: Verdict) -> Any:
    """The question of the rule's first example with this verdict."""
    tables = Tables.shipped()
    for example in (each for each in rule.examples if each.verdict is verdict):
        part = example.part.strip().removeprefix("{").removesuffix("}")
        text = (
            f"areafit: 1\nassembly: {{number: M-1}}\ncode: {example.law}\n"
            f"locations: {{case: {example.place}}}\n"
            f"parts: [{{item: '1', location: case, {part}}}]\n"
        )
        bom = areafit.read(text.encode(), "x")
        demands = derive(bom.places["case"], tables, date(2026, 1, 1))
        for use in bom.parts[0].body.materials or ():
            for ask in rule.ask(use, demands):
                if rule.judge(ask.question).verdict is verdict:
                    return ask.question
    raise LookupError(rule.id)


def test_a_pitting_limit_needs_a_known_temperature() -> None:
    question = question_of(PITTING, P)
    open_ = EveryMeaning(tuple(replace(case, heat_certain=False) for case in question.cases))
    judgement = PITTING.judge(open_)
    assert (judgement.verdict, judgement.reason) == (U, Reason.FACT_MISSING)


@pytest.mark.parametrize(
    ("fact", "reason"),
    [
        ({"stressed": True, "welded": False}, Reason.CONDITION_TO_ACCEPT),
        ({"stressed": False, "welded": True}, Reason.CONDITION_TO_ACCEPT),
        ({"stressed": None, "welded": None}, Reason.FACT_MISSING),
        ({"stressed": False, "welded": None}, Reason.FACT_MISSING),
        ({"stressed": None, "welded": False}, Reason.FACT_MISSING),
    ],
)
def test_what_is_loaded_or_welded_may_crack(fact: Any, reason: Reason) -> None:
    question = question_of(CRACKING, U)
    judgement = CRACKING.judge(
        replace(question, cases=tuple(replace(case, **fact) for case in question.cases))
    )
    assert judgement.verdict is U
    assert judgement.reason is reason


@pytest.mark.parametrize(("exposure", "verdict"), [("room", N), ("immersed", F), ("splash", F)])
def test_an_acid_that_does_not_rise_leaves_what_stands_beside_it(
    ask: Judge, exposure: str, verdict: Verdict
) -> None:
    use = {"component": "bolt", "material": "alloy steel", "property_class": "12.9"}
    answer = ask("hydrogen-embrittlement", ACID, {"materials": [{**use, "exposure": exposure}]})
    assert answer.verdict is verdict


def test_one_metal_among_plastics_makes_contacts_a_question(ask: Judge) -> None:
    plastic = {"component": "a", "material": "PTFE", "exposure": "splash"}
    metal = {"component": "b", "material": "316L", "exposure": "splash"}
    assert ask("galvanic-couple", BRINE, {"materials": [plastic, metal]}).verdict is U
    assert ask("galvanic-couple", BRINE, {"materials": [metal, plastic]}).verdict is U
    assert ask("galvanic-couple", BRINE, {"materials": [plastic]}).verdict is N


def test_one_liquid_beside_a_vapour_makes_the_exposure_a_question(ask: Judge) -> None:
    answer = ask(
        "chemical-resistance",
        {"substances": ["ethanol"], "chemicals": [LYE]},
        {"materials": [{"component": "a", "material": "316L"}]},
    )
    assert "How 316L meets the chemicals of the place is not stated." in answer.text


def test_a_pair_without_any_listed_reaction_passes_and_says_so(ask: Judge) -> None:
    place = {"chemicals": [{"name": "ethanol"}, {"name": "acetone"}]}
    answer = ask("chemicals-together", place)
    assert answer.verdict is P
    assert "a blank in the chart is not the word safe" in answer.text


def test_a_material_that_only_springs_are_made_of_is_strained() -> None:
    tables = Tables.shipped()
    found = [m for i in tables.ids("materials") for m in tables.materials(i)]
    springs = [m for m in found if m.uses == ("spring",)]
    assert springs
    assert all(piece_of(MaterialUse(each.id, "clip"), each).strained for each in springs)
    other = next(m for m in found if m.uses != ("spring",))
    assert not is_spring(MaterialUse(other.id, "clip"), other)
    assert is_spring(MaterialUse(other.id, "valve spring"), other)


@pytest.mark.parametrize("description", ["Air cylinder 40 mm", "Two linear guides", "Gland"])
def test_what_a_description_names_is_asked_about(ask: Judge, description: str) -> None:
    part = {"exposure": "splash", "materials": [{"component": "x", "material": "316L"}]}
    named, other = (
        ask(MATERIALS_LISTED.id, BRINE, {**part, "description": text}).text
        for text in (description, "Un" + description.lower().replace(" ", "") + "ed")
    )
    assert named != other
