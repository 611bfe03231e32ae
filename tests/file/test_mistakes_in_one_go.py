"""Mistakes that people make: each is said with its position and what to do, all in one go."""

from collections.abc import Callable

import pytest

from areafit.errors import InputErrors
from areafit.file import read

TEN = """\
areafit: 1
assembly: {title: Mixer}
code: NCE
locations:
  room:
    area: Zone 1, IIB, T4
    ambient: 5..40
    chemical: none
    substances:
      - {name: blend, group: IIB, autoignition: 285 °C}
parts:
  - item: "10"
    location: rom
    kind: electric
    marking: Ex db IIB T4 Gb
    marking: Ex db IIC T4 Gb
  - item: "10"
    location: room
    kind: mechanical
    contacts: [{with: "77", wet: maybe}]
    rubbing_speed: 0.2
    materials: []
  - kind: structural
    parent: "99"
    ambient: [1]
    evidence: {type: listing}
    alternates: [{item: x, ingres: IP65}]
loops:
  - {name: L, source: {item: "10", Uo: 28, Voc: 3 V}, devices: [{item: no, Ui: 30 V}], cable: 3 m}
"""
SAID = [
    (2, 11, "`assembly` without `number`", "add `number:`"),
    (3, 7, "`code`: 'NCE' is not known here", "write NEC, IEC or ATEX"),
    (7, 14, "`ambient`: '5..40' has no unit", "write one of °C, °F or K"),
    (8, 5, "`chemical` is no key of a location", "did you mean `chemicals`?"),
    (10, 9, "`substances`: own values (autoignition, group) without `source`", "add `source:`"),
    (13, 15, "`rom` is none of the `locations`", "did you mean `room`?"),
    (14, 11, "`kind`: 'electric' is not known here", "perhaps `electrical`"),
    (16, 5, "the key `marking` is written twice, first on line 15", "keep one"),
    (17, 11, "the item `10` is listed twice, first on line 12", "give each line"),
    (20, 23, "no part has the item `77`", "write one of `10`"),
    (20, 34, "`wet`: 'maybe' is neither yes nor no", "write true or false"),
    (21, 20, "`rubbing_speed`: '0.2' has no unit", "write one of m/s, mm/s, m/min, ft/s"),
    (22, 16, "`materials`: an empty list says nothing", "write `none` if there is none"),
    (23, 5, "a part without `item`", "add `item:`, unique within the list"),
    (24, 13, "no part has the item `99`", "write one of `10`"),
    (25, 14, "`ambient`: a list where a text belongs", "write a single value"),
    (26, 15, "`evidence`: a mapping where a list belongs", "start each entry with `- `"),
    (27, 19, "`item` is no key of an alternate", "write one of `part_number`"),
    (27, 28, "`ingres` is no key of an alternate", "did you mean `ingress`?"),
    (29, 40, "`Uo`: '28' has no unit", "write one of"),
    (29, 44, "`Voc` says the same as `Uo`", "keep one of the two"),
    (29, 72, "no part has the item `no`", "write one of `10`"),
    (
        29,
        95,
        "`cable`: the text '3 m' where a mapping belongs",
        "write its keys, such as `length:`",
    ),
]


def test_many_mistakes_in_one_file() -> None:
    with pytest.raises(InputErrors) as caught:
        read(TEN.encode(), "mixer.yaml")
    found = caught.value.errors
    assert [(e.position.line, e.position.column, e.message) for e in found] == [
        (line, column, message) for line, column, message, _ in SAID
    ]
    for error, (*_, remedy) in zip(found, SAID, strict=True):
        assert remedy in error.remedy


def test_an_unknown_version_does_not_hide_the_rest() -> None:
    with pytest.raises(InputErrors) as caught:
        read(TEN.replace("areafit: 1", "areafit: 2").encode(), "mixer.yaml")
    messages = [error.message for error in caught.value.errors]
    assert messages[0] == "`areafit`: format version '2' is not known here"
    assert messages[1:] == [message for _, _, message, _ in SAID]


PART = "parts: [{item: 1, location: room, kind: structural%s}]\n"


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("", ["no `parts`"]),
        ("parts:\n", ["nothing can be read in `parts`"]),
        ("parts: none\n", ["nothing can be read in `parts`"]),
        ("parts: []\n", ["nothing can be read in `parts`"]),
        ("parts: [text]\n", ["`parts`: the text 'text' where a mapping belongs"]),
        ("parts: [~]\n", ["`parts`: nothing where a mapping belongs"]),
        ("parts: [{item: 1, location: room}]\n", ["a part without `kind`"]),
        ("parts: [{item: 1, kind: structural}]\n", ["a part without `location`"]),
        (
            "parts: [{item: 1, kind: structural, location: []}]\n",
            ["`location`: an empty list says nothing"],
        ),
        (PART % ", marking: None", ["`marking`: 'None' may be a leftover"]),
        (PART % ", materials: [none]", ["`materials`: `none` among the entries of a list"]),
        (PART % ", contacts: {with: 2}", ["`contacts`: a mapping where a list belongs"]),
        (PART % ", contacts: [2]", ["`contacts`: the text '2' where a mapping belongs"]),
        (PART % ", description: [a]", ["`description`: a list where a text belongs"]),
        (PART % f", ingress: {'x' * 2001}", ["`ingress`: longer than 2000 characters"]),
        (PART % ", quantity: two", ["`quantity`: 'two' is no plain number"]),
        (PART % ", quantity: -1", ["`quantity`: '-1' is no plain number"]),
        (PART % ", rubbing_speed: -1 m/s", ["`rubbing_speed`: '-1 m/s' is less than nothing"]),
        (PART % ", ambient: -300..0 °C", ["`ambient`: '-300..0 °C' lies below absolute zero"]),
        (
            PART % f", ambient: {'9' * 90} °C",
            [f"`ambient`: '{'9' * 59}…' is too long for a quantity"],
        ),
        (PART % ", placed_on_market: 2031-02-30", ["`placed_on_market`: '2031-02-30' is no date"]),
        (PART % ", placed_on_market: 2031", ["`placed_on_market`: '2031' is no date"]),
        (PART % ", generates: 5 mW", ["`generates`: '5 mW' is no mapping"]),
        (PART % ", evidence: [{number: 1}]", ["an evidence entry without `type`"]),
        (PART % ", evidence: [{type: paper}]", ["`type`: 'paper' is not known here"]),
        (
            PART % ", materials: [{material: AlMg3, composition: 5}]",
            ["`composition`: the text '5' where a composition belongs"],
        ),
        (
            PART % ", materials: [{material: AlMg3, composition: {Mg: [4 %]}}]",
            ["`composition`: a list as the share of Mg"],
        ),
        (
            PART % ", materials: [{material: AlMg3, composition: {Mg: 4}}]",
            ["`composition`: '4' has no unit"],
        ),
        ((PART % "") + "loops: text\n", ["`loops` is no list"]),
        ((PART % "") + "loops: [{devices: [{item: 1}]}]\n", ["a loop without `name`"]),
        (
            (PART % "") + "loops: [{name: L, devices: [{item: 1}]}]\n",
            ["`loops`: a loop needs `source` or `sources`"],
        ),
        (
            (PART % "")
            + "loops:\n"
            + "  - {name: L, source: {item: 1}, devices: [{item: 1}]}\n"
            + "  - {name: L, sources: [{item: 3}], devices: [{item: 1}]}\n",
            ["two loops are named `L`", "no part has the item `3`"],
        ),
        (
            (PART % "") + "loops: [{name: L, source: {item: 1, Co: [1]}, devices: [{item: 1}]}]\n",
            ["`Co`: a list where a quantity belongs"],
        ),
        (
            (PART % "")
            + "loops: [{name: L, source: {item: 1, Co: {IID: 1 nF}}, devices: [{item: 1}]}]\n",
            ["`Co`: 'IID' is not known here"],
        ),
        (
            (PART % "")
            + "loops: [{name: L, source: {item: 1}, devices: [{item: 1}], cable: {values: x}}]\n",
            ["`values`: the text 'x' cannot be taken"],
        ),
        ("parts: [{item: 1, kind: structural, parent: 1}]\n", ["this part is, over its parents,"]),
        (
            (
                "parts: [{item: 1, kind: structural, parent: 2}, "
                "{item: 2, kind: structural, parent: 3}, {item: 3, kind: structural, parent: 2}]\n"
            ),
            ["this part is, over its parents,"],
        ),
        (
            "parts:\n  - {item: 1, kind: structural}\n  - {item: 2, kind: structural, parent: 1}\n",
            ["a part without `location`"],
        ),
        (
            (
                "parts:\n"
                "  - {item: 1, kind: odd}\n"
                "  - {item: 2, kind: structural, parent: 1}\n"
                "  - {item: 3, kind: structural, parent: 7}\n"
            ),
            ["`kind`: 'odd' is not known here", "no part has the item `7`"],
        ),
        (
            (
                "parts:\n"
                "  - item: 1\n    location: room\n    kind: structural\n"
                "    alternates: [{location: [room, hall], contacts: [{with: 9}]}]\n"
            ),
            ["`hall` is none of the `locations`", "no part has the item `9`"],
        ),
    ],
)
def test_each_mistake(part_faults: Callable[[str], list[str]], more: str, says: list[str]) -> None:
    found = part_faults(more)
    assert len(found) == len(says), found
    for message, said in zip(found, says, strict=True):
        assert message.startswith(said)


@pytest.mark.parametrize(
    ("place", "says"),
    [
        ("layer: 5", "`layer`: '5' has no unit"),
        ("layer: -5 mm", "`layer`: '-5 mm' is less than nothing"),
        ("chemicals: [{concentration: 2 %}]", "a chemical without `name`"),
        ("chemicals: [{name: x, concentration: 2}]", "`concentration`: '2' has no unit"),
        (
            "chemicals: [{name: x, concentration: 2 ppm}]",
            "`concentration`: '2 ppm' does not say parts of what",
        ),
        (
            "chemicals: [{name: x, concentration: 1 % to 2 g/L}]",
            "`concentration`: '1 % to 2 g/L' mixes",
        ),
        ("chemicals: [{name: x, concentration: 120 %}]", "`concentration`: '120 %' is more than"),
        ("chemicals: [{name: x, concentration: -1 %}]", "`concentration`: '-1 %' is less than"),
        ("chemicals: [{name: x, concentration: many %}]", "`concentration`: 'many %' is not a"),
        (f"chemicals: [{{name: x, concentration: {'1' * 99} %}}]", "`concentration`: '111"),
        ("chemicals: [{name: x, ph: 7 %}]", "`ph`: '7 %' is no pH"),
        ("chemicals: [{name: x, ph: 6..15}]", "`ph`: '6..15' is beyond the scale"),
        ("chemicals: [{name: x, ph: -1}]", "`ph`: '-1' is less than nothing"),
        ("oxygen: 5 g/L", "`oxygen`: '5 g/L' is no share of a gas"),
        ("required_epl: Gd", "`required_epl`: 'Gd' is not known here"),
        ("substances: [{group: IIB}]", "`substances`: a substance without `name`"),
        ("areas: x", "`areas` is no key of a location"),
    ],
)
def test_each_mistake_in_a_place(
    faults: Callable[..., list[tuple[int, int, str]]], place: str, says: str
) -> None:
    text = f"areafit: 1\nassembly: {{number: 1}}\ncode: IEC\nlocations:\n  room: {{{place}}}\n"
    [(line, _, message)] = faults(text + PART % "")
    assert line == 5
    assert message.startswith(says)


OUTERMOST = {
    "areafit": "1",
    "assembly": "{number: 1}",
    "code": "IEC",
    "locations": "{room: }",
    "parts": "[{item: 1, location: room, kind: structural}]",
}


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("areafit", None, "without `areafit`"),
        ("areafit", "[1]", "`areafit`: a list where a text belongs"),
        ("assembly", None, "without `assembly`"),
        ("assembly", "M-1", "`assembly`: the text 'M-1' where a mapping belongs"),
        ("code", None, "without `code`"),
        ("code", "[IEC]", "`code`: a list where a text belongs"),
        ("locations", None, "no `locations`"),
        ("locations", "{}", "nothing can be read in `locations`"),
        ("locations", "{room: 5}", "the text '5' where a mapping belongs"),
        ("parts", None, "no `parts`"),
        ("part", "[]", "`part` is no key of a bill of materials"),
    ],
)
def test_each_mistake_in_the_outermost_keys(
    faults: Callable[..., list[tuple[int, int, str]]], key: str, value: str | None, says: str
) -> None:
    keys = {**OUTERMOST, key: value}
    text = "".join(f"{name}: {said}\n" for name, said in keys.items() if said is not None)
    [(_, _, message)] = faults(text)
    assert says in message


@pytest.mark.parametrize("code", ["NEC-", "-nec", "N E C", "Nec ", "i_ec", "IEC+", "-"])
def test_a_code_is_read_or_refused_never_neither(code: str) -> None:
    text = (
        f"areafit: 1\nassembly: {{number: M-1}}\ncode: '{code}'\n"
        "locations: {room: {area: unclassified}}\n"
        "parts: [{item: 1, location: room, kind: structural}]\n"
    )
    try:
        law = read(text.encode(), "x").law
    except InputErrors as errors:
        assert [(e.position.line, e.position.column) for e in errors.errors] == [(3, 7)]  # noqa: PT017
    else:
        assert law.value.lower() == code.strip(" -").lower()


def test_a_refusal_without_a_reason_is_an_error_of_ours() -> None:
    with pytest.raises(ValueError, match="nothing says why"):
        InputErrors(())
