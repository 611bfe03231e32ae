"""Input that harms or fools other readers; the rows are common practice, no source."""

import subprocess
import sys
import time
from collections.abc import Callable

import pytest

from areafit.errors import MOST, InputErrors
from areafit.file import events, read

Faults = Callable[..., list[tuple[int, int, str]]]
GOOD = """\
areafit: 1
assembly: {number: M-1}
code: IEC
locations: {room: {area: unclassified}}
parts: [{item: 1, location: room, kind: structural}]
"""


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("a: &x 1\n", 1, 4, "anchor `&x`"),
        ("a: [&x 1]\n", 1, 5, "anchor `&x`"),
        ("a: &x {b: 1}\n", 1, 4, "anchor `&x`"),
        ("a: &x 1\nb: *x\n", 2, 4, "references"),
        ("a: &x 1\nb: [*x]\n", 2, 5, "references"),
        ("a: &x 1\n*x : 2\n", 2, 1, "references"),
        ("a: {b: 1}\nc:\n  <<: {d: 1}\n", 3, 3, "merge keys"),
        ("a: !!python/object/apply:os.system [ls]\n", 1, 4, "explicit tags"),
        ("a: !custom 1\n", 1, 4, "explicit tags"),
        ('{"a":!b 1}\n', 1, 6, "explicit tags"),
        ("a: !!binary aGk=\n", 1, 4, "explicit tags"),
        ("a: 1\nb: 2\na: 3\n", 3, 1, "`a` is written twice, first on line 1"),
        ("a: 1\n'a': [3, {b: [c]}]\n", 2, 1, "`a` is written twice"),
        ("[1, 2]: x\n", 1, 1, "cannot be a list"),
        ("a: 1\n? {b: [c]}\n: [d]\n", 2, 3, "cannot be a list"),
        ("~: x\n", 1, 1, "key is empty"),
        ("null: x\n", 1, 1, "key is empty"),
        ("'': x\n", 1, 1, "key is empty"),
        ("' ': x\n", 1, 1, "key is empty"),
        ("a: 1\n---\nb: 2\n", 2, 1, "second document"),
        ("%YAML 1.1\n---\na: yes\n", 1, 1, "another YAML version"),
        ("# only a comment\n", 1, 1, "nothing but comments"),
        ("", 1, 1, "is empty"),
        (" \n\t\n", 1, 1, "is empty"),
        ("a: [1, 2\n", 2, 1, "no valid YAML"),
        ("a: 1\n\tb: 2\n", 2, 1, "a tab stands"),
        ("a: @x\n", 1, 4, "no valid YAML"),
        ("a: b\x00c\n", 1, 5, "U+0000"),
        ("a: b\x07c\n", 1, 5, "U+0007"),
        ("a: b\x1b[31m\n", 1, 5, "U+001B"),
        ("a: b\x7f\n", 1, 5, "U+007F"),
        ("a: b\x9b31m\n", 1, 5, "U+009B"),
        ("a: 1\r\nb: c\x85d\n", 2, 5, "U+0085"),
        ("a: 1\rb: c\u2028d\n", 2, 5, "U+2028"),
        ("a: ö\u202eb\n", 1, 5, "U+202E"),
        ("a: \u2066b\n", 1, 4, "U+2066"),
        ("a: \u200fb\n", 1, 4, "U+200F"),
        ("a: b\ufeff\n", 1, 5, "U+FEFF"),
        ('a: "\\0"\n', 1, 4, "escaped character U+0000"),
        ('a: "x\\e[31m"\n', 1, 4, "escaped character U+001B"),
        ('a: "\\x9b"\n', 1, 4, "escaped character U+009B"),
        ('a: "\\r"\n', 1, 4, "escaped character U+000D"),
        ('a: "\\u202e"\n', 1, 4, "escaped character U+202E"),
        ('"\\u202e": x\n', 1, 1, "escaped character U+202E"),
        ('a: "\\uD800"\n', 1, 7, "no valid YAML"),
        (f"a: {'x' * 65537}\n", 1, 4, "longer than 64 Ki"),
        (f"a: '{'x' * 65537}'\n", 1, 4, "longer than 64 Ki"),
        ("just text\n", 1, 1, "no bill of materials"),
        ("- a\n- b\n", 1, 1, "no bill of materials"),
        ("areafit: 2\nnew: key\n", 1, 10, "format version '2'"),
        ("areafit-areas: 1\nlocations: {}\n", 1, 1, "shared file of places"),
    ],
)
def test_refused_with_its_position(
    faults: Faults, text: str, line: int, column: int, says: str
) -> None:
    found = faults(text.encode("utf-8", "surrogatepass"))
    assert any((at, to) == (line, column) and says in message for at, to, message in found), found


@pytest.mark.parametrize("opening", ["[", "- ", "{a: ", "? ", "[[", "[ {b: "])
def test_depth_is_limited_at_once(faults: Faults, opening: str) -> None:
    started = time.monotonic()
    found = faults(opening * 100_000)
    assert time.monotonic() - started < 5
    assert "nested more than" in found[-1][2]
    assert len(found) <= 2


def test_depth_in_passed_over_nodes_is_limited_too(faults: Faults) -> None:
    assert "nested more than" in faults("a: 1\na: " + "[" * 50_000)[-1][2]


def test_deepest_allowed_nesting(faults: Faults) -> None:
    deep = "[" * (events.DEPTH - 1) + "]" * (events.DEPTH - 1)
    assert not any("nested" in message for *_, message in faults(f"a: {deep}\n"))
    assert any("nested" in message for *_, message in faults(f"a: [{deep}]\n"))


def test_alias_bomb_is_refused_in_little_time_and_memory() -> None:
    bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n" + "".join(
        f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 10)
    )
    program = (
        "import sys, tracemalloc\n"  # the system's peak would count that of the tests' process
        "from areafit import read, InputErrors\n"
        "tracemalloc.start()\n"
        "try: read(sys.stdin.buffer.read(), 'bomb')\n"
        "except InputErrors as e: print(len(e.errors), tracemalloc.get_traced_memory()[1])\n"
    )
    started = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", program], input=bomb.encode(), capture_output=True, check=True
    )
    errors, peak = map(int, done.stdout.split())
    assert errors > 80
    assert peak < 60 * 1024 * 1024
    assert time.monotonic() - started < 20


def test_mistakes_are_limited_in_number(faults: Faults) -> None:
    assert len(faults("a: 1\n" + "a: 2\n" * 5000)) == MOST
    assert len(faults("a: \x01" + "\x01" * 5000)) == MOST


def test_too_large_a_file(faults: Faults, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("areafit.file.text.FILE_BYTES", len(GOOD) - 1)
    assert faults(GOOD) == [(1, 1, "the file is larger than 0 MiB")]


def test_too_many_entries(faults: Faults, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("areafit.file.events.NODES", 10)
    found = faults("a: [1, 2, 3, 4, 5, 6]\nb: [1, 2, 3, 4, 5]\n")
    assert found[0][2] == "more than 10 entries"


def test_too_many_parts(faults: Faults, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("areafit.file.reader.PARTS", 1)
    text = GOOD.replace("parts: [", "parts:\n - {item: 2, location: room, kind: structural}\n - ")
    found = faults(text.replace("}]", "}"))
    assert found == [(7, 4, "more than 1 parts")]


@pytest.mark.parametrize(
    "data",
    [
        GOOD.encode(),
        GOOD.encode("utf-8-sig"),
        GOOD.encode("utf-16"),
        b"\xfe\xff" + GOOD.encode("utf-16-be"),
        GOOD.replace("\n", "\r\n").encode(),
        GOOD.replace("\n", "\r").encode(),
        b"%YAML 1.2\n---\n" + GOOD.encode() + b"...\n",
    ],
    ids=["utf-8", "utf-8 bom", "utf-16", "utf-16-be", "crlf", "cr", "directive"],
)
def test_accepted_encodings(data: bytes) -> None:
    bom = read(data, "list.yaml")
    assert bom.parts[0].item == "1"
    position = bom.locate("parts/0/item")
    assert (position.line - data.startswith(b"%") * 2, position.column) == (5, 16)


@pytest.mark.parametrize(
    ("data", "line", "column", "says"),
    [
        ("a: 1\r\nb: é".encode("latin-1"), 2, 4, "0xE9 does not belong in UTF-8"),
        (b"\xff\xfea\x00:\x00 \x00\x00\xd8", 1, 4, "does not belong in UTF-16"),
        ("\ufeffa: 1".encode("utf-32"), 1, 1, "does not belong in UTF-8"),
    ],
)
def test_other_encodings(faults: Faults, data: bytes, line: int, column: int, says: str) -> None:
    [(at, to, message)] = faults(data)
    assert (at, to) == (line, column)
    assert says in message


def test_source_text_is_kept() -> None:
    text = GOOD.replace("item: 1", "item: 007, part_number: 1E5, description: yes")
    part = read(text.encode(), "x").parts[0]
    assert (part.item, part.part_number, part.description) == ("007", "1E5", "yes")


def test_blank_and_null_are_not_stated() -> None:
    more = "part_number: '', description: \" \", ingress: ~, marking: null, exposure: "
    part = read(GOOD.replace("item: 1", f"item: 1, {more}").encode(), "x").parts[0]
    silent = (part.part_number, part.description, part.exposure, part.equipment.ingress)
    assert silent == (None, None, None, None)
    assert part.equipment.markings is None


def test_line_feeds_are_allowed_in_text() -> None:
    text = GOOD.replace("item: 1", 'item: 1, description: "a\\nb\\tc"')
    assert read(text.encode(), "x").parts[0].description == "a\nb\tc"


def test_what_follows_a_refusal_is_not_said_again(faults: Faults) -> None:
    assert len(faults(GOOD.replace("code: IEC", "code: &a IEC\nedition: *a"))) == 2


def test_one_form_for_all_messages() -> None:
    with pytest.raises(InputErrors) as caught:
        read(GOOD.replace("IEC", "IEK").encode(), "a/b.yaml")
    assert str(caught.value) == (
        "a/b.yaml:3:7: `code`: 'IEK' is not known here; write NEC, IEC or ATEX; no other code is "
        "known (NFPA 70, IEC 60079-14, 1999/92/EC)"
    )
