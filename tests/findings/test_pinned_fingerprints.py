"""Fingerprints of real findings, typed in: what a release does to the waivers of its users.

Own design, no source. There is no switch that makes these anew, and there shall be none.
"""

from datetime import date
from string import Template

import pytest

import areafit
from areafit.findings.fingerprint import SCHEME

LIST = Template("""
areafit: 1
assembly: {number: SKID-1}
code: IEC
edition: 2024
locations:
  head:
    area: Zone 1, IIB, T3
    substances: [acetone]
    ambient: 5..50 °C
    ingress: IP65
    chemicals:
      - {name: sodium chloride, concentration: 5 %, temperature: 60 °C}
      - {name: ammonia, concentration: 5 %, temperature: 20 °C}
      - marine air
  still: {area: 'Zone 1, T4', substances: [blend nobody lists], ambient: 5..40 °C}
  store: {chemicals: [bleach, hydrochloric acid], ambient: 10..30 °C}
parts:
  - {item: '$motor', part_number: M-100, location: head, kind: electrical,
     marking: Ex db IIA T2 Gb X, ingress: IP67}
  - {item: '$terminals', part_number: T-300, parent: '$motor', location: head, kind: electrical,
     marking: Ex eb IIC Gb U}
  - {item: '$drive', part_number: D-200, location: head, kind: mechanical,
     rubbing_speed: 6 m/s, drop_height: 2 m, end_stops: none,
     evidence: [{type: assessment, number: to follow}]}
  - {item: '$brake', part_number: R-250, location: head, kind: mechanical, rubbing_speed: 6 m/s}
  - item: plate
    location: head
    kind: structural
    protects: true
    release: hand
    bonded: false
    materials:
      - {component: plate, material: '304', exposure: splash, welded: true, crevice: true}
  - item: '$washer'
    part_number: W-700
    parent: plate
    location: head
    kind: structural
    materials:
      - {component: washer, material: zinc-plated steel, exposure: splash}
    contacts: [{with: plate}]
  - item: '$bush'
    part_number: B-400
    location: head
    kind: loose item
    loose_parts: free
    materials:
      - {component: bush, material: CW614N, exposure: splash, stressed: true}
      - {component: cover, material: PTFE, surface_area: 400 cm²}
  - {item: '$sensor', part_number: S-500, location: still, kind: electrical,
     marking: Ex ia IIB T4 Ga}
  - {item: '$barrier', part_number: Z-600, location: store, kind: electrical,
     marking: '[Ex ia Ga] IIC'}
loops:
  - name: LS-1
    group: IIB
    source: {item: '$barrier', Um: 250 V, supply: 480 V, Uo: 28 V, Io: 93 mA, Po: 0.65 W,
             Co: 650 nF, Lo: 16 mH}
    devices: [{item: '$sensor', Ui: 24 V, Ii: 80 mA, Pi: 0.5 W, Ci: 5 nF, Li: 10 µH}]
    cable: {length: 200 m, values: default}
""")
ITEMS = ("motor", "terminals", "drive", "brake", "washer", "bush", "sensor", "barrier")
PINNED = """
SKID-1 edition - 2:502853c8b53f512537089438
SKID-1 assembly-assessment - 2:92f3abcc08c002c6d2f56ce2
store place-stated - 2:a443b5513e8e80c1f3f4d485
store chemicals-together - 2:f4d036a84beecf381bef67d7
still substance-known - 2:4db63a584d4e6c8c577a806a
motor gas-group - 2:f023bdd030fd942d5db39429
motor temperature-class - 2:88beb29bdae6f36c5db17681
motor ambient-range - 2:bee96a58de1316053e1f5f3d
motor special-conditions - 2:481e90dbafd0bfe8c46870d5
terminals ex-component - 2:7a8f81f3a06c1ef1a7a40f77
drive document-number - 2:1d7af3e63a97250425d36231
brake rubbing-speed - 2:4c21b611d855f3fe80f38a5f
brake impact - 2:c9151e37c6c26c746edfc151
plate tool-release - 2:c4894cfca6411dd73b8a0376
plate pitting plate 2:3fee2871e1b16bacf6f589f1
plate salt-air plate 2:ba285ca7a38db23a5dcd9659
washer galvanic-couple washer 2:9e222b35eac677956cd21d20
bush loose-parts - 2:0132160be0b560d0ad419dc9
bush static-surface cover 2:d9a33e9ef11855a26cbfb837
bush copper-alloy bush 2:2efaeac8e18cd017e50499ad
sensor gas-group - 2:161c47ddf18a0cde68c8cd70
LS-1 loop-supply - 2:f5df1557e0a836ce81e6faf9
LS-1 loop-voltage - 2:ac07252234be3681c1f39c9b
LS-1 loop-current - 2:46931eccd9405cc309578e3f
"""
RELEASED = not areafit.__version__.startswith("0.1.")


def fingerprints(first: int) -> dict[tuple[str, str, str], set[str]]:
    """Those of the list by subject, rule and component, with its items numbered from `first`."""
    items = {name: str(first + i) for i, name in enumerate(ITEMS)}
    names = {item: name for name, item in items.items()}
    bom = areafit.read(LIST.substitute(items).encode(), "list.yaml")
    options = areafit.Options(as_of=date(2026, 1, 1))
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    found: dict[tuple[str, str, str], set[str]] = {}
    for subject in report.subjects():
        for each in subject.open_findings():
            key = (names.get(subject.name, subject.name), each.rule.id, each.component or "-")
            found.setdefault(key, set()).add(each.fingerprint)
    return found


@pytest.mark.parametrize("first", [10, 70], ids=["", "renumbered"])
def test_no_release_voids_the_waivers_of_its_users(first: int) -> None:
    found = fingerprints(first)
    pinned = [tuple(line.split()) for line in PINNED.split("\n") if line]
    changed = [
        f"{subject} {rule} {component}: {pin} is now {' or '.join(sorted(now)) or 'not found'}"
        for subject, rule, component, pin in pinned
        if pin not in (now := found.get((subject, rule, component), set()))
    ]
    assert not changed, (
        "Fingerprints changed:\n"
        + "\n".join(changed)
        + "\nEach waiver that a company holds of such a finding is void with the next release: its "
        "gate shuts, and somebody must look at the finding and grant it anew. "
        + (
            "If the verdict or a figure of a table is another, that is meant: type the new "
            "fingerprint here and tell it in the changelog. If only the way of digesting, a field "
            "or a word changed, take it back: only a new SCHEME may do that, by which "
            f"`areafit waiver renew` knows what is old (now {SCHEME})."
            if RELEASED
            else f"No release has scheme {SCHEME} yet, so nobody holds one: if the change is "
            "meant, type the new fingerprint here."
        )
    )


def test_every_family_is_pinned() -> None:
    rules = {line.split()[1] for line in PINNED.split("\n") if line}
    families = {rule.family for rule in areafit.RULES if rule.id in rules}
    assert families == {rule.family for rule in areafit.RULES}
