"""Notes that hold for many lines: who is meant, what is nearest, and who is told to have said it.

The format is the project's own: that drawings say "unless otherwise stated" is common practice, no
source.
"""

from datetime import date
from typing import Any

import pytest

import areafit
from areafit.facts.bom import Bom, StatedAt
from areafit.facts.part import Exposure
from areafit.options import Options
from areafit.verdict import Verdict

SITE = """
areafit-areas: 1
code: IEC
unless_stated:
  - document: SITE-1
    role: area owner
    facts: {exposure: room}
locations:
  bench: {area: unclassified, document: AC-1, substances: none, chemicals: none}
  yard: {area: unclassified, document: AC-1, substances: none, chemicals: none}
"""
PLACES = """
locations:
  bench:
    area: unclassified
    document: AC-1
    unless_stated:
      - {document: BENCH-1, role: area owner, facts: {exposure: fume}}
  yard: {area: unclassified, document: AC-1}
"""


def note(facts: str, where: str = "{}", document: str = "ES-1", materials: str = "") -> str:
    more = f", materials: {materials}" if materials else ""
    said = f"facts: {facts}{more}" if facts else f"materials: {materials}"
    return f"  - {{where: {where}, document: {document}, role: designer, {said}}}\n"


def read(notes: str, *lines: str, places: str = "", site: str = "") -> Bom:
    parts = "".join(f"  - {{item: {i}, {line}}}\n" for i, line in enumerate(lines, 1))
    where = "areas: site.yaml\n" if site else f"code: IEC{places or PLACES}"
    unless = f"unless_stated:\n{notes}" if notes else ""
    text = f"areafit: 1\nassembly: {{number: N-1}}\n{unless}{where}parts:\n{parts}"
    return areafit.read(text.encode(), "list.yaml", lambda _: site.encode())


BARE = "kind: structural, description: Plate, location: yard"
PLATE = "description: Plate, kind: structural, location: yard, materials: [{material: '304'}]"


def test_a_note_speaks_for_every_line_that_says_nothing() -> None:
    bom = read(note("{bonded: true, drop_height: none}"), PLATE, f"{PLATE}, bonded: false")
    assert [part.body.bonded for part in bom.parts] == [True, False]
    assert [part.body.drop_height for part in bom.parts] == [0, 0]
    said = bom.stated_by("parts/0/bonded")
    assert [(one.level, one.document, one.role) for one in said] == [
        (StatedAt.LIST, "ES-1", "designer")
    ]
    assert bom.stated_by("parts/1/bonded") == ()
    assert {one.path for one in bom.stated_by("parts/1")} == {"parts/1/drop_height"}


@pytest.mark.parametrize(
    ("where", "held"),
    [
        ("{kind: structural}", True),
        ("{kind: [structural, mechanical]}", True),
        ("{kind: mechanical}", False),
        ("{items: 1}", True),
        ("{items: ['2']}", False),
        ("{location: yard}", True),
        ("{location: [bench, yard]}", True),
        ("{location: bench}", False),
        ("{kind: structural, location: bench}", False),
    ],
)
def test_all_that_where_gives_must_hold(where: str, *, held: bool) -> None:
    bom = read(note("{bonded: true}", where), PLATE)
    assert (bom.parts[0].body.bonded is True) is held
    assert any("ES-1" in remark for remark in bom.remarks) is not held  # unused: told


def test_a_line_of_two_kinds_is_meant_only_if_both_are_named() -> None:
    both = PLATE.replace("structural", "[structural, mechanical]")
    assert read(note("{bonded: true}", "{kind: structural}"), both).parts[0].body.bonded is None
    named = note("{bonded: true}", "{kind: [mechanical, structural]}")
    assert read(named, both).parts[0].body.bonded is True


def test_a_proposed_kind_is_no_kind_for_a_note() -> None:
    line = f"{PLATE}, proposed: [kind]"
    assert read(note("{bonded: true}", "{kind: structural}"), line).parts[0].body.bonded is None
    assert read(note("{bonded: true}"), line).parts[0].body.bonded is True


def test_unknown_keeps_a_fact_open() -> None:
    bom = read(note("{bonded: true}", materials="{welded: false}"), f"{PLATE}, bonded: unknown")
    assert bom.parts[0].body.bonded is None
    line = PLATE.replace("'304'", "'304', welded: unknown")
    uses = read(note("{bonded: true}", materials="{welded: false}"), line).parts[0].materials
    assert uses is not None
    assert uses[0].welded is None


def test_the_nearest_word_wins() -> None:
    lines = (PLATE, PLATE.replace("yard", "bench"), f"{PLATE}, exposure: splash")
    bom = read(note("{exposure: washdown}"), *lines)
    assert [part.exposure for part in bom.parts] == [
        Exposure.WASHDOWN,
        Exposure.FUME,
        Exposure.SPLASH,
    ]
    assert bom.stated_by("parts/1/exposure")[0].level is StatedAt.LOCATION
    assert bom.stated_by("parts/1/materials/0")[0].path == "parts/1/materials/0/exposure"


def test_a_parents_own_word_is_nearer_than_a_note_and_a_note_of_its_own_than_the_parents() -> None:
    child = "kind: mechanical, parent: 1, materials: [{material: '304'}]"
    stated = read(note("{exposure: washdown}"), f"{PLATE}, exposure: splash", child)
    assert stated.parts[1].exposure is Exposure.SPLASH
    of_kinds = note("{exposure: washdown}", "{kind: structural}")
    inherited = read(of_kinds, PLATE, child)
    assert inherited.parts[1].exposure is Exposure.WASHDOWN
    assert inherited.stated_by("parts/1/exposure")[0].document == "ES-1"
    own = read(of_kinds + note("{exposure: room}", "{kind: mechanical}"), PLATE, child)
    assert own.parts[1].exposure is Exposure.ROOM


def test_a_line_at_two_places_takes_what_both_say() -> None:
    line = PLATE.replace("yard", "[bench, yard]")
    assert read("", line).parts[0].exposure is None
    assert read(note("{exposure: washdown}"), line).parts[0].exposure is None
    both = PLACES.replace("yard: {", f"yard: {{unless_stated: [{note('{exposure: fume}')[4:-1]}], ")
    assert read("", line, places=both).parts[0].exposure is Exposure.FUME


def test_at_each_place_the_nearest_note_counts_and_all_must_say_the_same() -> None:
    line = PLATE.replace("yard", "[bench, yard]")
    same = SITE.replace(
        "bench: {", "bench: {unless_stated: [{document: B, role: a, facts: {exposure: room}}], "
    )
    assert read("", line, site=same).parts[0].exposure is Exposure.ROOM
    assert read(note("{exposure: fume}"), line).parts[0].exposure is Exposure.FUME
    with pytest.raises(areafit.InputErrors, match="two notes say different things"):
        read("", line, site=same.replace("facts: {exposure: room}}]", "facts: {exposure: fume}}]"))


def test_unknown_keeps_the_exposure_of_a_parent_away_too() -> None:
    child = "kind: mechanical, parent: 1, exposure: unknown"
    assert (
        read(note("{exposure: room}"), f"{PLATE}, exposure: splash", child).parts[1].exposure
        is None
    )


def test_a_note_gives_the_location_too() -> None:
    line = "kind: structural, description: Plate"
    bom = read(note("{location: yard}", "{kind: structural}"), line)
    assert bom.parts[0].locations == ("yard",)
    assert [one.path for one in bom.stated_by("parts/0/location")] == ["parts/0/location"]


@pytest.mark.parametrize(
    ("facts", "line", "held"),
    [
        ("{materials_complete: true}", PLATE, True),
        (
            "{materials_complete: true}",
            "kind: structural, description: Plate, location: yard",
            False,
        ),
        ("{materials_complete: true}", PLATE.replace("Plate", "Gas spring"), False),
        ("{materials_complete: true}", PLATE.replace("structural", "mechanical"), False),
        ("{contacts: none}", PLATE, True),
        ("{contacts: none}", PLATE.replace("description: Plate, ", ""), False),
        ("{contacts: none}", PLATE.replace("Plate", "Cable gland"), False),
    ],
)
def test_notes_do_not_speak_for_makers(facts: str, line: str, *, held: bool) -> None:
    part = read(note(facts), line).parts[0]
    assert (part.materials_complete is True or part.contacts == ()) is held
    named = read(note(facts, "{items: 1}"), line).parts[0]
    assert (named.materials_complete is True or named.contacts == ()) is (
        "materials: " in line or "contacts" in facts
    )


@pytest.mark.parametrize(
    "component",
    ["screw", "Zylinderschrauben", "spring", "metal bellows", "hex nut", "bent tube", "vite M6"],
)
def test_tension_and_gaps_of_what_is_tensioned_are_said_on_the_line_only(component: str) -> None:
    free = note("", materials="{stressed: false, welded: false}")
    line = PLATE.replace("'304'", f"'304', component: {component}")
    uses = read(free, line).parts[0].materials
    assert uses is not None
    assert (uses[0].stressed, uses[0].welded) == (None, False)
    strained = read(note("", materials="{stressed: true}"), line).parts[0].materials
    assert strained is not None
    assert strained[0].stressed is True


@pytest.mark.parametrize(
    ("notes", "says"),
    [
        (note("{marking: none}"), "`marking` is no key of the `facts` of a note"),
        (note("{exposure: enclosed}"), "cannot say that parts are enclosed"),
        (note("{contacts: [2]}"), "contacts"),
        (note("{}"), "says nothing"),
        (note("{bonded: true}", "{kind: unknown}"), "kinds that are unknown"),
        (note("{bonded: true}", "{who: 1}"), "`who` is no key of `where`"),
        (note("{bonded: true}").replace("document: ES-1, ", ""), "without `document`"),
        (note("{bonded: true}").replace("document: ES-1", "document: tbd"), "document"),
        (note("{location: yard}", "{location: yard}"), "says where parts stand"),
        (note("{bonded: true}") + note("{bonded: false}"), "two notes say different things"),
        ("  none\n", "where a mapping belongs"),
        (note("{location: nowhere}", "{items: 1}"), "`nowhere` is none of the `locations`"),
        (note("{bonded: true}", "{location: yrd}"), "`yrd` is none of the `locations`"),
    ],
)
def test_what_a_note_may_not_say_is_refused_with_its_line(notes: str, says: str) -> None:
    with pytest.raises(areafit.InputErrors) as refused:
        read(notes, PLATE)
    assert says in str(refused.value)
    assert all(one.position.line in {4, 5} for one in refused.value.errors)


def test_two_notes_that_differ_hurt_only_a_line_that_asks_them() -> None:
    two = note("{bonded: true}") + note("{bonded: false}")
    assert read(two, f"{PLATE}, bonded: true").parts[0].body.bonded is True
    assert read(two, f"{PLATE}, bonded: unknown").parts[0].body.bonded is None


def test_a_list_may_not_differ_from_the_shared_file() -> None:
    agreed = read("", PLATE, site=SITE)
    assert agreed.parts[0].exposure is Exposure.ROOM
    assert agreed.stated_by("parts/0/exposure")[0].level is StatedAt.SHARED
    with pytest.raises(areafit.InputErrors, match="two notes say different things"):
        read(note("{exposure: splash}"), PLATE, site=SITE)
    on_line = read(note("{exposure: splash}"), f"{PLATE}, exposure: fume", site=SITE)
    assert on_line.parts[0].exposure is Exposure.FUME


def _verdicts(bom: Bom, **options: Any) -> dict[str, str]:

    report = areafit.judge(
        bom, areafit.Tables.shipped(), Options(as_of=date(2026, 1, 1), **options)
    )
    return {
        finding.rule.id: finding.verdict.value
        for part in report.parts
        for finding in part.findings()
    }


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        ("kind: unknown, location: yard, description: Thing", "kind-known"),
        (f"{PLATE}, proposed: kind", "proposed"),
    ],
)
def test_no_option_reaches_what_only_the_list_settles(line: str, rule: str) -> None:
    bom = read("", line)
    for options in (
        {},
        {"only": frozenset({"bonding"})},
        {"skip": frozenset({rule})},
        {"accept_unproven": frozenset({rule})},
    ):
        assert _verdicts(bom, **options)[rule] == Verdict.UNPROVEN.value


def test_of_an_unknown_kind_nothing_else_is_asked() -> None:
    assert _verdicts(read("", "kind: unknown, location: yard")) == {"kind-known": "unproven"}


def test_what_is_proposed_must_be_stated() -> None:
    with pytest.raises(areafit.InputErrors, match="proposed and not stated"):
        read("", f"{PLATE}, proposed: [kind, bonded]")
    with pytest.raises(areafit.InputErrors, match="`unknown` among other kinds"):
        read("", PLATE.replace("structural", "[structural, unknown]"))


def test_a_flag_under_a_proposal_says_so() -> None:
    line = (
        "kind: mechanical, electrical_content: none, proposed: kind, location: bench, "
        "rubbing_speed: 6 m/s"
    )
    zone = "\nlocations:\n  bench: {area: 'Zone 1, IIB, T3', document: AC-1}\n"

    bom = read("", line, places=zone)
    report = areafit.judge(bom, areafit.Tables.shipped(), Options(as_of=date(2026, 1, 1)))
    flags = [f for f in report.parts[0].findings() if f.verdict is Verdict.FLAG]
    assert flags
    assert {f.proposed for f in flags} == {("kind",)}
