"""What a list claims in one breath: that materials are all, and that nothing touches.

That a cylinder holds seals, grease, a wiper and screws beside its tube, and that a note on a
drawing is written for the whole machine, are common practice, no source; the galvanic limits are
those of `galvanic-couple`.
"""

from datetime import date

import pytest

import areafit
from areafit.findings.report import Finding

WATER = "chemicals: [{name: tap water, temperature: 20 °C}]"
CYLINDER = "kind: mechanical, description: Pneumatic cylinder 32 x 100, materials_complete: {claim}"
ALL = (
    "barrel",
    "grease",
    "magnet",
    "piston",
    "piston rod",
    "piston seal",
    "screws",
    "silencer",
    "wiper",
)
PLATE = "kind: structural, description: Plate, exposure: splash"
NOTE = "{{document: {document}, role: designer{where}, facts: {{contacts: none}}}}"


def uses(*components: str) -> str:
    stated = (
        f"{{component: {name}, material: {material or '316'}, exposure: splash}}"
        for name, _, material in (each.partition("=") for each in components)
    )
    return f", materials: [{', '.join(stated)}]"


def cylinder(*components: str, claim: str = "true") -> str:
    return CYLINDER.replace("{claim}", claim) + uses(*components)


def found(
    rule: str, *lines: str, place: str = WATER, notes: str = "", library: str = ""
) -> list[Finding]:
    """What one rule finds of lines at one place."""
    parts = "".join(
        f"  - {{item: {i}, location: hall, {each}}}\n" for i, each in enumerate(lines, 1)
    )
    text = (
        "areafit: 1\nassembly: {number: C-1}\ncode: IEC\n"
        f"{'library: p.yaml' if library else ''}\n"
        f"{f'unless_stated: [{notes}]' if notes else ''}\n"
        f"locations:\n  hall: {{{place}}}\nparts:\n{parts}"
    )
    bom = areafit.read(text.encode(), "list.yaml", lambda _: library.encode())
    options = areafit.Options(as_of=date(2026, 11, 30))
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    return [f for each in report.subjects() for f in each.findings() if f.rule.id == rule]


def verdict(*args: str, **more: str) -> str:
    (finding,) = found(*args, **more)
    return finding.verdict.value


# All materials are listed


def test_a_claim_of_what_usually_hides_more_names_what_is_not_listed() -> None:
    (finding,) = found("materials-listed", cylinder("barrel", "piston rod", "seals"))
    assert finding.verdict.value == "unproven"
    for name in ("grease", "magnet", "piston", "screws", "silencer", "wiper"):
        assert name in finding.message
    assert "piston seal" not in finding.message
    assert "barrel" not in finding.message
    assert finding.path == "parts/0/materials_complete"


@pytest.mark.parametrize("left", ALL)
def test_each_component_must_be_named(left: str) -> None:
    rest = [name for name in ALL if name != left]
    asked = verdict("materials-listed", cylinder(*rest))
    assert asked == "unproven"
    assert verdict("materials-listed", cylinder(*rest, f"{left}=none")) == "pass"
    assert verdict("materials-listed", cylinder(*ALL)) == "pass"


@pytest.mark.parametrize(
    "names",
    [
        (
            "tube",
            "lubricant",
            "magnets",
            "pistons",
            "rod",
            "O-rings",
            "bolts",
            "muffler",
            "scraper",
        ),
        (
            "Cylinder tube",
            "Grease",
            "Magnet",
            "Piston",
            "Piston rod",
            "Seals",
            "Screws M5",
            "Silencer",
            "Wiper",
        ),
    ],
)
def test_components_go_by_other_words_too(names: tuple[str, ...]) -> None:
    assert verdict("materials-listed", cylinder(*names)) == "pass"


@pytest.mark.parametrize(
    ("description", "asked"),
    [
        ("Gas spring of the lid", True),
        ("Set of gas springs for the lid", True),
        ("Bracket, with gas spring", True),
        ("Position sensor on the actuator", False),
        ("Plate for gas spring", False),
        ("Hose clamp", False),
        ("Toggle clamps", True),
        ("Push-in fittings", True),
        ("Built-in solenoid valve", True),
        ("1 in quick coupling", True),
        ("Air cylinder for the lid, with quick coupling", True),
    ],
)
def test_what_it_is_for_or_on_is_no_part_of_it(description: str, *, asked: bool) -> None:
    line = f"{PLATE.replace('Plate', repr(description))}, materials_complete: true{uses('plate')}"
    assert (verdict("materials-listed", line) == "unproven") is asked


def test_a_document_is_a_ground_and_a_bare_claim_of_a_plate_needs_none() -> None:
    assert verdict("materials-listed", cylinder("barrel", claim="{document: letter 7}")) == "pass"
    refused = cylinder("barrel", claim="{document: letter 7, complete: no}")
    assert verdict("materials-listed", refused) == "unproven"
    assert (
        verdict("materials-listed", f"{PLATE}, materials_complete: true{uses('plate')}") == "pass"
    )
    with pytest.raises(areafit.InputErrors, match="no document is named"):
        found("materials-listed", cylinder("barrel", claim="{document: none}"))
    with pytest.raises(areafit.InputErrors, match="an empty mapping says nothing"):
        found("materials-listed", cylinder("barrel", claim="{}"))
    with pytest.raises(areafit.InputErrors, match="no key of `materials_complete`"):
        found("materials-listed", cylinder("barrel", claim="{who: me}"))


def test_what_the_part_has_not_is_no_material() -> None:
    line = cylinder("silencer=none", "barrel", "grease=none", "piston rod=unobtainium")
    (finding,) = found("chemical-resistance", line)[1:]
    assert "unobtainium" in finding.message
    assert finding.path.startswith("parts/0/materials/3")  # as the list counts them
    before = "  - {item: 1, location: hall, " + line[: line.index("unobtainium")]
    assert finding.position.column == len(before) + 1
    with pytest.raises(areafit.InputErrors, match="says of no component"):
        found("materials-listed", f"{PLATE}, materials: [{{material: none}}]")


ROD = "materials: [{component: rod, material: '316', instead: barrel, document: order 3}]"
LIBRARY = (
    "areafit-parts: 1\nparts:\n  CY-1:\n    kind: mechanical\n    description: Pneumatic cylinder\n"
    "    materials: [{component: barrel, material: '316'}]\n    materials_complete: true\n"
    "    confirmed: {on: 2026-11-01, document: data sheet 7, role: supplier}\n"
)


@pytest.mark.parametrize(
    ("line", "holds"),
    [
        ("exposure: splash", "pass"),
        ("exposure: splash, materials_complete: true", "pass"),
        ("materials: [{component: barrel, material: '316', exposure: splash}]", "unproven"),
        ("materials: [{component: tube, material: '304', exposure: splash}]", "unproven"),
        (
            f"exposure: splash, {ROD}",
            "pass",
        ),
    ],
)
def test_a_confirmed_entry_is_the_ground_of_its_own_list_only(line: str, holds: str) -> None:
    assert verdict("materials-listed", f"part_number: CY-1, {line}", library=LIBRARY) == holds


def test_the_document_of_a_line_is_no_ground_for_another_part() -> None:
    line = cylinder("barrel", claim="{document: letter 7}") + ", part_number: A"
    alike, other = found("materials-listed", f"{line}, alternates: [{{part_number: B}}]")
    assert (alike.verdict.value, other.verdict.value) == ("pass", "unproven")


# Nothing touches, says a note


def test_lines_of_like_metals_may_be_kept_apart_by_a_note() -> None:
    lines = (PLATE + uses("a=304"), PLATE + uses("b=316"))
    assert verdict("noted-contacts", *lines, notes=NOTE.format(document="ES-1", where="")) == "pass"


def test_one_question_of_the_place_names_the_lines_that_may_touch() -> None:
    lines = (
        PLATE + uses("a=304"),
        PLATE + uses("b=6061"),
        PLATE + uses("c=6061"),
        f"{PLATE}, contacts: none" + uses("d=magnesium AZ91"),
        PLATE.replace("splash", "room") + uses("e=copper").replace("splash", "room"),
    )
    (finding,) = found("noted-contacts", *lines, notes=NOTE.format(document="ES-1", where=""))
    assert finding.verdict.value == "unproven"
    assert finding.path == "locations/hall"
    assert "ES-1" in finding.message
    assert finding.found == "items 1, 2, 3"


def test_two_notes_keep_lines_apart_no_better_than_one() -> None:
    lines = (PLATE + uses("a=304"), PLATE + uses("b=6061"))
    two = ", ".join(
        NOTE.format(document=f"ES-{i}", where=f", where: {{items: {i}}}") for i in (1, 2)
    )
    (finding,) = found("noted-contacts", *lines, notes=two)
    assert (finding.verdict.value, "ES-1 and ES-2" in finding.message) == ("unproven", True)


@pytest.mark.parametrize(
    ("lines", "place"),
    [
        ((PLATE + uses("a=304", "b=6061"),), WATER),  # one line alone
        ((f"{PLATE}, contacts: none" + uses("a=304"), PLATE + uses("b=6061")), WATER),
        ((PLATE.replace("splash", "room") + uses("a=304").replace("splash", "room"),) * 2, WATER),
    ],
)
def test_nothing_is_asked_where_nothing_can_follow(lines: tuple[str, ...], place: str) -> None:
    note = NOTE.format(document="ES-1", where="")
    assert found("noted-contacts", *lines, place=place, notes=note) == []


def test_air_of_which_nothing_is_said_may_be_damp() -> None:
    """Own reasoning: that the air is severe cannot be left out to be asked less."""
    lines = (PLATE + uses("a=304"), PLATE + uses("b=6061"))
    note = NOTE.format(document="ES-1", where="")
    for air in ("", ", atmosphere: severe"):
        (finding,) = found("noted-contacts", *lines, place=f"chemicals: none{air}", notes=note)
        assert finding.verdict.value == "unproven"


def test_a_metal_without_a_row_is_not_known_to_fit() -> None:
    lines = (PLATE + uses("a=304"), PLATE + uses("b=unobtainium"))
    (finding,) = found("noted-contacts", *lines, notes=NOTE.format(document="ES-1", where=""))
    assert (finding.verdict.value, "unobtainium" in finding.message) == ("unproven", True)


def test_said_on_the_line_it_is_taken_at_its_word() -> None:
    line = f"{PLATE}, contacts: none"
    assert found("noted-contacts", line + uses("a=304"), line + uses("b=6061")) == []
