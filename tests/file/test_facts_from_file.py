"""What a list says becomes facts of the same meaning; `none` and silence stay apart."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal

import pytest
from msgspec.structs import fields

from areafit.facts.bom import Assembly, Bom
from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.facts.fittings import Contents, Entry, EntryType, OnLoss, Pressurization
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable, LoopSource
from areafit.facts.part import Body, Equipment, Exposure, Generates, Kind, MaterialUse, Part
from areafit.facts.place import Atmosphere, ConcentrationUnit, Place
from areafit.facts.protection import Law, Level
from areafit.facts.quantity import Range
from areafit.file import read
from areafit.file.model import LocationModel
from areafit.file.part_model import PartModel
from areafit.marking import decode, read_areas

Lines = Callable[[str], Bom]

FULL = """\
areafit: 1
assembly: {number: CC-2210, title: Capping carousel, revision: C, assessment: IH-4}
code: nec
edition: 2023
jurisdiction: US
locations:
  head:
    title: Around the heads
    area: [Zone 1 IIB T4, "Zone 21, IIIB"]
    substances:
      - ethanol
      - {name: flour blend, group: Group IIIB, cloud_ignition: 380 °C, source: TR-7, document: n/a}
    layer: 5 mm
    ambient: 5..40 °C
    document: AC-014 rev B
    ingress: IP65
    atmosphere: severe
    chemicals:
      - {name: sodium hydroxide, concentration: 2 %, temperature: 60 °C, bath: cip}
      - {name: brine, ph: 6..8, chloride: 0.1..0.5 g/l, concentration: 10 % v/v}
      - marine air
    required_epl: gb
    pressure: 90..110 kPa
    oxygen: 21 %
  empty:
  nothing: {substances: none, layer: none, chemicals: none, document: none}
parts:
  - item: "10"
    part_number: 007
    description: Limit sensor
    quantity: 2
    unit_cost: 84.00
    location: [head, empty, head]
    kind: [electrical, simple_apparatus]
    marking: Ex ia IIC T4 Ga
    ambient: -25..70 °C
    surface_temperature: {value: 75 °C, at_ambient: 40 °C, case: expected malfunction}
    ingress: IP67
    evidence:
      - {type: control drawing, number: CD-77, covers: "-"}
      - type: certificate
        number: ABC 21 ATEX 0123 X
        ambient: -20..60 °C
        valid_until: 2031-06-30
        conditions: [avoid static charge, {text: guard it, met: no, met_by: tbd}]
    materials:
      - {component: cover, material: AlMg3, composition: {Al: 95 %, Mg: 4 %}, exposure: fume}
      - {component: jacket, material: 1.4301, surface_area: 40 cm², to: brine, welded: yes}
      - PTFE
    materials_complete: true
    exposure: splash
    contacts: [{with: "20", wet: true, component: cover, with_component: plate}]
    generates: {voltage: 1.2 V, current: 50 mA}
    alternates:
      - {part_number: B, marking: , exposure: washdown}
      - {kind: electrical, location: empty, marking: [Ex db IIB T4 Gb, Ex tb IIIC T80 °C Db]}
      - {kind: , location: }
  - {item: "20", kind: mechanical, parent: "10", electrical_content: none, contacts: none}
  - {item: "30", kind: mechanical, parent: "20", location: nothing, evidence: none, materials: none,
     electrical_content: [coil, switch], surface_temperature: 60 °C, exposure: room}
loops:
  - name: LS-1
    group: IIB
    source: {item: "30", Uo: 28 V, Io: 93 mA, Co: {IIC: 83 nF, IIB: 0.65 µF}, La: 15 mH}
    devices: [{item: "10", Vmax: 30 V, Ci: 5 nF}]
    cable: {length: 120 m, values: default}
  - name: LS-2
    sources: [{item: "30"}, {item: "10", Lo/Ro: 30 µH/ohm}]
    devices: [{item: "20"}]
"""


@pytest.fixture(scope="module")
def bom() -> Bom:
    return read(FULL.encode(), "full.yaml")


def test_outermost_facts(bom: Bom) -> None:
    assert (bom.name, bom.law, bom.edition, bom.jurisdiction) == (
        "full.yaml",
        Law.NEC,
        "2023",
        "US",
    )
    assert bom.assembly == Assembly("CC-2210", "Capping carousel", "C", "IH-4")
    assert list(bom.places) == ["head", "empty", "nothing"]


def test_a_place(bom: Bom) -> None:
    place = bom.places["head"]
    assert (place.name, place.law, place.edition) == ("head", Law.NEC, "2023")
    assert place.area == read_areas(["Zone 1 IIB T4", "Zone 21, IIIB"])
    assert (place.layer, place.ambient) == (Decimal("0.005"), Range(Decimal(5), Decimal(40)))
    assert (place.document, place.ingress) == ("AC-014 rev B", "IP65")
    assert (place.atmosphere, place.required_levels) == (Atmosphere.SEVERE, (Level.GB,))
    assert place.pressure == Range(Decimal(90000), Decimal(110000))
    assert place.oxygen == Range(Decimal(21), Decimal(21))


def test_substances_and_chemicals(bom: Bom) -> None:
    place = bom.places["head"]
    assert place.substances is not None
    assert place.chemicals is not None
    ethanol, flour = place.substances
    assert (ethanol.name, ethanol.has_own_values) == ("ethanol", False)
    assert (flour.group, flour.cloud_ignition, flour.source) == (Group.IIIB, Decimal(380), "TR-7")
    assert flour.document is None
    caustic, brine, air = place.chemicals
    assert caustic.concentration is not None
    assert caustic.concentration.unit is ConcentrationUnit.MASS
    assert caustic.bath == "cip"
    assert brine.chloride is not None
    assert brine.chloride.unit is ConcentrationUnit.GRAMS_PER_LITRE
    assert brine.chloride.span == Range(Decimal("0.1"), Decimal("0.5"))
    assert brine.concentration is not None
    assert brine.concentration.unit is ConcentrationUnit.VOLUME
    assert brine.ph == Range(Decimal(6), Decimal(8))
    assert air.name == "marine air"


def test_none_and_silence_in_a_place(bom: Bom) -> None:
    silent, none = bom.places["empty"], bom.places["nothing"]
    assert silent == Place("empty", Law.NEC, "2023")
    assert none == Place("nothing", Law.NEC, "2023", substances=(), layer=Decimal(0), chemicals=())


def test_a_part(bom: Bom) -> None:
    part = bom.parts[0]
    assert (part.index, part.item, part.part_number, part.quantity) == (0, "10", "007", Decimal(2))
    assert part.unit_cost == Decimal("84.00")
    assert part.locations == ("head", "empty")
    equipment = part.equipment
    assert equipment.kinds == {Kind.ELECTRICAL, Kind.SIMPLE_APPARATUS}
    assert equipment.markings == (decode("Ex ia IIC T4 Ga"),)
    assert equipment.surface is not None
    assert (equipment.surface.value, equipment.surface.at_ambient) == (Decimal(75), Decimal(40))
    assert equipment.generates is not None
    assert equipment.generates.current == Decimal("0.050")
    assert part.body.equipment is equipment
    assert part.prefix == "parts/0"


def test_evidence(bom: Bom) -> None:
    drawing, certificate = bom.parts[0].equipment.evidence or ()
    assert drawing == Evidence(EvidenceType.CONTROL_DRAWING, "CD-77")
    assert certificate.valid_until == date(2031, 6, 30)
    assert certificate.conditions == (
        Condition("avoid static charge"),
        Condition("guard it", met=False),
    )


def test_materials_take_the_exposure_of_the_part(bom: Bom) -> None:
    cover, jacket, seal = bom.parts[0].materials or ()
    assert cover.composition == (("Al", Decimal(95)), ("Mg", Decimal(4)))
    assert (cover.exposure, jacket.exposure) == (Exposure.FUME, Exposure.SPLASH)
    assert (jacket.material, jacket.surface_area, jacket.welded) == (
        "1.4301",
        Decimal("0.004"),
        True,
    )
    assert jacket.to == ("brine",)
    assert seal == MaterialUse("PTFE", exposure=Exposure.SPLASH)


def test_a_parent_gives_location_and_exposure_only(bom: Bom) -> None:
    _, child, grandchild = bom.parts
    assert child.locations == ("head", "empty")
    assert child.exposure is Exposure.SPLASH
    inherited = (child.materials, child.equipment.markings, child.equipment.evidence)
    assert inherited == (None, None, None)
    assert grandchild.locations == ("nothing",)
    assert grandchild.exposure is Exposure.ROOM


def test_none_and_silence_in_a_part(bom: Bom) -> None:
    _, child, grandchild = bom.parts
    assert (child.contacts, grandchild.contacts) == ((), None)
    assert (grandchild.materials, grandchild.equipment.evidence) == ((), ())
    assert child.equipment.electrical_content == "none"
    assert not child.equipment.electrical
    assert grandchild.equipment.electrical_content == "coil, switch"
    assert grandchild.equipment.electrical


def test_alternates_take_what_they_leave_out_from_the_line(bom: Bom) -> None:
    line = bom.parts[0]
    first, second, third = line.alternates
    assert [a.alternate for a in line.alternates] == [1, 2, 3]
    assert first.prefix == "parts/0/alternates/0"
    assert (first.part_number, first.equipment.markings) == ("B", None)
    lent, own = first.equipment.evidence or (), line.equipment.evidence or ()
    assert [document.number for document in lent] == [document.number for document in own]
    assert all(document.elsewhere for document in lent)  # they do not name B
    assert [use.exposure for use in first.materials or ()] == [
        Exposure.FUME,
        Exposure.WASHDOWN,
        Exposure.WASHDOWN,
    ]
    assert second.equipment.kinds == {Kind.ELECTRICAL}
    assert second.locations == ("empty",)
    assert len(second.equipment.markings or ()) == 2
    assert (third.equipment, third.locations) == (line.equipment, line.locations)
    assert first.alternates == ()


def test_loops(bom: Bom) -> None:
    first, second = bom.loops
    [source] = first.sources
    assert isinstance(source, LoopSource)
    assert (source.voltage, source.current) == (Decimal(28), Decimal("0.093"))
    assert source.capacitance == ByGroup(
        groups=((Group.IIC, Decimal("83E-9")), (Group.IIB, Decimal("0.65E-6")))
    )
    assert source.inductance == ByGroup(any=Decimal("0.015"))
    assert first.devices[0].voltage == Decimal(30)
    assert first.cable == Cable(length=Decimal(120), default=True)
    assert first.locations == ("nothing", "head", "empty")
    assert (first.group, second.group, second.cable) == (Group.IIB, None, None)
    assert second.sources[1].inductance_per_resistance == Decimal("30E-6")


def test_equal_text_becomes_one_fact(lines: Lines) -> None:
    first, second = lines("""\
        parts:
          - {item: 1, location: room, kind: structural, materials: [{material: A, to: [x]}, B]}
          - {item: 2, location: room, kind: structural, materials: [{material: A, to: [x]}, B]}
        loops: none
        """).parts
    assert first.materials == second.materials
    assert (first.materials or ())[1] is (second.materials or ())[1]


def test_what_a_part_states_beyond_its_nameplate(lines: Lines) -> None:
    first, second = lines("""\
        parts:
          - item: 1
            location: room
            kind: electrical
            generates: none
            pressurization: {contents: general purpose, on_loss: alarm}
            entries: [{type: cable gland, marking: Ex db IIC Gb, thread: M20x1.5}, {type: plug}]
          - {item: 2, location: room, kind: electrical, entries: none}
        """).parts
    assert first.equipment.generates == Generates(output=False)
    assert first.equipment.pressurization == Pressurization(Contents.GENERAL_PURPOSE, OnLoss.ALARM)
    assert first.equipment.entries == (
        Entry(EntryType.CABLE_GLAND, (decode("Ex db IIC Gb"),), "M20x1.5"),
        Entry(EntryType.PLUG),
    )
    assert second.equipment.entries == ()


def test_positions_of_facts(bom: Bom) -> None:
    def at(path: str) -> tuple[int, int]:
        position = bom.locate(path)
        return position.line, position.column

    text = FULL.split("\n")
    for path, written in {
        "parts/0/marking": "Ex ia IIC T4 Ga",
        "parts/0/markings": "Ex ia IIC T4 Ga",
        "parts/0/marking/0": "Ex ia IIC T4 Ga",
        "parts/0/kinds": "[electrical, simple_apparatus]",
        "parts/0/surface/value": "75 °C, at_ambient",
        "parts/0/materials_complete": "true",
        "parts/0/alternates/0/marking": "marking: , exposure",
        "parts/0/alternates/1/evidence": "{kind: electrical, location: empty",
        "locations/head/required_levels": "gb",
        "locations/head/substances/1/group": "Group IIIB",
        "locations/head/pressure/nonsense": "90..110 kPa",
        "loops/0/source/voltage": "28 V, Io",
        "loops/0/source/inductance": "15 mH",
        "loops/0/devices/0/voltage": "30 V",
        "code": "nec",
    }.items():
        line, column = at(path)
        assert text[line - 1][column - 1 :].startswith(written), path


def test_every_fact_has_a_field_in_the_file() -> None:
    made = {"index", "alternate", "equipment", "body", "in_loop", "disagreements", "otherwise"}
    made |= {"examined", "refused", "housed", "faces_process", "kept", "mounted"}  # by the engine
    made |= {"contacts_note", "materials_document", "without"}  # of what other keys say
    known = {field.name for fact in (Part, Equipment, Body) for field in fields(fact)} - made
    read = set(PartModel.model_fields)
    assert not known - read, f"Add a line to file/part_model.py: {sorted(known - read)}"
    assert not read - known, f"Add a field under facts/: {sorted(read - known)}"
    place = {field.name for field in fields(Place)} - {"name", "law", "edition"}
    assert place | {"unless_stated"} == set(LocationModel.model_fields)
