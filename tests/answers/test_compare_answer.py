"""Two lists: which verdict changed, by which fact, and what that costs."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any, get_args, get_type_hints

import pytest

from areafit.answers.compare import Comparison, SubjectChange, compare
from areafit.answers.stated import UNITLESS, dimension
from areafit.facts.bom import LibraryFile, LibraryUse
from areafit.facts.loop import ByGroup, Cable, Loop, LoopDevice
from areafit.facts.marking import Marking
from areafit.facts.part import MaterialUse, Part
from areafit.facts.place import AreaReading, Concentration, Place
from areafit.facts.quantity import Range
from areafit.findings.report import BomReport
from areafit.values import Frozen, replace
from areafit.verdict import Verdict

Judged = Callable[..., BomReport]


@pytest.fixture
def changed(judged: Judged, small: str) -> Callable[[str, str], Comparison]:
    return lambda old, new: compare(judged(), judged(small.replace(old, new)))


def subject(found: Comparison, kind: str, name: str) -> SubjectChange:
    return next(each for each in found.subjects if (each.kind, each.name) == (kind, name))


def told(change: SubjectChange) -> dict[str, tuple[str | None, str | None]]:
    return {fact.fact: (fact.old, fact.new) for fact in change.facts}


def test_the_same_list_differs_in_nothing(judged: Judged, small: str) -> None:
    found = compare(judged(), judged("# a comment\n" + small))
    assert found.subjects == ()
    assert found.old == found.new


def test_a_changed_marking_is_the_fact_behind_the_verdict(
    changed: Callable[[str, str], Comparison],
) -> None:
    found = changed("Ex ia IIA T4 Gb", "Ex ia IIC T4 Gb")
    change = subject(found, "item", "10")
    assert told(change) == {"markings[1]": ("Ex ia IIA T4 Gb", "Ex ia IIC T4 Gb")}
    assert change.words == "PN-1, Sensor"
    (finding,) = (each for each in change.findings if each.rule == "gas-group")
    assert (finding.old, finding.new) == (Verdict.FLAG, Verdict.PASS)
    assert (finding.found.old, finding.found.new) == ("IIA", "IIC")
    assert finding.required.old == finding.required.new


@pytest.mark.parametrize(
    ("old", "new", "fact", "values"),
    [
        ("    quantity: 2", "    rubbing_speed: 0.2 m/s", "rubbing_speed", (None, "0.2 m/s")),
        ("    quantity: 2", "    bonded: true", "bonded", (None, "true")),
        ("    quantity: 2", "    bonded: false", "bonded", (None, "false")),
        ("    quantity: 2", "    ambient: -20..50 °C", "ambient", (None, "-20..50 °C")),
        ("contacts: none", "contacts: [{with: '20'}]", "contacts[20]", ("none", "stated")),
        (
            "kind: electrical\n    marking",
            "kind: [electrical, mechanical]\n    marking",
            "kinds",
            ("electrical", "electrical, mechanical"),
        ),
        (
            "seal, material: EPDM",
            "seal, material: FKM",
            "materials[seal].material",
            ("EPDM", "FKM"),
        ),
        ("contacts: none", "exposure: splash", "contacts", ("none", None)),
        ("    quantity: 2", "    drop_height: none", "drop_height", (None, "none")),
        ("    quantity: 2", "    capacitance: 5 pF", "capacitance", (None, "5 pF")),
    ],
)
def test_facts_are_told_by_path(
    changed: Callable[[str, str], Comparison],
    old: str,
    new: str,
    fact: str,
    values: tuple[str | None, str | None],
) -> None:
    assert told(subject(changed(old, new), "item", "10"))[fact] == values


def test_documents_are_found_again_wherever_they_stand(
    changed: Callable[[str, str], Comparison],
) -> None:
    found = changed("evidence: [", "evidence: [{type: control drawing, number: CD-1}, ")
    assert told(subject(found, "item", "10")) == {
        "evidence[control drawing CD-1]": (None, "stated")
    }


def test_what_was_none_is_told_beside_what_came(changed: Callable[[str, str], Comparison]) -> None:
    found = changed("contacts: none", "contacts: [{with: '20', wet: true}]")
    assert told(subject(found, "item", "10")) == {
        "contacts[20]": ("none", "stated"),
        "contacts[20].wet": ("none", "true"),
    }


def test_every_quantity_has_the_unit_of_a_list() -> None:
    whole: set[type[Any]] = {Range, ByGroup, Marking, AreaReading, Concentration}  # told as one
    kinds = set(whole)
    for top in (Part, Place, Loop):
        gather(top, kinds)
    assert {MaterialUse, Cable, LoopDevice} <= kinds
    bare = {
        (kind.__name__, name)
        for kind in kinds - whole
        for name, hint in get_type_hints(kind).items()
        if {Decimal, Range} & {hint, *get_args(hint)} and dimension(kind, name) is None
    }
    assert {name for _, name in bare} == UNITLESS, "file/facts.csv says the unit of each"


def gather(hint: Any, into: set[type[Any]]) -> None:
    """Every class of facts that a type speaks of."""
    if isinstance(hint, type) and issubclass(hint, Frozen) and hint not in into:
        into.add(hint)
        for inner in get_type_hints(hint).values():
            gather(inner, into)
    for inner in get_args(hint):
        gather(inner, into)


def test_a_place_tells_what_it_asks_anew(changed: Callable[[str, str], Comparison]) -> None:
    found = changed("Zone 1, IIB, T3", "Zone 1, IIC, T4")
    place = subject(found, "location", "head")
    assert told(place) == {"area": ("Zone 1, IIB, T3", "Zone 1, IIC, T4")}
    asked = {each.fact: (each.old, each.new) for each in place.requirements}
    assert asked["hazards.gas.surface_below_c"] == ("200", "135")
    ether = changed("substances: ethanol", "substances: [ethanol, diethyl ether]")
    asked = {f.fact: (f.old, f.new) for f in subject(ether, "location", "head").requirements}
    assert asked["hazards.gas.groups.division gas"] == ("B; D", "B; C; D")
    dropped = changed("    document: AC-1\n    substances", "    substances")
    (document,) = subject(dropped, "location", "head").requirements
    assert (document.old, document.new) == ("AC-1", None)


def test_what_comes_and_goes_is_told_without_its_facts_verdicts(
    changed: Callable[[str, str], Comparison],
) -> None:
    found = changed("L-1", "L-2")
    assert (subject(found, "loop", "L-2").old, subject(found, "loop", "L-1").new) == (None, None)
    assert subject(found, "loop", "L-2").findings == ()
    values = told(subject(found, "loop", "L-2"))
    assert values["group"] == (None, "IIB")
    loop = subject(changed("Ui: 24 V", "Ui: 30 V"), "loop", "L-1")
    assert told(loop) == {"devices[10].Ui": ("24 V", "30 V")}
    assert any(f.rule == "loop-voltage" and f.new is Verdict.PASS for f in loop.findings)


def test_the_list_itself_is_compared(changed: Callable[[str, str], Comparison]) -> None:
    found = changed(", revision: A, assessment: IHA-1", ", revision: B")
    change = subject(found, "list", "T-1")
    assert told(change) == {
        "assembly.revision": ("A", "B"),
        "assembly.assessment": ("IHA-1", None),
    }
    assert (change.old, change.new) == (Verdict.PASS, Verdict.UNPROVEN)
    assert subject(changed("code: IEC", "code: ATEX"), "list", "T-1").facts[0].new == "ATEX"


def test_cost_certified_items_and_lines_without_a_price(
    changed: Callable[[str, str], Comparison],
) -> None:
    found = changed("unit_cost: 84.5", "unit_cost: 90")
    assert found.old.cost == {"electrical": Decimal("179.0")}
    assert found.new.cost == {"electrical": Decimal(190)}
    assert (found.old.parts, found.old.certified, found.old.unpriced) == (3, 1, 1)
    assert changed("type: certificate", "type: test report").new.certified == 0


def test_findings_that_only_one_list_was_asked_have_no_other_verdict(judged: Judged) -> None:
    report = judged()
    place = replace(report.places[0], blocks=(), requires={"hazards": [], "ambient": None})
    found = compare(report, replace(report, places=(place, *report.places[1:])))
    change = subject(found, "location", "head")
    assert {finding.new for finding in change.findings} == {None}
    assert {finding.found.new for finding in change.findings} == {None}
    assert all(each.new in (None, "none") for each in change.requirements)


def test_renumbering_every_item_changes_nothing_else(judged: Judged, small: str) -> None:
    old = text = small.replace('{item: "20"', '{item: "20", part_number: PN-2').replace(
        '- item: "30"', '- item: "30"\n    line_id: L-30'
    )
    for item in ("10", "20", "30"):
        text = text.replace(f'item: "{item}"', f'item: "9{item}"')
    found = compare(judged(old), judged(text))
    assert {each.old: each.new for each in found.renumbered} == {
        item: f"9{item}" for item in ("10", "20", "30")
    }
    assert found.subjects == ()


LINES = """
areafit: 1
assembly: {number: T-1}
code: IEC
locations: {head: {}}
parts:
  - {item: '1', part_number: A, kind: structural, location: head}
  - {item: '2', part_number: B, kind: electrical, parent: '1', contacts: [{with: '3'}]}
  - {item: '3', part_number: C, kind: structural, location: head, drop_height: none}
  - {item: '4', part_number: C, kind: structural, location: head, bonded: true}
"""


def test_other_lines_in_between_and_another_part_at_a_position(judged: Judged) -> None:
    """The facts of a line stay with its part; at its old position stands another line."""
    new = (
        LINES.replace("item: '1'", "item: '5'")
        .replace("parent: '1'", "parent: '5'")
        .replace("item: '2'", "item: '6'")
        + "  - {item: '1', part_number: D, kind: structural, location: head}\n"
    )
    found = compare(judged(LINES), judged(new))
    assert [(each.old, each.new) for each in found.renumbered] == [("1", "5"), ("2", "6")]
    (came,) = found.subjects
    assert (came.name, came.words, came.old) == ("1", "D", None)
    other = compare(judged(LINES), judged(LINES.replace("part_number: A", "part_number: Z")))
    assert {(each.name, each.words) for each in other.subjects} == {
        *(("1", "A"), ("1", "Z"), ("2", "B")),
    }
    assert len(other.subjects) == 4


def test_lines_that_cannot_be_told_apart_are_told(judged: Judged) -> None:
    new = (
        LINES.replace("item: '3'", "item: '7'")
        .replace("item: '4'", "item: '8'")
        .replace("with: '3'", "with: '7'")
    )
    moved = compare(judged(LINES), judged(new))
    assert {each.old: each.new for each in moved.renumbered} == {"3": "7", "4": "8"}
    assert moved.subjects == ()
    found = compare(judged(LINES), judged(new.replace("bonded: true", "bonded: false")))
    (unclear,) = found.unclear
    assert (unclear.part_number, unclear.old, unclear.new) == ("C", ("3", "4"), ("7", "8"))
    assert {each.name for each in found.subjects} >= {"3", "4", "7", "8"}


def test_a_changed_library_is_told_and_a_moved_fact_is_not(judged: Judged) -> None:
    """By the digest of the files, whatever they are called."""
    report = judged()

    def with_files(*files: LibraryFile) -> BomReport:
        return replace(report, bom=replace(report.bom, library=LibraryUse(files)))

    one, other = LibraryFile("a.yaml", "1" * 64), LibraryFile("a.yaml", "2" * 64)
    (change,) = compare(with_files(one), with_files(other)).subjects
    assert told(change) == {"library": (f"a.yaml {'1' * 12}", f"a.yaml {'2' * 12}")}
    (change,) = compare(with_files(one), with_files(one, other)).subjects
    assert told(change) == {"library": (None, f"a.yaml {'2' * 12}")}
    for same in (with_files(replace(one, name="b.yaml")), report):
        assert compare(with_files(one), same).subjects == ()
