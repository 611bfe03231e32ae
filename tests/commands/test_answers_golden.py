"""What the answering commands print, byte for byte.

`AREAFIT_REGOLD=1 pytest tests/commands` writes the golden files anew; read the difference.
"""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

NEED = ("need", "old.yaml", "head", "--exposure", "splash")
CALLS = {
    "need": (NEED, ("text", "json", "markdown"), 0),
    "actions": (("actions", "old.yaml"), ("text", "json", "markdown", "csv"), 0),
    "compare": (("compare", "old.yaml", "new.yaml"), ("text", "json", "markdown"), 1),
    "compare-full": (("compare", "old.yaml", "new.yaml", "--full"), ("text",), 1),
}
_RATINGS = (44, 54, 65, 66)
CASES = [(name, kind) for name, (_, kinds, _) in CALLS.items() for kind in kinds]


@pytest.mark.parametrize(("name", "kind"), CASES)
def test_the_bytes_of_an_answer(
    golden: Callable[[str, str], None],
    call: Callable[..., str],
    folder: Path,
    name: str,
    kind: str,
) -> None:
    arguments, _, status = CALLS[name]
    if name == "need":  # the rows of the tables must not decide on the bytes
        areas = folder / "site" / "areas.yaml"
        text = areas.read_text(encoding="utf-8").replace("sodium hydroxide", "unobtainic acid")
        areas.write_text(text, encoding="utf-8")
    made = call(*arguments, "--format", kind, status=status)
    golden(f"{name}.{kind}", made)
    if kind == "json":
        json.loads(made)


def test_materials_are_told_by_fitness_and_family(call: Callable[..., str]) -> None:
    text = call(*NEED, "--full")
    suitable = text[text.index("suitable:") : text.index("with a condition:")]
    assert "- elastomer: " in suitable
    assert "EPDM" in suitable
    avoid = text[text.index("to avoid:") :]
    assert "* sodium hydroxide (" in avoid
    assert "- aluminium alloy: " in avoid
    table = call(*NEED, "--format", "markdown")
    assert "| to avoid | sodium hydroxide" in table


def test_a_place_without_a_list(call: Callable[..., str]) -> None:
    place = ("--area", "Class I, Division 1, Group D", "--substance", "ethanol", "--ingress", "4X")
    text = call("need", *place, "--ambient", "5..40 °C", "--exposure", "room")
    assert "Class I, Division 1, Group D, T2 or cooler" in text
    assert "at least 4X" in text
    told = json.loads(call("need", *place, "--format", "json"))
    assert told["locations"][0]["exposures"][0]["exposure"] == "immersed"
    safe = call("need", "--area", "unclassified", "--chemical", "none")
    assert "There is no chemical here: no material is asked for." in safe
    assert "MATERIALS" not in safe
    dusty = ("--area", "Zone 21, IIIB", "--substance", "wheat flour", "--layer", "5 mm")
    assert "limit 253 °C (2/3 of the 380 °C" in call("need", *dusty)
    open_ = call("need", "--area", "unclassified")
    assert "no material can be named" in open_
    assert "no material is asked for" not in open_
    assert "no marking is asked for" in safe
    assert "no marking is asked for" in call(
        "need", "--area", "unclassified", "--chemical", "unobtainic acid", "--format", "markdown"
    )
    strange = call("need", "--area", "unclassified", "--chemical", "unobtainic acid")
    assert "no data: unobtainic acid" in strange


def test_materials_are_told_for_the_exposures_that_the_list_states(
    call: Callable[..., str],
) -> None:
    def told(*more: str) -> list[str]:
        found = json.loads(call("need", "old.yaml", "head", "--format", "json", *more))
        return [one["exposure"] for one in found["locations"][0]["exposures"]]

    assert told() == ["splash"]
    assert told("--exposure", "room") == ["room"]
    assert len(told("--all-exposures")) == 6


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("need",), "name a list, or state a place"),
        (("need", "old.yaml", "--area", "Zone 1"), "either a list or --area"),
        (("need", "old.yaml", "haed"), "near to it: head"),
        (("need", "gone.yaml"), "cannot be read"),
        (("compare", "-", "-"), "only one of the two"),
        (("actions", "site/areas.yaml"), "shared file of places"),
        (("compare", "old.yaml", "new.yaml", "--waivers", "gone.yaml"), "cannot be read"),
    ],
)
def test_calls_that_do_not_serve(
    call: Callable[..., str], arguments: tuple[str, ...], words: str
) -> None:
    assert words in call(*arguments, status=2, both=True)


def test_compare_gates_on_the_new_list(call: Callable[..., str]) -> None:
    assert "Nothing changed" in call("compare", "old.yaml", "old.yaml", status=1)
    call("compare", "old.yaml", "new.yaml", "--exit-zero")
    text = call("compare", "old.yaml", "old.yaml", "--format", "markdown", status=1)
    assert "Nothing changed" in text


def test_compare_tells_in_ten_lines_what_matters(call: Callable[..., str], folder: Path) -> None:
    """Verdicts that turned, lines, certified items, cost, questions and items; the rest in full."""
    text = (folder / "old.yaml").read_text(encoding="utf-8")
    line = (
        '  - {{item: "{}", part_number: PN-{}, description: Box, location: head, '
        "kind: electrical, quantity: 1, unit_cost: 10}}\n"
    )
    more = "".join(line.format(100 + n, 100 + n) for n in range(40))
    moved = "".join(line.format(300 + n, 100 + n) for n in range(38))
    two_of_one = [line.format(n, 9).replace("kind:", f"ingress: IP{n}, kind:") for n in _RATINGS]
    (folder / "one.yaml").write_text(text + more + "".join(two_of_one[:2]), encoding="utf-8")
    changed = text.replace("Ex ia IIA T4 Gb", "Ex ia IIB T4 Gb").replace("AL-5083", "316L")
    again = moved + line.format(400, 400) + "".join(two_of_one[2:])
    (folder / "two.yaml").write_text(changed + again, encoding="utf-8")
    told = call("compare", "one.yaml", "two.yaml", status=1)
    rows = told.splitlines()
    assert len(rows) <= 10
    assert not [row for row in rows if len(row) > 100]  # as wide as a pipe
    start = {row.split()[0]: row for row in rows}
    assert [*start] == [
        *("old", "new", "GATE", "turned", "lines", "certified", "cost", "questions", "items"),
        "--full",
    ]
    assert "38 lines renumbered: 100 → 300" in start["items"]
    assert "cannot be told apart: PN-9" in start["items"]
    assert "1 to pass (location head)" in start["turned"]
    assert "new (" in start["lines"]
    assert "gone (" in start["lines"]
    assert "closed" in start["questions"]
    full = call("compare", "one.yaml", "two.yaml", "--full", status=1)
    assert len(full.splitlines()) > 30
    assert "marking[1]" in full


def test_no_open_points(call: Callable[..., str], folder: Path) -> None:
    good = (
        "areafit: 1\nassembly: {number: G}\ncode: IEC\nlocations: {hall: {area: unclassified, "
        "document: AC, substances: none, chemicals: none, ambient: 5..40 °C}}\n"
        "parts: [{item: '1', location: hall, kind: structural}]\n"
    )
    (folder / "good.yaml").write_text(good, encoding="utf-8")
    for kind in ("text", "markdown"):
        assert "No open points." in call("actions", "good.yaml", "--format", kind)
    assert call("compare", "old.yaml", "good.yaml", "--full", status=0).count("not there") >= 4


def test_costs_are_compared_where_there_are_any(call: Callable[..., str], folder: Path) -> None:
    text = (folder / "old.yaml").read_text(encoding="utf-8")
    free = text.replace("    unit_cost: 84.5\n", "")
    (folder / "free.yaml").write_text(free, encoding="utf-8")
    hot = free.replace("kind: electrical", "kind: [electrical, mechanical]")
    hot = hot.replace("    ingress: IP67\n", "    ingress: IP67\n    surface_temperature: 75 °C\n")
    (folder / "hot.yaml").write_text(hot, encoding="utf-8")
    told = call("compare", "free.yaml", "hot.yaml", "--full", status=1)
    assert "cost" not in told
    assert "surface_temperature.value: not stated → 75" in told
    priced = text.replace("kind: electrical", "kind: [electrical, mechanical]")
    (folder / "both.yaml").write_text(priced, encoding="utf-8")
    told = call("compare", "old.yaml", "both.yaml", "--full", status=1)
    assert "  cost, electrical and mechanical  0 → 169\n" in told
