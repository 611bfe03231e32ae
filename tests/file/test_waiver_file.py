"""Waiver files: read with positions and all mistakes at once; written byte for byte."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from areafit.errors import Collector, InputErrors
from areafit.facts.bom import Position
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.file.source import open_source
from areafit.file.text import scalar
from areafit.file.waivers import append, entry, read_waivers, renewed
from areafit.values import replace

WAIVER = Waiver(
    WaivedSubject.ITEM,
    "10",
    "gas-group",
    "0123456789abcdef01234567",
    "covered: see drawing",
    "area owner",
    date(2027, 1, 31),
    Position("", 0, 0),
    component="housing",
    document="D-1",
    assembly="T-1",
)
GOOD = """\
areafit-waivers: 1
waivers:
  - item: "10"
    rule: gas-group
    fingerprint: 0123456789abcdef01234567
    reason: covered
    approved_by: area owner
    until: 2027-01-31
  - {place: head, rule: kind, fingerprint: 0123456789abcdef01234567, reason: r, approved_by: a,
     until: 2027-01-31, document: D}
"""


TOP = "\n".join(line.removeprefix("  ") for line in GOOD.split("\n"))


def mistakes(text: str, rules: tuple[str, ...] = ()) -> str:
    with pytest.raises(InputErrors) as caught:
        read_waivers(text.encode(), "w.yaml", rules)
    return str(caught.value)


def test_entries_become_waivers_with_their_positions() -> None:
    first, second = read_waivers(GOOD.encode(), "w.yaml", ("gas-group", "kind"))
    assert (first.subject, first.name, first.until) == (WaivedSubject.ITEM, "10", date(2027, 1, 31))
    assert first.position == Position("w.yaml", 3, 5)
    assert first.document is None
    assert (second.subject, second.name, second.document) == (WaivedSubject.PLACE, "head", "D")
    assert read_waivers(b"areafit-waivers: 1\nwaivers: none\n", "w.yaml") == ()


def test_all_mistakes_are_told_at_once() -> None:
    text = (
        GOOD.replace("areafit-waivers: 1", "areafit-waivers: 2")
        .replace("rule: gas-group", "rule: gas-grup")
        .replace("reason: covered", "reason: n/a")
        .replace("approved_by: a,", "approved_by: a@b.example,")
        .replace("place: head", "place: head, loop: L")
        .replace("until: 2027-01-31\n", "until: soon\n    colour: red\n")
    )
    told = mistakes(text, ("gas-group", "kind"))
    for words in (
        "format version '2'",
        "no rule is called `gas-grup`; did you mean `gas-group`?",
        "this says nothing",
        "address of a person",
        "a waiver for loop and place",
        "'soon' is no date",
        "`colour` is no key of a waiver",
    ):
        assert words in told
    assert "w.yaml:4:11: no rule" in told


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("- a\n", "no waiver file"),
        ("areafit-waivers: 1\n", "no `waivers`"),
        ("areafit-waivers: 1\nwaivers: []\n", "no `waivers`"),
        ("areafit-waivers: 1\nwaivers: [text]\n", "where a mapping belongs"),
        ("areafit-waivers: 1\nwaivers: [{rule: kind}]\n", "a waiver for no subject"),
        ("waivers: none\n", "without `areafit-waivers`"),
        (GOOD.replace("0123456789abcdef01234567", "12"), "no fingerprint"),
        (GOOD + GOOD[GOOD.index("  - item") : GOOD.index("  - {")], "line 3 already"),
        (GOOD.replace("    reason: covered\n", ""), "without `reason`"),
        (GOOD.replace("rule: gas-group", "rule: [a]"), "a list where a text belongs"),
    ],
)
def test_what_is_refused(text: str, words: str) -> None:
    assert words in mistakes(text, ("kind", "gas-group"))


def test_an_entry_is_appended_and_no_other_byte_changes() -> None:
    made = append(b"", WAIVER)
    assert made.startswith(b'areafit-waivers: 1\nwaivers:\n  - item: "10"\n    assembly: T-1\n')
    for before in (GOOD, GOOD.rstrip("\n"), TOP, GOOD + "# end\n"):
        for data in (
            before.encode(),
            before.encode("utf-8-sig"),
            before.encode("utf-16"),
            b"\xfe\xff" + before.encode("utf-16-be"),
            before.replace("\n", "\r\n").encode(),
        ):
            longer = append(data, WAIVER)
            assert _only_added(data, longer)
            *kept, last = read_waivers(longer, "w.yaml")
            assert [waiver.name for waiver in kept] == ["10", "head"]
            assert last.reason == WAIVER.reason


def _only_added(data: bytes, longer: bytes) -> bool:
    """Whether all of a file is in another, with one piece put in."""
    same = next(
        (n for n, pair in enumerate(zip(data, longer, strict=False)) if len(set(pair)) > 1),
        len(data),
    )
    return longer.endswith(data[same:])


@pytest.mark.parametrize(
    "before",
    [
        "waivers: [" + GOOD[GOOD.index("{") :].strip() + "]\nareafit-waivers: 1\n",
        "waivers:\n" + GOOD[GOOD.index("  - {") :] + "areafit-waivers: 1\n",
    ],
)
def test_an_entry_follows_in_brackets_and_before_other_keys(before: str) -> None:
    longer = append(before.encode(), WAIVER)
    assert _only_added(before.encode(), longer)
    assert read_waivers(longer, "w.yaml")[-1].reason == WAIVER.reason


def test_an_entry_gets_another_fingerprint_and_no_other_byte_changes() -> None:
    first, second = read_waivers(GOOD.encode(), "w.yaml")
    for waiver in (first, second):
        made = renewed(GOOD.encode(), waiver, "2:abcdefabcdefabcdefabcdef")
        assert [each.fingerprint.startswith("2:") for each in read_waivers(made, "w.yaml")] == [
            waiver is first,
            waiver is second,
        ]
    with pytest.raises(ValueError, match="not there any more"):
        renewed(GOOD.encode(), replace(first, reason="another"), "2:abcdefabcdefabcdefabcdef")


def test_where_an_entry_cannot_follow_nothing_is_made() -> None:
    with pytest.raises(ValueError, match=r".") as caught:
        append(b"areafit-waivers: 1\nwaivers: none\n", WAIVER)
    assert not isinstance(caught.value, InputErrors)


def test_what_would_not_be_read_as_the_same_waiver_is_not_made() -> None:
    plain = "areafit-waivers: 1\nwaivers:\n" + entry(WAIVER)
    with pytest.raises(ValueError, match="line 3 already"):
        append(plain.encode(), WAIVER)
    with pytest.raises(ValueError, match="would not be read"):
        append(b"", replace(WAIVER, reason=" led in by a blank"))


@given(st.text(st.characters(exclude_categories=["Cc", "Cs", "Cn", "Zl", "Zp", "Cf"]), min_size=1))
def test_any_text_written_as_a_value_is_read_back(text: str) -> None:
    root = open_source(f"key: {scalar(text)}\n".encode(), "x", Collector()).document.root
    assert root["key"] == (text if text.strip() else None)


@pytest.mark.parametrize(
    "word", ["yes", "No", "null", "1e5", "007", "2024-01-01", "none", "-1", ""]
)
def test_words_that_other_readers_resolve_are_quoted(word: str) -> None:
    assert scalar(word) == f'"{word}"'


@pytest.mark.parametrize("value", ["2:6b1482de47ed52477712bfcf", "2:abc"])
def test_a_fingerprint_without_quotes_in_brackets_is_told_to_be_quoted(value: str) -> None:
    """YAML 1.2 7.3.3 allows it; the parser in C does not."""
    text = f"areafit-waivers: 1\nwaivers:\n  - {{item: '1', rule: kind, fingerprint: {value}}}\n"
    with pytest.raises(InputErrors, match=rf"w\.yaml:3:\d+: .* quote it: '{value}'"):
        read_waivers(text.encode(), "w.yaml")
