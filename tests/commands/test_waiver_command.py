"""`areafit waiver add` binds to a finding that is open, and `check` lays it over the report."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., str]
WHY = ("--reason", "held off by a cover", "--approved-by", "area owner", "--file", "w.yaml")
GROUP = ("waiver", "add", "old.yaml", "--item", "10", "--rule", "gas-group", *WHY)
UNTIL = ("--until", "2026-12-31")


def test_a_waiver_is_written_and_holds_until_its_day(call: Call, folder: Path) -> None:
    areas = folder / "site" / "areas.yaml"
    text = areas.read_text(encoding="utf-8")
    acid = "chemicals: [{name: hydrochloric acid, concentration: 5 %}, "
    areas.write_text(text.replace("chemicals: [", acid), encoding="utf-8")
    told = call(*GROUP, *UNTIL, "--document", "D-1")
    assert "Marked for IIA; IIB is needed" in told
    before = (folder / "w.yaml").read_bytes()
    material = ("--item", "10", "--rule", "chemical-resistance", "--component", "housing")
    told = call("waiver", "add", "old.yaml", *material, *WHY, *UNTIL, status=2, both=True)
    meant = next(line for line in told.splitlines() if "sodium hydroxide" in line)
    narrowed = ("--fingerprint", meant.split("--fingerprint ")[1][:8])
    call("waiver", "add", "old.yaml", *material, *narrowed, *WHY, *UNTIL)
    assert (folder / "w.yaml").read_bytes().startswith(before)
    report = json.loads(
        call("check", "old.yaml", "--waivers", "w.yaml", "--format", "json", status=1)
    )
    (bom,) = report["boms"]
    waived = [f["rule"] for f in bom["parts"][0]["findings"] if f["verdict"] == "waived"]
    assert set(waived) == {"gas-group", "chemical-resistance"}
    assert bom["waivers"]["used"] == 2
    assert report["as_of"] == "2026-01-31"
    late = ("check", "old.yaml", "--waivers", "w.yaml", "--as-of", "2027-01-01")
    assert "it held until 2026-12-31" in call(*late, status=1)
    assert "WAIVED" not in call(
        "check", "old.yaml", "--waivers", "w.yaml", "--no-waivers", status=1
    )
    assert "no open finding of gas-group" in call(
        "check", "new.yaml", "--waivers", "w.yaml", status=1
    )


def test_a_person_and_a_far_day_are_written_and_doubted(call: Call, folder: Path) -> None:
    role = (*GROUP, "--document", "D-1")
    told = call(*role, "--until", "2031-01-31", both=True)
    assert "none of the roles" not in told
    assert "five years" not in told
    (folder / "w.yaml").unlink()
    told = call(*role, "--approved-by", "J. Doe", "--until", "2031-03-01", both=True)
    assert "'J. Doe' is none of the roles that reports name (supplier, area owner, " in told
    assert "it holds until 2031-03-01, more than five years" in told
    assert "approved_by: J. Doe" in (folder / "w.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((*GROUP, *UNTIL), "only with a document; give --document"),
        ((*GROUP, "--until", "2026-01-30", "--document", "D"), "is past"),
        ((*GROUP, "--until", "soon", "--document", "D"), "no date"),
        ((*GROUP, *UNTIL, "--document", "D", "--loop", "L"), "exactly one of --item"),
        ((*GROUP, *UNTIL, "--document", "D", "--at", "office"), "no open finding"),
        (("waiver", "add", "old.yaml", "--item", "11", "--rule", "kind", *WHY, *UNTIL), "no item"),
        (("waiver", "add", "old.yaml", "--item", "10", "--rule", "knd", *WHY, *UNTIL), "no rule"),
        (("waiver", "add", "old.yaml", "--item", "10", "--rule", "kind", *WHY, *UNTIL), "no open"),
        (
            (*GROUP[:-2], "--reason", "n/a", "--file", "w.yaml", *UNTIL, "--document", "D"),
            "this says nothing",
        ),
    ],
)
def test_what_is_not_written(
    call: Call, folder: Path, arguments: tuple[str, ...], words: str
) -> None:
    assert words in call(*arguments, status=2, both=True)
    assert not (folder / "w.yaml").exists()


def test_several_findings_must_be_told_apart(call: Call, folder: Path) -> None:
    two = (
        (folder / "old.yaml")
        .read_text(encoding="utf-8")
        .replace(
            "exposure: splash}]",
            "exposure: splash}, {component: foot, material: AL-6061, exposure: splash}]",
        )
    )
    (folder / "old.yaml").write_text(two, encoding="utf-8")
    call_ = ("waiver", "add", "old.yaml", "--item", "10", "--rule", "chemical-resistance", *WHY)
    told = call(*call_, *UNTIL, status=2, both=True)
    assert "--component 'foot'" in told
    assert "--at head" in told
    call(*call_, *UNTIL, "--component", "foot", "--at", "head")


def test_an_entry_that_cannot_follow_is_shown_to_be_pasted(call: Call, folder: Path) -> None:
    (folder / "w.yaml").write_text("areafit-waivers: 1\nwaivers: none\n")
    told = call(*GROUP, *UNTIL, "--document", "D", status=2, both=True)
    assert '  - item: "10"\n' in told
    assert "write the entry above by hand" in told
    assert (folder / "w.yaml").read_text() == "areafit-waivers: 1\nwaivers: none\n"


def test_a_faulty_waiver_file_stops_the_run(call: Call, folder: Path) -> None:
    (folder / "w.yaml").write_text("areafit-waivers: 1\nwaivers: [{item: a, reason: b}]\n")
    told = call("check", "old.yaml", "--waivers", "w.yaml", status=2, both=True)
    assert "w.yaml:2:11: a waiver without `until`" in told


def test_what_is_waived_or_passes_is_said_so(call: Call) -> None:
    given = (*GROUP, *UNTIL, "--document", "D-1")
    call(*given)
    told = call(*given, status=2, both=True)
    assert "gas-group on item 10 is already waived in w.yaml until 2026-12-31" in told
    passing = ("waiver", "add", "old.yaml", "--item", "10", "--rule", "protection-level", *WHY)
    told = call(*passing, *UNTIL, "--document", "D-1", status=2, both=True)
    assert "protection-level on item 10 has no open finding: it passes" in told


def test_all_that_is_missing_is_told_in_one_go(call: Call) -> None:
    told = call("waiver", "add", "old.yaml", "--item", "10", status=2, both=True)
    assert "needs --rule, --reason, --approved-by, --until, --file, such as: areafit" in told
    told = call("waiver", "add", "old.yaml", "--rule", "kind", *WHY, *UNTIL, status=2, both=True)
    assert "needs --item, --loop or --place, such as" in told


def test_a_waiver_that_the_facts_left_behind_is_renewed_where_confirmed(
    call: Call, folder: Path
) -> None:
    call(*GROUP, *UNTIL, "--document", "D-1")
    path = folder / "w.yaml"
    held = path.read_text(encoding="utf-8")
    written = next(line for line in held.splitlines() if "fingerprint:" in line)
    bound = written.split()[-1].strip("'\"")
    old = "# kept\n" + held.replace(bound, bound.removeprefix("2:")) + "# kept too\n"
    path.write_text(old, encoding="utf-8")
    told = call("check", "old.yaml", "--waivers", "w.yaml", status=1)
    assert "from before 0.2" in " ".join(told.split())
    told = call("waiver", "renew", "w.yaml", "old.yaml", status=2, both=True)
    assert "Marked for IIA; IIB is needed" in told
    assert "confirm each of these with `--confirm N`" in told
    assert path.read_text(encoding="utf-8") == old
    told = call("waiver", "renew", "w.yaml", "old.yaml", "--confirm", "2", status=2, both=True)
    assert "there are 1 to renew" in told
    call("waiver", "renew", "w.yaml", "old.yaml", "--confirm", "1")
    assert path.read_text(encoding="utf-8") == "# kept\n" + held + "# kept too\n"
    assert "Nothing to renew" in call("waiver", "renew", "w.yaml", "old.yaml")


def _twice(folder: Path) -> None:
    """The list with its line once more, under another item."""
    text = (folder / "old.yaml").read_text(encoding="utf-8")
    line = text[text.index('  - item: "10"') :]
    again = line.replace('"10"', '"11"').replace("PN-1\n", "PN-2\n").replace("PN-1}", "PN-2}")
    (folder / "old.yaml").write_text(text + again, encoding="utf-8")


def test_each_item_named_gets_its_waiver(call: Call, folder: Path) -> None:
    _twice(folder)
    call(*GROUP, "--item", "11", *UNTIL, "--document", "D-1")
    text = (folder / "w.yaml").read_text(encoding="utf-8")
    assert text.count("rule: gas-group") == 2
    prints = [line for line in text.splitlines() if "fingerprint:" in line]
    assert len(set(prints)) == 2  # each bound by its own
    told = call("check", "old.yaml", "--waivers", "w.yaml", status=1)
    assert "2 findings by 2 waivers" in told


def test_all_alike_shows_what_it_covers_and_asks(call: Call, folder: Path) -> None:
    _twice(folder)
    own = ("waiver", "add", "old.yaml", "--all-alike", "--rule", "chemical-resistance", *WHY)
    told = call(*own, *UNTIL, status=2, both=True)
    assert "item 10" in told
    assert "item 11" in told
    assert "add --yes" in told
    assert not (folder / "w.yaml").exists()
    call(*own, *UNTIL, "--yes")
    assert (folder / "w.yaml").read_text(encoding="utf-8").count("rule: chemical-resist") == 2


def test_of_two_causes_on_one_item_a_fingerprint_tells_which(call: Call, folder: Path) -> None:
    lines = "".join(
        f"  - {{item: '{n}', kind: structural, location: cell, materials: [{{material: PC, "
        "exposure: splash}]}\n"
        for n in range(1, 15)
    )
    (folder / "two.yaml").write_text(
        "areafit: 1\nassembly: {number: W-1}\ncode: IEC\nlocations:\n  cell: {area: unclassified, "
        "ambient: 5..40 °C, chemicals: [{name: acetone, temperature: 25 °C}, "
        f"{{name: ethanol, temperature: 20 °C}}]}}\nparts:\n{lines}",
        encoding="utf-8",
    )
    own = ("waiver", "add", "two.yaml", "--all-alike", "--yes", "--rule", "chemical-resistance")
    told = call(*own, "--item", "1", *WHY, *UNTIL, status=2, both=True)
    assert "add one of these" in told
    meant = next(line for line in told.splitlines() if "in ethanol" in line)
    narrowed = ("--fingerprint", meant.split("--fingerprint ")[1][:8])
    call(*own, *narrowed, *WHY, *UNTIL)
    text = (folder / "w.yaml").read_text(encoding="utf-8")
    assert text.count("rule: chemical-resistance") == 14  # all of the cause, each by its own
    assert len({line for line in text.splitlines() if "fingerprint:" in line}) == 14
    report = json.loads(
        call("check", "two.yaml", "--waivers", "w.yaml", "--format", "json", status=1)
    )
    for part in report["boms"][0]["parts"]:
        waived = [one["message"] for one in part["findings"] if one["verdict"] == "waived"]
        assert len(waived) == 1
        assert "in ethanol" in waived[0]


def test_a_flag_of_the_area_is_waived_one_by_one(call: Call, folder: Path) -> None:
    own = ("waiver", "add", "old.yaml", "--all-alike", "--yes", "--rule", "gas-group", *WHY)
    told = call(*own, *UNTIL, "--document", "D-1", status=2, both=True)
    assert "one by one" in told
    assert not (folder / "w.yaml").exists()


def test_a_waiver_may_hold_for_one_revision(call: Call, folder: Path) -> None:
    call(*GROUP, "--until", "revision A", "--document", "D-1")
    text = (folder / "w.yaml").read_text(encoding="utf-8")
    assert "until: {revision: A}" in text
    told = call("check", "old.yaml", "--waivers", "w.yaml", "--format", "json", status=1)
    waived = [
        one["waiver"]
        for one in json.loads(told)["boms"][0]["parts"][0]["findings"]
        if one["verdict"] == "waived"
    ]
    assert [(each["until"], each["revision"]) for each in waived] == [(None, "A")]
    old = (folder / "old.yaml").read_text(encoding="utf-8")
    (folder / "old.yaml").write_text(old.replace("revision: A", "revision: B"), encoding="utf-8")
    assert "it held for revision A; this is B" in call(
        "check", "old.yaml", "--waivers", "w.yaml", status=1
    )
    (folder / "w.yaml").write_text(text.replace("revision: A", "revisoin: A"), encoding="utf-8")
    assert "revisoin" in call("check", "old.yaml", "--waivers", "w.yaml", status=2, both=True)


def test_no_document_is_asked_for_what_no_waiver_reaches(call: Call, folder: Path) -> None:
    text = (folder / "old.yaml").read_text(encoding="utf-8")
    (folder / "old.yaml").write_text(
        text.replace("kind: electrical", "kind: electrical\n    proposed: kind", 1),
        encoding="utf-8",
    )
    given = ("waiver", "add", "old.yaml", "--item", "10", "--rule", "proposed", *WHY, *UNTIL)
    told = call(*given, status=2, both=True)
    assert "no waiver reaches proposed: the list itself settles it\n" in told
    assert not (folder / "w.yaml").exists()
