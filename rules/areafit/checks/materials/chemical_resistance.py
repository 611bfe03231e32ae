"""Every material against every chemical that it meets, at the exposure of its use."""

from areafit.checks.materials.resistance.answer import judge
from areafit.checks.materials.resistance.question import Question, ask
from areafit.rule import Example, Family, Rule, Subject
from areafit.verdict import Role, Verdict

_NITRIC = "{chemicals: [{name: nitric acid, concentration: 20 %, temperature: 25 °C}]}"
_HCL = "{chemicals: [{name: hydrochloric acid, concentration: 10 %, temperature: 25 °C}]}"
_CAUSTIC = "{chemicals: [{name: sodium hydroxide, concentration: 5 %, temperature: 25 °C}]}"
_SULFURIC = "{chemicals: [{name: sulfuric acid, concentration: 2 %, temperature: 25 °C}]}"


def _part(material: str, exposure: str, more: str = "") -> str:
    return (
        f"kind: structural, materials: [{{material: {material}, exposure: {exposure}{more}}}], "
        "materials_complete: true, contacts: none"
    )


CHEMICAL_RESISTANCE = Rule[Question](
    id="chemical-resistance",
    title="Materials stand the chemicals they meet",
    family=Family.MATERIALS,
    subject=Subject.MATERIAL,
    clause="Resistance table by concentration and temperature; exposure by reasoned rules (no "
    "published standard covers splash, fume and room exposure)",
    why="What survives immersion may fail in the corner where a drop dries, and the other way "
    "round in the air of the room; a name and a chemical alone decide nothing.",
    remedy="Choose a material that stands the chemical, or move or shield the part.",
    answer_by=Role.DESIGNER,
    note="Concentrations are mass percent. Hotter or stronger than the data is `no data`, never "
    "the last good rating. Relief by exposure and ratings by analogy have basis judgement.",
    ask=ask,
    judge=judge,
    examples=(
        Example("304 in nitric acid", Verdict.PASS, _part("'304'", "immersed"), _NITRIC),
        Example("316L in hydrochloric acid", Verdict.FLAG, _part("316L", "fume"), _HCL),
        Example("Aluminium in lye", Verdict.FLAG, _part("AlMg3", "splash"), _CAUSTIC),
        Example(
            "Dilute sulfuric acid that may dry in a corner",
            Verdict.FLAG,
            _part("'316'", "splash"),
            _SULFURIC,
        ),
        Example(
            "The same acid, and the part stays under it",
            Verdict.PASS,
            _part("'316'", "immersed"),
            _SULFURIC,
        ),
        Example(
            "No exposure", Verdict.UNPROVEN, "kind: structural, materials: [{material: PP}]", _HCL
        ),
        Example(
            "A chemical of no known name",
            Verdict.UNPROVEN,
            _part("PTFE", "immersed"),
            "{chemicals: [{name: cleaner nobody lists, temperature: 25 °C}]}",
        ),
    ),
)
