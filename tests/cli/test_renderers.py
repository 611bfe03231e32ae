"""Golden text and JSON over hand-made reports: a rich one, an empty one and a hostile one.

`AREAFIT_REGOLD=1 pytest tests/cli/test_renderers.py` writes the golden files anew; read the
difference before committing it. Facts and clauses in them are invented: only layout is tested.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

import pytest

from areafit.errors import InputError
from areafit.facts.bom import Assembly, Bom, Position
from areafit.facts.groups import Group
from areafit.facts.part import Body, Equipment, Item, Kind, Part
from areafit.facts.place import Place
from areafit.facts.protection import Law
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.findings.report import (
    Answers,
    Block,
    BomReport,
    Counts,
    Judged,
    PartReport,
    PlaceReport,
    SubjectReport,
    WaiverCounts,
)
from areafit.findings.waivers import WaiverOutcome, WaiverState
from areafit.rule import Answer, Ask, Family, Judgement, Row, Rule, Subject
from areafit.values import replace
from areafit.values import replace as replace_fact
from areafit.verdict import Basis, Reason, Role, Verdict, worst
from areafit_cli import render
from areafit_cli.render import Overlay, Run, Style, summarise

Golden = Callable[[str, str], None]
HOSTILE = "[bold]x[/] \x1b]52;c;aGk=\x07 \u202egnp\nFLAG none \x9b31m \u200b \u2028 :smile:"
WAIVER = Waiver(
    WaivedSubject.ITEM,
    "50",
    "chemical-resistance",
    "f70",
    "replaced yearly",
    "process owner",
    date(2027, 1, 31),
    Position("waivers.yaml", 4, 5),
    document="DN-12",
)
VERDICTS = (Verdict.FLAG, Verdict.UNPROVEN, Verdict.WAIVED, Verdict.PASS)


def _ask(_case: object, _demands: object) -> tuple[Ask[object], ...]:
    return ()


def _judge(_question: object) -> Judgement:
    return Answer().passed("made by hand")


def rule(identity: str) -> Rule[object]:
    return Rule(
        identity,
        f"Title of {identity}",
        Family.AREA,
        Subject.EQUIPMENT,
        "Clause 1 (2023)",
        "A reason.",
        f"What would meet {identity}.",
        Role.SUPPLIER,
        _ask,
        _judge,
        (),
    )


@dataclass(frozen=True, slots=True)
class Told:
    """One answered question, where it is asked and where its fact stands."""

    judged: Judged
    location: str | None
    position: Position

    @property
    def verdict(self) -> Verdict:
        return self.judged.judgement.verdict


def finding(
    identity: str,
    verdict: Verdict,
    line: int,
    *,
    message: str = "The marked group does not cover the group of the place.",
    found: str = "Group D",
    location: str | None = "filling-head",
    component: str | None = None,
    file: str = "carousel.yaml",
    basis: Basis | None = Basis.MEMORY,
    waiver: Waiver | None = None,
) -> Told:
    judgement = Judgement(
        verdict,
        message,
        required="Group C (declared area), Group D (ethanol)",
        found=found,
        clause="NFPA 70-2023, 500.6(A)",
        rows=(Row("substances", "ethanol group", "nfpa-497", "Table 4.4.2", Basis.SEEN, "D"),),
        reason=Reason.FACT_MISSING if verdict is Verdict.UNPROVEN else None,
        remedy="Choose a part marked for Group C.",
        basis=basis,
    )
    ask: Ask[object] = Ask(identity, f"fact{line}", component)
    return Told(Judged(rule(identity), ask, judgement, waiver), location, Position(file, line, 14))


def bom(parts: tuple[Part, ...], told: tuple[Told, ...]) -> Bom:
    places = {"filling-head": Place("filling-head", Law.NEC, title="Around the open heads")}

    where = {each.judged.ask.path: each.position for each in told}

    def locate(path: str) -> Position:
        words = path.split("/")
        if words[-1] in where:
            return where[words[-1]]
        return Position("carousel.yaml", 10 + int(words[1]) if words[0] == "parts" else 2, 5)

    return Bom(
        "carousel.yaml",
        Assembly("CC-2210", "Capping carousel, filling room", "C"),
        Law.NEC,
        places,
        parts,
        edition="2023",
        jurisdiction="US",
        locate=locate,
    )


def part(index: int, description: str | None) -> Part:
    equipment = Equipment(frozenset({Kind.ELECTRICAL}))
    item, number = str(10 * (index + 1)), f"PN-{1001 + index}"
    return Part(
        index,
        Item(item),
        ("filling-head",),
        equipment,
        Body(equipment),
        part_number=number,
        description=description,
    )


def report(
    lines: tuple[tuple[str | None, tuple[Told, ...]], ...],
    *,
    place: tuple[Told, ...] = (),
    loop: tuple[Told, ...] = (),
    scope: str = "full",
    waivers: WaiverCounts = WaiverCounts(),  # noqa: B008 - frozen
    outcomes: tuple[WaiverOutcome, ...] = (),
) -> BomReport:
    parts = tuple(part(index, description) for index, (description, _) in enumerate(lines))
    facts = bom(parts, (*place, *loop, *(told for _, found in lines for told in found)))

    def verdict(found: tuple[Told, ...]) -> Verdict:
        return worst(each.verdict for each in found) if found else Verdict.UNPROVEN

    def blocks(found: tuple[Told, ...], prefix: str) -> tuple[Block, ...]:
        places = dict.fromkeys(each.location for each in found) or {None: None}
        return tuple(
            Block(
                Answers(each.judged for each in found if each.location == name),
                name,
                prefix,
            )
            for name in places
        )

    made = tuple(
        PartReport(one.item, verdict(found), blocks(found, one.prefix), facts, part=one)
        for one, (_, found) in zip(parts, lines, strict=True)
    )
    requires = {
        "hazards": [
            {
                "area": ["Class I, Division 1, Group C"],
                "groups": {"division gas": [Group.C, Group.D]},
                "surface_below_c": Decimal("199.5"),
                "open": [],
            }
        ],
        "ambient": "5..40 °C",
        "ingress": None,
        "chemicals": ["sodium hydroxide", "peracetic acid"],
    }
    places = (
        PlaceReport(
            "filling-head",
            worst(each.verdict for each in place),
            blocks(place, "locations/filling-head"),
            facts,
            requires=requires,
        ),
    )
    loops = (SubjectReport("LS-1", worst(f.verdict for f in loop), blocks(loop, "loops/0"), facts),)
    return BomReport(
        facts,
        SubjectReport("CC-2210", Verdict.PASS, (), facts),
        made,
        places,
        loops,
        Counts(
            {v: sum(each.verdict is v for each in made) for v in VERDICTS},
            {places[0].verdict: 1},
            {loops[0].verdict: 1},
            dict.fromkeys(Basis, 0) | {Basis.MEMORY: 12, Basis.SEEN: 40},
        ),
        scope,
        waivers,
        outcomes,
    )


def rich() -> BomReport:
    flag = finding("gas-group", Verdict.FLAG, 36)
    alike = [finding("materials-listed", Verdict.UNPROVEN, n, basis=None) for n in (41, 52)]
    return report(
        (
            ("Limit sensor, inductive", (flag, finding("evidence", Verdict.PASS, 38))),
            ("Bracket", (alike[0],)),
            ("Cover", (alike[1],)),
            (None, (finding("protection-level", Verdict.PASS, 60, basis=Basis.SEEN),)),
            (
                "Cable",
                (
                    finding(
                        "chemical-resistance",
                        Verdict.WAIVED,
                        70,
                        component="jacket",
                        waiver=WAIVER,
                    ),
                ),
            ),
            ("Nothing to judge", ()),
        ),
        place=(finding("place-stated", Verdict.UNPROVEN, 7, file="site.yaml"),),
        loop=(finding("loop-voltage", Verdict.PASS, 90, location=None),),
        waivers=WaiverCounts(used=1, expired=1),
        outcomes=(
            WaiverOutcome(WAIVER, WaiverState.USED, ""),
            WaiverOutcome(replace(WAIVER, name="51"), WaiverState.EXPIRED, "ended on 2025-01-31"),
        ),
    )


def run(*reports: BomReport, errors: tuple[InputError, ...] = (), as_of: date | None = None) -> Run:
    overlays = (Overlay("resistance.csv", "ab" * 32),) if errors else ()
    return Run("1.2.3", "0" * 64, tuple(map(summarise, reports)), errors, overlays, as_of)


def rendered(kind: str, whole: Run, *reports: BomReport, style: Style = Style()) -> str:  # noqa: B008
    shape = render.find(kind)
    bodies = ["".join(shape.body(each, style)) for each in reports]
    text = [*shape.head(whole, style), shape.between.join(bodies), *shape.tail(whole, style)]
    return "".join(text)


ERROR = InputError(
    "unknown key 'mterial'", "did you mean 'material'", Position("broken.yaml", 3, 7)
)
EMPTY = report(())


@pytest.mark.parametrize("kind", ["text", "json"])
def test_a_rich_report_reads_as_agreed(golden: Golden, kind: str) -> None:
    golden(f"rich.{kind}", rendered(kind, run(rich()), rich()))


@pytest.mark.parametrize("kind", ["text", "json"])
def test_a_report_of_nothing_reads_as_agreed(golden: Golden, kind: str) -> None:
    golden(f"empty.{kind}", rendered(kind, run(EMPTY), EMPTY))


@pytest.mark.parametrize("kind", ["text", "json"])
def test_several_lists_and_one_unreadable_read_as_agreed(golden: Golden, kind: str) -> None:
    passing = report((("Bracket", (finding("evidence", Verdict.PASS, 38),)),), scope="relaxed")
    passing = replace_fact(passing, narrowed=("as-of 2026-03-31",))
    whole = run(passing, rich(), errors=(ERROR,), as_of=date(2026, 3, 31))
    golden(f"several.{kind}", rendered(kind, whole, passing, rich()))


@pytest.mark.parametrize("width", [40, 60, 120])
def test_text_keeps_to_the_width(width: int) -> None:
    text = rendered("text", run(rich()), rich(), style=Style(width))
    assert all(len(line) <= width or " " not in line.strip() for line in text.split("\n"))


def test_colour_adds_escapes_and_nothing_else() -> None:
    import re

    plain = rendered("text", run(rich()), rich())
    coloured = rendered("text", run(rich()), rich(), style=Style(colour=True))
    assert coloured != plain
    assert re.sub("\x1b\\[[0-9;]*m", "", coloured) == plain


def test_quiet_is_one_line_on_a_full_pass_and_short_otherwise() -> None:
    passing = report((("Bracket", (finding("evidence", Verdict.PASS, 38),)),))
    quiet = rendered("text", run(passing), passing, style=Style(quiet=True))
    assert quiet == f"GATE pass · {passing.bom.name}\n"
    both = rendered("text", run(passing, passing), passing, style=Style(quiet=True))
    assert both == "GATE pass over 2 lists\n"
    text = rendered("text", run(rich()), rich(), style=Style(quiet=True))
    assert "gas-group" in text
    assert "Cautions".upper() not in text


def test_one_list_beside_an_unreadable_one_is_one_list() -> None:
    error = InputError("cannot be read", "check the path", Position("b.yaml", 0, 0))
    text = rendered("text", run(rich(), errors=(error,)), rich())
    assert text.startswith("GATE fail over 1 list, 1 could not be read\n")


def test_the_cautions_of_an_answer_are_one_paragraph_that_defers() -> None:
    text = rendered("text", run(rich()), rich(), style=Style(brief=True))
    told = " ".join(text[text.index("\nCautions: ") :].split())
    for words in (
        "locally adopted code",
        "authority having jurisdiction",
        "licensed or otherwise competent person",
    ):
        assert words in told
    assert "CAUTIONS" not in text


def test_a_narrowed_pass_is_not_quiet() -> None:
    narrowed = report((("Bracket", (finding("evidence", Verdict.PASS, 38),)),), scope="partial")
    text = rendered("text", run(narrowed), narrowed, style=Style(quiet=True))
    assert "pass (partial)" in text


def test_hostile_text_stays_text() -> None:
    hostile = report(((HOSTILE, (finding("gas-group", Verdict.FLAG, 9, message=HOSTILE),)),))
    text = rendered("text", run(hostile), hostile)
    assert all(sign == "\n" or sign.isprintable() for sign in text)
    assert not any(line.startswith("FLAG none") for line in text.split("\n"))
    assert r"\x1b]52;c;aGk=\x07" in text
    assert r"\u202egnp\nFLAG none" in text
    assert "[bold]x[/]" in text
    assert ":smile:" in text


def test_hostile_json_is_escaped_but_the_same_data() -> None:
    hostile = report(((HOSTILE, (finding("gas-group", Verdict.FLAG, 9, message=HOSTILE),)),))
    text = rendered("json", run(hostile), hostile)
    assert all(sign == "\n" or sign.isprintable() for sign in text)
    found = json.loads(text)["boms"][0]["parts"][0]
    assert found["description"] == HOSTILE
    assert found["findings"][0]["message"] == HOSTILE


def test_json_is_what_the_contract_says() -> None:
    whole = json.loads(rendered("json", run(rich()), rich()))
    assert list(whole)[:3] == ["format", "tool", "boms"]
    assert whole["format"] == "areafit-report/2"
    first = whole["boms"][0]
    assert first["counts"] == {
        "parts": 6,
        "pass": 1,
        "flag": 1,
        "unproven": 3,
        "waived": 1,
        "not applicable": 0,
        "locations": {"unproven": 1},
        "loops": {"pass": 1},
        "by_basis": {"seen": 40, "reported": 0, "memory": 12, "judgement": 0},
    }
    place = first["locations"][0]
    (hazard,) = place["requires"]["hazards"]
    assert hazard["surface_below_c"] == 199.5
    assert hazard["groups"] == {"division gas": ["C", "D"]}
    assert place["findings"][0]["file"] == "site.yaml"
    assert first["parts"][0]["line"] == 10
    assert [len(each["findings"]) for each in first["parts"]] == [2, 1, 1, 1, 1, 0]
    assert whole["gate"] == first["gate"] == "fail"
    assert whole["as_of"] is None


@pytest.mark.parametrize(
    ("scopes", "waived", "gate"),
    [
        (["full"], 0, "pass"),
        (["full", "partial"], 0, "pass (partial)"),
        (["partial", "relaxed"], 0, "pass (relaxed)"),
        (["full"], 1, "pass with waivers"),
        (["relaxed", "full"], 1, "pass with waivers (relaxed)"),
    ],
)
def test_the_gate_over_several_lists_is_the_most_guarded(
    scopes: list[str], waived: int, gate: str
) -> None:
    reports = [
        report(
            (("Bracket", (finding("evidence", Verdict.PASS, 38),)),),
            scope=scope,
            waivers=WaiverCounts(used=waived),
        )
        for scope in scopes
    ]
    assert run(*reports).gate == gate
    assert run(*reports, errors=(ERROR,)).gate == "fail"
