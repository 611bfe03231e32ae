"""What an interview asks, and in which order: by what an answer settles, judged anew after each.

Own design, no source.
"""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.answers.interview import Interview, Turn, as_note, confirmed, is_made, proposals
from areafit.answers.taking import root_of
from areafit.facts.part import Kind
from areafit.verdict import Role

HEAD = """\
areafit: 1
assembly: {number: INT-1, assessment: IHA-1}
code: ATEX
locations:
  head:
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    ingress: IP65
    chemicals: none
parts:
"""
MADE = "kind: structural, location: head, drop_height: none, contacts: none"
DAY = date(2026, 11, 30)


def _judged(data: bytes) -> areafit.BomReport:
    return areafit.judge(
        areafit.read(data, "int.yaml"), areafit.Tables.shipped(), areafit.Options(as_of=DAY)
    )


def _turns(
    data: bytes, role: Role | None = None, item: str | None = None, held: Interview | None = None
) -> tuple[Turn, ...]:
    held = held or Interview(_judged)
    return held.turns(_judged(data), root_of(data, "int.yaml"), role=role, item=item)


@pytest.fixture
def machine() -> bytes:
    return (
        HEAD
        + f"""\
  - {{item: "1", part_number: A-1, description: Frame, {MADE}}}
  - {{item: "2", part_number: A-2, description: Plate, {MADE}}}
  - {{item: "3", part_number: A-3, description: Sensor, kind: electrical, location: head, vendor: V-1}}
  - {{item: "4", part_number: A-4, description: Sensor, kind: electrical, location: head, vendor: V-1}}
"""  # noqa: E501 - flow style
    ).encode()


def test_what_settles_most_is_asked_first(machine: bytes) -> None:
    turns = _turns(machine)
    settles = [turn.settles for turn in turns]
    assert settles == sorted(settles, reverse=True)
    assert settles[0] > settles[-1]


def test_every_question_that_a_list_can_answer_has_its_turn_once(machine: bytes) -> None:
    from areafit.answers.questions import questions

    every = [one.identity for turn in _turns(machine) for one in turn.questions]
    assert len(every) == len(set(every))
    asked = {one.identity for one in questions(_judged(machine)) if one.row is not None}
    after = ("part.materials_complete", "temperature.at_ambient", "temperature.case")
    together = {each for each in asked if each[3].endswith(after)}
    assert asked - together == set(every) - together


def test_alike_is_asked_once_and_makers_by_themselves(machine: bytes) -> None:
    turns = _turns(machine)
    bonded = [turn for turn in turns if turn.first.key == "part.bonded"]
    assert {"1", "2"} <= set(bonded[0].items)
    plates = [turn for turn in turns if turn.first.key == "part.marking"]
    assert sorted(turn.items for turn in plates) == [("3",), ("4",)]


def test_what_a_word_does_otherwise_is_asked_apart(machine: bytes) -> None:
    """A rod of plastic beside a frame of steel: being earthed settles nothing alike."""
    steel, plastic = (
        f"materials: [{{component: a, material: {name}, surface_area: 900 cm², exposure: room}}]"
        for name in ("316L", "PTFE")
    )
    data = machine.replace(f"Frame, {MADE}".encode(), f"Frame, {MADE}, {steel}".encode()).replace(
        f"Plate, {MADE}".encode(), f"Plate, {MADE}, {plastic}".encode()
    )
    for turn in _turns(data):
        if turn.first.key == "part.bonded":
            assert not {"1", "2"} <= set(turn.items)


def test_turns_are_made_anew_after_each_answer(machine: bytes) -> None:
    held = Interview(_judged)
    before = _turns(machine, held=held)
    assert any(turn.first.key == "part.bonded" and "1" in turn.items for turn in before)
    after = machine.replace(b"description: Frame,", b"description: Frame, bonded: true,")
    anew = _turns(after, held=held)
    assert not any(turn.first.key == "part.bonded" and "1" in turn.items for turn in anew)
    told = [[(turn.questions, turn.settles) for turn in each] for each in (anew, _turns(after))]
    assert told[0] == told[1]  # what is kept of lines that stayed changes nothing


@pytest.mark.parametrize("role", list(Role))
def test_of_a_role_only_its_own(machine: bytes, role: Role) -> None:
    for turn in _turns(machine, role=role):
        assert {one.party.role for one in turn.questions} == {role}


def test_of_an_item_only_its_own(machine: bytes) -> None:
    turns = _turns(machine, item="3")
    assert turns
    assert all("3" in one.items for turn in turns for one in turn.questions)


def test_neither_kind_nor_area_is_ever_a_turn(machine: bytes) -> None:
    """Those are confirmed on screens of their own, or stated where the place is stated."""
    data = machine.replace(b"kind: structural", b"kind: unknown", 1)
    keys = {turn.first.key for turn in _turns(data)}
    assert not keys & {"part.kind", "place.area", "place.code"}


PROPOSED = (
    HEAD
    + """\
  - {item: "1", part_number: A-1, description: Lever, kind: mechanical, proposed: kind, location: head}
  - {item: "2", part_number: A-1, description: Lever, kind: mechanical, proposed: kind, location: head}
  - {item: "3", part_number: A-2, description: Lever, kind: mechanical, proposed: kind, location: head}
  - {item: "4", description: Ring, kind: mechanical, proposed: [kind, location], location: head}
  - {item: "5", description: Ring, kind: structural, proposed: kind, location: head}
  - {item: "6", description: Ring, kind: mechanical, proposed: kind, location: head}
  - {item: "7", part_number: A-7, description: Cap, kind: unknown, location: head}
"""  # noqa: E501 - flow style
).encode()


def test_a_row_is_a_part_number_or_else_a_description_and_one_value() -> None:
    bom, root = areafit.read(PROPOSED, "int.yaml"), root_of(PROPOSED, "int.yaml")
    rows = [(row.name, row.key, row.value, row.items) for row in proposals(bom, root)]
    assert rows == [
        ("A-1", "kind", "mechanical", ("1", "2")),
        ("A-2", "kind", "mechanical", ("3",)),
        ("Ring", "kind", "mechanical", ("4", "6")),
        ("Ring", "location", "head", ("4",)),
        ("Ring", "kind", "structural", ("5",)),
        ("A-7", "kind", "", ("7",)),
    ]


def test_a_confirmation_takes_its_row_and_no_other() -> None:
    bom, root = areafit.read(PROPOSED, "int.yaml"), root_of(PROPOSED, "int.yaml")
    rows = proposals(bom, root)
    data = confirmed(PROPOSED, "int.yaml", root, rows[2])
    left = {part.item: part.proposed for part in areafit.read(data, "int.yaml").parts}
    kind = ("kind",)
    assert left == {
        **dict.fromkeys(("1", "2", "3", "5"), kind),
        "4": ("location",),
        "6": None,
        "7": None,
    }
    data = confirmed(PROPOSED, "int.yaml", root, rows[5], "structural")
    assert areafit.read(data, "int.yaml").parts[6].equipment.kinds == {Kind.STRUCTURAL}


def test_what_is_bought_is_not_of_ones_own_make(machine: bytes) -> None:
    bom = areafit.read(machine, "int.yaml")
    assert [is_made(bom, part) for part in bom.parts] == [True, True, False, False]


@pytest.fixture
def noted(machine: bytes) -> Callable[[str, str, object], bytes | None]:
    def noted_(key: str, written: str, value: object) -> bytes | None:
        made = machine
        for name in (b"Frame", b"Plate"):
            made = made.replace(
                b"description: " + name, f"{written}, description: ".encode() + name
            )
        (turn, *_) = [t for t in _turns(machine) if t.first.key == key and "1" in t.items]
        own = Turn(tuple(one for one in turn.questions if set(one.items) <= {"1", "2"}))
        return as_note(
            *(machine, made, "int.yaml", lambda data: areafit.read(data, "int.yaml")),
            turn=own,
            value=value,
            document="ES-1",
            role="designer",
        )

    return noted_


def test_a_note_says_exactly_what_the_lines_would(
    machine: bytes, noted: Callable[[str, str, object], bytes | None]
) -> None:
    found = noted("part.bonded", "bonded: true", True)  # noqa: FBT003 - the value
    assert found is not None
    assert b"ES-1" in found
    on_lines = machine
    for name in (b"Frame", b"Plate"):
        on_lines = on_lines.replace(b"description: " + name, b"bonded: true, description: " + name)
    verdicts = [
        [(p.name, p.verdict, [f.verdict for f in p.findings()]) for p in _judged(each).parts]
        for each in (found, on_lines)
    ]
    assert verdicts[0] == verdicts[1]


def test_no_note_says_what_only_a_line_may(
    noted: Callable[[str, str, object], bytes | None],
) -> None:
    materials = "materials: [{component: a, material: 316L}]"
    assert noted("part.materials", materials, [{"component": "a", "material": "316L"}]) is None


def test_a_place_of_a_shared_file_is_asked_where_it_is_stated() -> None:
    """No answer about it can be written into the list, so that nobody is asked at this one."""
    place = HEAD.partition("locations:\n")[2].partition("parts:")[0]
    place = place.replace("    ambient: 5..40 °C\n", "").replace("    ingress: IP65\n", "")
    line = '  - {item: "1", part_number: A-1, kind: electrical, location: head}\n'
    own = HEAD.partition("locations:")[0] + f"locations:\n{place}parts:\n{line}"
    top = "areafit: 1\nassembly: {number: INT-1, assessment: IHA-1}\nareas: areas.yaml\n"
    shared = f"areafit-areas: 1\ncode: ATEX\nlocations:\n{place}".encode()

    def keys(text: str) -> set[str]:
        def judge(data: bytes) -> areafit.BomReport:
            bom = areafit.read(data, "int.yaml", lambda _: shared, None)
            return areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=DAY))

        data = text.encode()
        turns = Interview(judge).turns(judge(data), root_of(data, "int.yaml"))
        return {turn.first.key for turn in turns}

    assert "place.ambient" in keys(own)
    other = keys(f"{top}parts:\n{line}")
    assert other
    assert not any(key.startswith("place.") for key in other)
